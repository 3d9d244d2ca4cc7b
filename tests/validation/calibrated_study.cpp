#include "study.hpp"

#include <jointrom/simulate/random_numbers.hpp>

#include <algorithm>
#include <cmath>

namespace jointrom::validation {
namespace {

/// A sensor in volts that is not quite linear; each seed is another one.
SensorModel volts_sensor(std::uint64_t seed) {
    RandomNumbers random(seed, "gain of the sensor");
    return {.neutral_reading = 2.5,
            .reading_per_deg = 0.0125 * (1.0 + 0.1 * random.normal()),
            .unit = "V",
            .noise_deg = 0.3,
            .nonlinearity_deg = 0.5,
            .resolution = 0.0001};
}

/// Postures on a protractor, each known to within `known_u_deg`, which the instructor did not state.
Calibration calibration_of(const SensorModel& sensor, std::uint64_t seed, double known_u_deg) {
    Simulation simulation;
    simulation.seed = seed;
    simulation.file = "calibration.csv";
    simulation.sensor = sensor;
    std::vector<double>& postures = simulation.movement.postures_deg;
    RandomNumbers random(seed, "protractor");
    std::vector<double> known;
    for (double angle_deg = -10.0; angle_deg <= 150.0; angle_deg += 16.0) {
        known.push_back(angle_deg);
        postures.push_back(angle_deg + known_u_deg * random.normal());
    }
    simulation.movement.holding = Seconds(2.0);
    const SimulatedRecording recording = simulate(simulation, planned_recordings(simulation).front());
    std::vector<CalibrationPoint> points;
    for (const TruePhase& phase : recording.movement.phases()) {
        if (phase.start_deg != phase.end_deg) {
            continue;
        }
        double sum = 0.0;
        std::size_t count = 0;
        for (std::size_t i = 0; i < recording.time_s.size(); ++i) {
            if (recording.time_s[i] >= phase.start_s && recording.time_s[i] < phase.end_s) {
                sum += recording.reading[i];
                ++count;
            }
        }
        points.push_back({.known_deg = known[points.size()], .reading = sum / static_cast<double>(count)});
    }
    Findings ignored;
    return fit_calibration(std::move(points),
                           {.unit = "V", .motion = joint_motion("elbow"), .side = Side::right, .bend_limit_deg = 1e9},
                           ignored);
}

struct Tally {
    Errors highest, lowest, arc, mean_top, mean_arc;
};

void add(Errors& errors, Degrees value, double truth_deg, const Budget& budget) {
    errors.add(value.value() - truth_deg, budget.expanded_uncertainty());
}

void add_to(Tally& tally, const Measured& measured) {
    const RangeOfMotion& range = measured.measurements.range;
    const double high_deg = measured.truth.movement.highest_deg();
    const double low_deg = measured.truth.movement.lowest_deg();
    add(tally.highest, range.positive.angle, high_deg, range.positive.budget);
    add(tally.lowest, range.negative.angle, low_deg, range.negative.budget);
    add(tally.arc, range.arc, high_deg - low_deg, range.arc_budget);
    if (range.mean_positive) {
        add(tally.mean_top, range.mean_positive->mean, measured.truth.own_top_deg, range.mean_positive->budget);
    }
}

Row row(const std::string& name, const Errors& errors) {
    return {name,
            std::to_string(errors.count()),
            number(errors.bias(), 2),
            number(errors.sd(), 2),
            number(errors.mean_u95(), 2),
            number(errors.coverage_pct(), 1)};
}

}  // namespace

Section calibrated_study(std::size_t repeats) {
    Tally scatter_of_sensor, scatter_of_protractor;
    Section section;
    for (std::size_t i = 0; i < repeats; ++i) {
        for (const bool is_linear : {false, true}) {
            Simulation simulation;
            simulation.seed = 500000 + i;
            simulation.sensor = volts_sensor(simulation.seed);
            simulation.movement.bottom_deg = {-3.0};
            simulation.movement.top_deg = {100.0 + 40.0 * RandomNumbers(simulation.seed, "top").uniform()};
            simulation.sensor.nonlinearity_deg = is_linear ? 0.0 : 0.5;
            References references;
            references.calibration = calibration_of(simulation.sensor, simulation.seed, is_linear ? 0.5 : 0.0);
            add_to(is_linear ? scatter_of_protractor : scatter_of_sensor,
                   measure_simulated(simulation, {}, references));
            ++section.recordings;
        }
    }
    PageTable table{{"value", "n", "bias", "SD", "U", "held %"}, {}};
    for (const auto& [what, tally] : {std::pair(std::string("sensor not linear: "), &scatter_of_sensor),
                                      std::pair(std::string("protractor misread: "), &scatter_of_protractor)}) {
        table.rows.push_back(row(what + "highest angle", tally->highest));
        table.rows.push_back(row(what + "lowest angle", tally->lowest));
        table.rows.push_back(row(what + "arc", tally->arc));
        table.rows.push_back(row(what + "mean top", tally->mean_top));
    }
    section.tables = {table};
    section.checks = {
        {"at least 93 % of the intervals of a calibrated highest angle hold it",
         scatter_of_sensor.highest.coverage_pct() >= 93.0},
        {"at least 93 % of the intervals of a calibrated arc hold it", scatter_of_sensor.arc.coverage_pct() >= 93.0},
        {"a misread protractor does not make intervals too narrow",
         scatter_of_protractor.highest.coverage_pct() >= 93.0}};
    return section;
}

}  // namespace jointrom::validation
