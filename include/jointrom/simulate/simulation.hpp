#pragma once

/// \file
/// A recording to be simulated: what the joint does, what the sensor makes of it, what the muscles show, and how the
/// logger writes it down.

#include <jointrom/angle/joint_motion.hpp>
#include <jointrom/core/sample_span.hpp>
#include <jointrom/core/units.hpp>

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <utility>
#include <vector>

namespace jointrom {

/// What the joint does. A list with fewer entries than repetitions starts again from its beginning.
struct MovementPlan {
    std::size_t repetitions = 5;
    std::vector<double> top_deg = {140.0};
    std::vector<double> bottom_deg = {0.0};  ///< where each repetition ends; the first starts at neutral, 0
    std::vector<double> postures_deg = {};   ///< held one after the other; when there are any, no repetitions
    double top_sd_deg = 1.0;                 ///< between repetitions
    double bottom_sd_deg = 0.5;
    double tempo_sd_pct = 5.0;                      ///< of the time for raising and lowering
    Seconds rest{2.0};                              ///< at neutral, before the first
    std::vector<Seconds> raising = {Seconds(1.1)};  ///< also from posture to posture
    Seconds holding{0.8};                           ///< at the top; also in each posture
    std::vector<Seconds> lowering = {Seconds(1.5)};
    Seconds pause{0.9};     ///< at the bottom, between repetitions
    Seconds end_rest{1.5};  ///< at neutral, after the last
};

/// From the true angle to what the sensor gives, in order: slippage and drift, offset and gain, noise and hum, spikes,
/// the ends of its range, turning over, steps, a plug that comes loose.
struct SensorModel {
    std::optional<double> neutral_reading = {};  ///< unset: 180 (deg)
    std::optional<double> reading_per_deg = {};  ///< unset: -1, or on the left, where it is mounted mirrored, 1
    std::string unit = "deg";
    double noise_deg = 0.3;         ///< SD, white
    double nonlinearity_deg = 0.0;  ///< SD over the angle; one sensor a seed
    double hum_deg = 0.0;           ///< amplitude of mains hum
    double resolution = 0.01;       ///< step of the reading, in its unit; 0: none but that of the decimals
    std::optional<std::pair<double, double>> limits = {};  ///< readings beyond them stick there
    std::optional<double> wraps_at = {};                   ///< the reading starts again at 0 there
    double drift_deg_per_min = 0.0;
    std::vector<std::pair<double, double>> slips = {};  ///< time in s, and how many degrees more it gives from then on
    std::size_t spikes = 0;                             ///< single samples that are far off, at random
    double spike_deg = 60.0;
    std::optional<TimeWindow> stuck = {};  ///< one reading all the while
};

struct MuscleBurst {
    double start_s = 0.0;
    double end_s = 0.0;
    double sd_mv = 0.0;
};

/// A muscle that tires: both change evenly from start to end and stay so.
struct MuscleFatigue {
    double start_s = 0.0;
    double end_s = 0.0;
    Hertz median_frequency{};
    double sd_factor = 1.0;  ///< of bursts
};

/// A raw surface electromyogram: noise whose SD depends on what the joint does.
struct MuscleModel {
    std::string name;
    double raising_mv = 0.0;
    double holding_mv = 0.0;
    double lowering_mv = 0.0;
    double rest_mv = 0.005;
    double lead_ms = 60.0;    ///< active before the repetition starts
    double early_ms = 100.0;  ///< rests before the repetition ends
    Hertz median_frequency{80.0};
    std::vector<MuscleBurst> bursts = {};  ///< beside those of the movement
    std::optional<MuscleFatigue> fatigue = {};
};

/// How the logger samples and writes.
struct LoggerModel {
    Hertz rate{200.0};
    Hertz angle_rate{};      ///< unset: as the rest; slower: its cells are blank in between
    double jitter_ms = 0.0;  ///< SD of the sampling times, which the time column tells truly
    std::vector<TimeWindow> gaps = {};
    bool gaps_are_blank = false;  ///< blank cells instead of missing rows
    double hum_mv = 0.0;          ///< amplitude of mains hum in each electromyogram
    Hertz mains{50.0};
    char delimiter = ',';
    char decimal_mark = '.';
    bool byte_order_mark = false;
    bool carriage_returns = false;
    bool units_in_row = false;     ///< a row of units below the headings
    bool square_brackets = false;  ///< about the units in the headings, instead of round ones
    std::vector<std::string> preamble = {};
    std::string angle_heading = {};    ///< empty: "Elbow angle", for instance
    std::optional<int> decimals = {};  ///< of the reading; unset: as the resolution needs
};

/// How people and mountings differ. Each person has the same true values in every recording of one seed.
struct ClassModel {
    std::size_t students = 0;  ///< 0: the one participant that is named
    double top_between_sd_deg = 6.0;
    double bottom_between_sd_deg = 2.0;
    double side_sd_deg = 1.5;  ///< of each side about the person's own
    double tempo_between_pct = 10.0;
    double mounting_sd_deg = 3.0;  ///< of the reading at neutral
};

/// One recording, or those of a class.
struct Simulation {
    std::uint64_t seed = 1;
    std::string file = "{participant}_{side}_{joint}.csv";  ///< {trial} too
    std::string participant = "P01";
    std::string joint = "elbow";
    std::string motion = {};
    std::vector<Side> sides = {Side::right};
    std::size_t trials = 1;
    std::string note = {};  ///< a remark that goes into the truth
    MovementPlan movement = {};
    SensorModel sensor = {};
    std::vector<MuscleModel> muscles = {};
    LoggerModel logger = {};
    ClassModel people = {};
};

}  // namespace jointrom
