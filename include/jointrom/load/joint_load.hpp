#pragma once

/// \file
/// Moment, power and work of the muscles about a joint while it moves a limb and a load: over time, in a stretch of
/// time, in every phase and repetition.

#include <jointrom/angle/angle_trace.hpp>
#include <jointrom/core/finding.hpp>
#include <jointrom/core/uncertainty.hpp>
#include <jointrom/load/load_model.hpp>
#include <jointrom/movement/contraction.hpp>
#include <jointrom/movement/phases.hpp>
#include <jointrom/movement/repetitions.hpp>

#include <cstddef>
#include <limits>
#include <optional>
#include <span>
#include <string>
#include <vector>

namespace jointrom {

/// One value a sample of the trace; missing (NaN) in its gaps.
struct LoadSeries {
    std::vector<double> moment_nm;       ///< of the muscles, positive in the positive direction of the motion
    std::vector<double> gravity_nm;      ///< the part of it that holds the weights
    std::vector<double> power_w;         ///< positive: the muscles do work on the load; negative: they take it up
    std::vector<double> energy_j;        ///< of limb and load, from hanging at rest on: height and movement
    double acceleration_u_deg_s2 = 0.0;  ///< acceleration_noise_deg_s2() of the trace
};

/// Net moment of the muscles, its power, and the energy that it changes.
///
/// Method: M = g (sum of m L) sin(phi) + I alpha; P = M omega; E = g (sum of m L) (1 - cos(phi)) + I omega^2 / 2, with
/// phi the angle of the limb from hanging and omega, alpha the trace's velocity and acceleration. All beyond the joint
/// is one rigid body, the near part of the body is still, and the plane of movement is vertical. In rest and holding
/// the joint is still and alpha is taken as 0: what there is of it is noise.
/// Missing samples: propagate.
///
/// \param phases movement_phases() of the same trace; none: alpha counts everywhere
/// \par Accuracy peak moment and power of a minimum-jerk curl within 1e-4 and 1e-3 at 1000 Hz (NumPy 1.24.2)
/// \par Reference D. A. Winter, Biomechanics and Motor Control of Human Movement, 2005, chapters 5 and 6
[[nodiscard]] LoadSeries load_series(const AngleTrace& trace, const LoadModel& model,
                                     std::span<const Phase> phases = {});

/// Which muscles a moment asks for.
enum class MuscleGroup {
    undecided,  ///< the moment's mean size is smaller than the expanded uncertainty of its peak
    positive,   ///< those that move the joint in the positive direction
    negative,
    both  ///< by turns: neither has nine tenths of the impulse
};

/// "flexors", "extensors", "flexors and extensors"; empty when undecided.
[[nodiscard]] std::string name_of(MuscleGroup group, const JointMotion& motion);

/// The load in a stretch of time. Work is the change of energy, so it depends on no acceleration; it is missing (NaN)
/// when there is a gap.
struct SpanLoad {
    SampleSpan span;
    double mean_moment_nm = std::numeric_limits<double>::quiet_NaN();
    double peak_moment_nm = std::numeric_limits<double>::quiet_NaN();  ///< the largest in size, with its sign
    std::size_t peak_sample = 0;
    Budget peak_budget = {};
    double mean_power_w = std::numeric_limits<double>::quiet_NaN();
    double peak_power_w = std::numeric_limits<double>::quiet_NaN();  ///< the largest in size, with its sign
    double work_j = std::numeric_limits<double>::quiet_NaN();        ///< done on limb and load, less what was taken up
    Budget work_budget = {};
    double concentric_work_j = std::numeric_limits<double>::quiet_NaN();  ///< done, 0 or more
    double eccentric_work_j = std::numeric_limits<double>::quiet_NaN();   ///< taken up, 0 or less
    MuscleGroup group = MuscleGroup::undecided;
};

/// The load in a stretch of the trace.
///
/// Method: work from the first sample to the one behind the last (as phases count their excursion), or to the last
/// before a gap or the end. The uncertainty of the moment holds masses, distances, the limb's parameters, the sensor's
/// angle, the posture of the near part, the noise of the acceleration, and that the largest of several noisy samples is
/// too large: the mean of the largest of as many normal values as the noise of moving samples has chances, two a period
/// of the low-pass cut-off (Blom 1958). That of the work holds the same without acceleration; calibration gain, neutral
/// zero and posture act on both ends alike. What the filter takes off a fast movement is in neither.
///
/// \pre span is not empty and lies within the trace
/// \par Accuracy the largest moment is within its expanded uncertainty in 93 % or more of 200 noisy recordings
[[nodiscard]] SpanLoad load_over(const AngleTrace& trace, const LoadModel& model, const LoadSeries& series,
                                 SampleSpan span);

struct PhaseLoad {
    Phase phase;
    std::optional<std::size_t> repetition;  ///< number of the repetition that it belongs to; none: between them
    SpanLoad load;
    /// Concentric where nine tenths of the work is done on the load, eccentric where nine tenths is taken up.
    Contraction contraction = Contraction::undecided;
};

struct RepetitionLoad {
    Repetition repetition;
    SpanLoad load;
};

struct JointLoad {
    LoadSeries series;
    std::vector<PhaseLoad> phases = {};
    std::vector<RepetitionLoad> repetitions = {};
    SpanLoad whole = {};     ///< of the whole trace; no work when it has gaps
    Findings findings = {};  ///< acceleration-doubtful, load-gap
};

/// The load of a recording by phase and repetition.
///
/// \param phases      movement_phases() of the same trace
/// \param repetitions of the same trace
/// \par Complexity O(n)
[[nodiscard]] JointLoad joint_load(const AngleTrace& trace, const LoadModel& model, std::span<const Phase> phases,
                                   std::span<const Repetition> repetitions);

}  // namespace jointrom
