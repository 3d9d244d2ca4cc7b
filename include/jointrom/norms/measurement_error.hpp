#pragma once

/// \file
/// How far measurements of a joint differ although nothing has changed, as published. The typical error and the least
/// detectable change that the program works with stand in the joint's definition (data/joints.json).

#include <jointrom/norms/norm_row.hpp>

#include <optional>
#include <span>
#include <string>
#include <vector>

namespace jointrom {

struct MeasurementError {
    std::string source;                   ///< key of the source
    std::string joint;                    ///< empty: any joint
    const JointMotion* motion = nullptr;  ///< unset: any motion of the joint
    MotionPart part = MotionPart::arc;    ///< meaningless without a motion
    std::string statistic;                ///< "MDC95", "SEM", "limits of agreement" and others
    Degrees low;                          ///< the figure, or the lower of two
    Degrees high;                         ///< unset for a single figure
    std::string raters;                   ///< "same", "two", "test-retest" or empty
    std::string instrument;
    Provenance provenance = Provenance::found;
    std::string note;
};

/// Every figure of the built-in table (data/norms/measurement_error.csv), in its order.
[[nodiscard]] std::span<const MeasurementError> measurement_errors();

/// The figures for a joint: its own, then those for any joint.
/// \param part a direction leaves out figures of the other direction and of the arc; the arc leaves out none
[[nodiscard]] std::vector<const MeasurementError*> measurement_errors(const JointMotion& motion,
                                                                      MotionPart part = MotionPart::arc);

/// The least change or side difference of one joint that is more than measurement error.
struct ChangeLimit {
    Degrees value;
    std::string what;    ///< which statistic, in words
    std::string source;  ///< key of the source
};

/// The figure of the joint's definition for a part.
///
/// Method: where an arc has no figure of its own, the greater of those of both directions. Nothing when no source that
/// is known gives one; then common practice takes 5 degrees (Boone 1978: testers differ by more than that).
[[nodiscard]] std::optional<ChangeLimit> detectable_change(const JointMotion& motion, MotionPart part);

}  // namespace jointrom
