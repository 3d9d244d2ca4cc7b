#pragma once

/// \file
/// The joint angle over time, ready to be measured. Only angle/ makes one, so nothing that measures can be handed a raw
/// reading by mistake.

#include <jointrom/angle/joint_motion.hpp>
#include <jointrom/core/sample_span.hpp>
#include <jointrom/core/units.hpp>

#include <cstddef>
#include <span>
#include <string>
#include <vector>

namespace jointrom {

/// Where the uncertainty of a trace comes from. All are standard uncertainties.
struct TraceUncertainty {
    double gain_relative = 0.0;       ///< of the sensor's gain, as a fraction: grows with the distance from neutral
    double gain_dof = 1e300;          ///< degrees of freedom of gain_relative
    Degrees gain_centre{0.0};         ///< the angle from which gain_relative acts: neutral, or the calibration's centre
    Degrees linearity{0.0};           ///< of one reading about the calibration line (or the stated sensor error)
    double linearity_dof = 1e300;     ///< degrees of freedom of linearity
    Degrees zero{0.0};                ///< of the zero: shifts every angle alike, cancels in an arc
    double zero_dof = 1e300;          ///< degrees of freedom of zero
    Degrees noise{0.0};               ///< SD of what the low-pass filter took out: noise of one sample before filtering
    bool zero_is_read = false;        ///< from a posture, by the sensor itself: its linearity acts there as well
    bool zero_is_calibrated = false;  ///< the zero is the calibration's, not a neutral posture of the recording
    bool gain_is_measured = false;    ///< by a calibration; false: taken as exact
    bool linearity_is_measured = false;  ///< by the scatter of a calibration; false: assumed
};

/// A calibrated, zeroed, sign-corrected, filtered joint angle with velocity and acceleration, at a uniform rate.
/// Samples inside a gap are NaN in every series; `pieces()` are the stretches without gaps.
class AngleTrace {
  public:
    [[nodiscard]] Hertz rate() const noexcept { return rate_; }
    [[nodiscard]] Seconds start() const noexcept { return start_; }
    [[nodiscard]] std::size_t size() const noexcept { return angle_deg_.size(); }
    /// Time of sample i on the recording's clock. Also valid for i == size(), the end of the last sample.
    [[nodiscard]] Seconds time(std::size_t i) const noexcept {
        return Seconds(start_.value() + static_cast<double>(i) / rate_.value());
    }
    [[nodiscard]] Seconds duration(SampleSpan span) const noexcept {
        return Seconds(static_cast<double>(span.size()) / rate_.value());
    }

    [[nodiscard]] std::span<const double> angle_deg() const noexcept { return angle_deg_; }
    /// The same angle before the low-pass filter.
    [[nodiscard]] std::span<const double> unfiltered_deg() const noexcept { return unfiltered_deg_; }
    [[nodiscard]] std::span<const double> velocity_deg_s() const noexcept { return velocity_deg_s_; }
    [[nodiscard]] std::span<const double> acceleration_deg_s2() const noexcept { return acceleration_deg_s2_; }
    [[nodiscard]] std::span<const SampleSpan> pieces() const noexcept { return pieces_; }

    [[nodiscard]] const JointMotion& motion() const noexcept { return motion_; }
    [[nodiscard]] Side side() const noexcept { return side_; }
    /// +1 where the sensor's degrees rise with the positive direction, -1 where they fall.
    [[nodiscard]] int reading_sign() const noexcept { return reading_sign_; }
    [[nodiscard]] const TraceUncertainty& uncertainty() const noexcept { return uncertainty_; }
    /// Low-pass cut-off: the -3 dB frequency of both passes together; unset when no filter was applied.
    [[nodiscard]] Hertz lowpass() const noexcept { return lowpass_; }
    /// What was done to the reading, in order, in words with numbers; e.g. "zero at 0.00-1.50 s: 176.2 deg".
    [[nodiscard]] std::span<const std::string> steps() const noexcept { return steps_; }

  private:
    friend class AngleTraceBuilder;  ///< src/angle/angle_trace_builder.hpp

    Hertz rate_;
    Seconds start_;
    std::vector<double> angle_deg_, unfiltered_deg_, velocity_deg_s_, acceleration_deg_s2_;
    std::vector<SampleSpan> pieces_;
    JointMotion motion_;
    Side side_ = Side::unknown;
    int reading_sign_ = 1;
    TraceUncertainty uncertainty_;
    Hertz lowpass_;
    std::vector<std::string> steps_;
};

/// A trace from angles that are anatomical already: a file that `angles` wrote, or a model.
///
/// Velocity and acceleration are central differences (one-sided at the ends of a piece); nothing is filtered.
/// \param angle_deg anatomical angle, degrees, at `rate`; NaN inside gaps
/// \throws Failure unreadable_data "too-short" when no piece has three samples
[[nodiscard]] AngleTrace trace_from_angles(std::vector<double> angle_deg, Hertz rate, Seconds start = Seconds(0.0),
                                           const JointMotion& motion = unknown_joint_motion(),
                                           Side side = Side::unknown, const TraceUncertainty& uncertainty = {});

}  // namespace jointrom
