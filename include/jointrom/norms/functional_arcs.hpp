#pragma once

/// \file
/// How far daily tasks move the joints, and which of them a measured range reaches.

#include <jointrom/norms/norm_row.hpp>

#include <cstddef>
#include <optional>
#include <span>
#include <string>
#include <vector>

namespace jointrom {

/// The part of a joint's motion that a task uses, on the joint's axis: 0 in neutral, positive in the positive
/// direction.
struct FunctionalArc {
    std::string source;  ///< key of the source
    const JointMotion* motion = nullptr;
    MotionPart part = MotionPart::arc;  ///< the direction that the source speaks of
    std::string task;
    Degrees low;
    Degrees high;
    Degrees low_sd;  ///< between people; unset where the source gives none
    Degrees high_sd;
    std::optional<std::size_t> n;
    Provenance provenance = Provenance::found;
    std::string note;
};

/// Every arc of the built-in table (data/norms/functional_arcs.csv), in its order.
[[nodiscard]] std::span<const FunctionalArc> functional_arcs();

/// The arcs of one joint motion; empty when no source covers it.
/// \param part a direction leaves out arcs that are in the other direction; the arc leaves out none
[[nodiscard]] std::vector<const FunctionalArc*> functional_arcs(const JointMotion& motion,
                                                                MotionPart part = MotionPart::arc);

/// What a measured range leaves of a task.
struct TaskCover {
    const FunctionalArc* arc;
    Degrees short_at_low;   ///< how much farther the joint would have to go in the negative direction; 0 when it does
    Degrees short_at_high;  ///< and in the positive one

    [[nodiscard]] bool is_covered() const noexcept;
};

/// Which tasks lie inside the range from `low` to `high` (signed angles on the joint's axis).
///
/// Method: a task is covered when neither end is short; ends that touch count as covered. An unset end of the measured
/// range is unset in the result, and the task is not covered.
[[nodiscard]] std::vector<TaskCover> task_cover(const JointMotion& motion, Degrees low, Degrees high);

}  // namespace jointrom
