#pragma once

/// \file
/// From a channel as logged to the anatomical angle: the one way by which a reading becomes an AngleTrace.

#include <jointrom/angle/angle_trace.hpp>
#include <jointrom/angle/calibration.hpp>
#include <jointrom/angle/neutral.hpp>
#include <jointrom/core/finding.hpp>
#include <jointrom/recording/recording.hpp>

#include <optional>
#include <string>

namespace jointrom {

/// The low-pass filter that takes the noise out.
struct LowpassChoice {
    enum class Rule {
        fixed,      ///< at `cutoff`
        automatic,  ///< where the residual analysis puts it, else at `cutoff`
        off
    };
    Rule rule = Rule::fixed;
    Hertz cutoff{6.0};  ///< -3 dB of both passes; 6 Hz suits voluntary movement (common practice: 4 to 8 Hz)
};

/// Every choice on the way from reading to angle. The defaults suit an untouched export.
struct PreparationOptions {
    JointMotion motion = unknown_joint_motion();
    Side side = Side::unknown;
    std::optional<Calibration> calibration = std::nullopt;
    NeutralChoice neutral = {};
    std::optional<bool> mirror = std::nullopt;  ///< turn the sign round, or leave it; unset: from what else is known
    LowpassChoice lowpass = {};
    TimeWindow window = {};       ///< the part to use; unset: all of it. The neutral window may lie outside.
    std::string angle_unit = {};  ///< instead of the channel's unit
    Degrees sensor_error{
        2.0};  ///< half-width of the error of a sensor that was not calibrated (common practice, no source)
    Seconds longest_bridged{0.1};  ///< gaps up to this, or two samples, are filled by straight lines (common practice)
    bool keep_spikes = false;      ///< leave samples that no joint can have made where they are
};

/// The anatomical angle over time.
///
/// Method, in this order: jumps of a full turn are joined up; the unit becomes degrees, by the calibration if there is
/// one; spikes (three samples at most) are taken out; the samples are put at an even rate; short gaps are filled,
/// longer ones split the trace; each piece is filtered (Butterworth, order 2, forward and backward, cut-off corrected
/// for both passes); zero is put at the neutral posture and the sign is settled; the window is cut out; velocity and
/// acceleration are central differences. Missing samples: as above. \param findings everything that was assumed, and
/// what looks wrong: unit-assumed, uncalibrated, joint-unknown,
///   calibration-extrapolated, -side-changed, -other-joint, wrap-around, spikes, irregular-sampling, gap-bridged, gap,
///   filter-lowered, neutral-..., direction-..., angle-implausible, resting-level-drift
/// \throws Failure "calibration-needed", "calibration-unit", "angle-unit-unknown", "window-empty",
///   "neutral-window-empty", "cutoff-not-positive" (usage); "too-short", "gap-too-long" (unreadable_data)
/// \par Reference D. A. Winter, Biomechanics and Motor Control of Human Movement, 4th ed. 2009 (filter).
[[nodiscard]] AngleTrace prepare_angle(const Channel& channel, const PreparationOptions& options, Findings& findings);

/// The same with the channel's samples used up, which saves a copy of them.
[[nodiscard]] AngleTrace prepare_angle(Channel&& channel, const PreparationOptions& options, Findings& findings);

/// The neutral zero measured in a recording of its own, to be used for others, in sensor degrees.
///
/// Method: the mean over the options' neutral window; else over all of the recording if it is still, or over its first
/// still posture, or (with finding neutral-not-still) over all of it. The options' `window` is not applied.
/// \param source   name for the steps, e.g. the file's
/// \param findings neutral-not-still only: what else is odd about that recording does not concern the trial
/// \throws Failure as prepare_angle()
[[nodiscard]] NeutralChoice neutral_of_recording(const Channel& channel, const PreparationOptions& options,
                                                 const std::string& source, Findings& findings);

}  // namespace jointrom
