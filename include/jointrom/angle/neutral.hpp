#pragma once

/// \file
/// Where zero is put: the neutral posture of the joint in the sensor's degrees.

#include <jointrom/angle/joint_motion.hpp>
#include <jointrom/angle/posture.hpp>
#include <jointrom/core/finding.hpp>

#include <limits>
#include <optional>
#include <span>
#include <string>

namespace jointrom {

/// How the neutral posture is to be found.
struct NeutralChoice {
    enum class Rule {
        first_still,  ///< the first posture held still, or the sensor's own zero where that is plainly anatomical
        window,       ///< the mean over `window`
        value         ///< the reading `value`, e.g. one measured in another recording
    };
    Rule rule = Rule::first_still;
    TimeWindow window = {};
    Degrees value = {};                                                   ///< in the sensor's (calibrated) degrees
    Degrees u = Degrees(0.0);                                             ///< standard uncertainty of `value`
    double degrees_of_freedom = std::numeric_limits<double>::infinity();  ///< of `u`
    std::string source = "given";                                         ///< where `value` comes from
};

struct Neutral {
    Degrees zero;  ///< sensor degrees in the neutral posture
    Degrees u;     ///< its standard uncertainty; unset when the sensor's own zero was kept
    double degrees_of_freedom = std::numeric_limits<double>::infinity();
    Degrees noise;     ///< SD of one sample in the posture; unset without one
    int sign = 0;      ///< +1 or -1 when finding zero has settled the sign as well, else 0
    std::string step;  ///< what was done, in words
};

/// What is known where the neutral posture is looked for.
struct NeutralContext {
    Hertz rate;
    Seconds start;                      ///< time of the first sample
    SampleSpan used;                    ///< the samples in which a first still posture is looked for
    std::span<const SampleSpan> still;  ///< still_stretches() of those samples
    const JointMotion& motion;
    std::optional<int> sign = std::nullopt;  ///< when it is known already
};

/// The neutral zero of a reading.
///
/// Method: a window gives its mean. Else the first still posture is neutral, with two exceptions for
/// one that reads more than 30 deg away from 0 and from 180. Where the joint moved by more than 30 deg before it, the
/// first posture that reads nearer to them is taken (finding neutral-suspect). Where the sensor plainly shows joint
/// angles, its own zero is kept: the 1 to 99 % of all readings lie within what the joint can reach from there, for one
/// sign and not for the other. The sensor's zero is also kept where nothing is held still.
/// Missing samples: skipped.
///
/// \param angle_deg uniformly sampled, in the sensor's (calibrated) degrees, joined up across full turns
/// \param findings  neutral-assumed, neutral-sensor-zero, neutral-suspect, neutral-not-still
/// \throws Failure usage "neutral-window-empty" when the window holds no sample
[[nodiscard]] Neutral find_neutral(std::span<const double> angle_deg, const NeutralContext& context,
                                   const NeutralChoice& choice, Findings& findings);

}  // namespace jointrom
