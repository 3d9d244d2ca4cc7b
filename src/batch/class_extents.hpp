#pragma once

/// \file
/// How far each participant of a class moved a joint, by group.

#include <jointrom/batch/norm_comparison.hpp>

#include <map>
#include <string>
#include <vector>

namespace jointrom {

/// Mean of one participant's values.
struct ParticipantExtent {
    double extent_deg;
    double expanded_deg;  ///< mean expanded uncertainty; 0 when it is not known
    std::optional<Sex> sex;
    std::optional<double> age_years;
    std::string name;  ///< of the participant, else the row's id
};

/// One direction of one group.
struct GroupExtents {
    std::vector<std::string> group;
    const JointMotion* motion;
    MotionPart part;
    std::string quantity;
    std::vector<ParticipantExtent> participants;
};

/// The columns of `by`, with joint and motion on top where they are not among them.
[[nodiscard]] std::vector<std::string> columns_with_joint(const std::vector<std::string>& by);

/// Every group of every quantity that is an extent. A value without participant is one of its own.
[[nodiscard]] std::vector<GroupExtents> class_extents(const LongTable& table, std::span<const NumberColumn> expanded,
                                                      const NormComparisonOptions& options);

/// The rows that apply to a participant.
struct ApplyingNorms {
    std::map<std::string, const NormRow*> with_range;  ///< by source, the first of each that has a normal range
    std::string reason;                                ///< why no row applies; empty when some do
};

[[nodiscard]] ApplyingNorms norms_for(const ParticipantExtent& participant, const GroupExtents& group,
                                      const NormTable& norms, const NormComparisonOptions& options);

}  // namespace jointrom
