#pragma once

/// \file
/// The only way to an AngleTrace. Private to angle/: whoever holds these parts vouches that the angle is anatomical.

#include <jointrom/angle/angle_trace.hpp>

namespace jointrom {

/// What a trace is made of. Samples that are NaN in `angle_deg` are gaps.
struct AngleTraceParts {
    std::vector<double> angle_deg = {};
    std::vector<double> unfiltered_deg = {};  ///< empty: the same as angle_deg
    Hertz rate = {};
    Seconds start{0.0};
    JointMotion motion = unknown_joint_motion();
    Side side = Side::unknown;
    int reading_sign = 1;
    TraceUncertainty uncertainty = {};
    Hertz lowpass = {};
    std::vector<std::string> steps = {};
};

class AngleTraceBuilder {
  public:
    /// Adds pieces, velocity and acceleration to the parts. Stretches of fewer than three samples become gaps.
    /// \throws Failure unreadable_data "too-short" when no piece has three samples
    [[nodiscard]] static AngleTrace build(AngleTraceParts parts);
};

}  // namespace jointrom
