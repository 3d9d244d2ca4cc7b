#pragma once

/// \file
/// Recordings of which everything is known.

#include <jointrom/simulate/simulation.hpp>
#include <jointrom/simulate/true_movement.hpp>

#include <cstddef>
#include <string>
#include <vector>

namespace jointrom {

struct SimulatedMuscle {
    MuscleModel model;
    std::vector<MuscleBurst> bursts;  ///< all that it truly had, in order of time
    std::vector<double> mv;
};

/// One of the recordings that a simulation asks for.
struct PlannedRecording {
    std::string file;
    std::string participant;
    const JointMotion* motion = nullptr;
    Side side = Side::right;
    std::size_t trial = 1;
};

/// One recording and its truth. Blank cells are NaN.
struct SimulatedRecording {
    PlannedRecording plan;
    double own_top_deg = 0.0;  ///< the mean top of this person and side, before repetitions differ
    TrueMovement movement{0.0};
    double neutral_reading = 0.0;
    double reading_per_deg = 0.0;
    SensorModel sensor;
    LoggerModel logger;
    std::uint64_t seed = 0;
    std::string note;
    std::vector<double> time_s;
    std::vector<double> reading;
    std::vector<SimulatedMuscle> muscles;
};

/// The recordings that simulations ask for: each student, side and trial.
/// \throws Failure usage "simulation-invalid" for what cannot be simulated or two names that are the same;
///   "joint-unknown", "motion-unknown"
[[nodiscard]] std::vector<PlannedRecording> planned_recordings(const Simulation& simulation);

/// One of planned_recordings().
///
/// Method: the streams of random numbers depend on the seed, on the name of the file and on what they are for, so a
/// recording stays the same when others, or muscles, are added. Repetitions' tops, bottoms and times are normal about
/// the person's own; these are normal about the plan's; none is farther off than three SD. Electromyograms are noise
/// with the spectrum P(w) ~ (1 - cos w) / (1 + p^2 - 2 p cos w)^2, made at 2000 Hz or more and sampled without a
/// filter, so that a slow logger aliases them, as it does with hum.
/// \throws Failure usage "simulation-invalid" when it would be too long
[[nodiscard]] SimulatedRecording simulate(const Simulation& simulation, const PlannedRecording& plan);

/// What a logger would have written. Deterministic to the byte.
[[nodiscard]] std::string recording_text(const SimulatedRecording& recording);

/// The truth as JSON (docs/commands/simulate.md).
[[nodiscard]] std::string truth_text(const SimulatedRecording& recording);

/// "a.csv" has its truth in "a.truth.json".
[[nodiscard]] std::string truth_file(const std::string& recording_file);

/// A manifest for `batch`.
[[nodiscard]] std::string manifest_text(const std::vector<PlannedRecording>& recordings);

}  // namespace jointrom
