#include "study.hpp"

#include <jointrom/core/number_text.hpp>

#include <algorithm>
#include <cmath>
#include <map>

namespace jointrom::validation {
namespace {

/// One recording's place in the grid.
struct Cell {
    double noise_deg, rate_hz, raising_s, holding_s;
};

/// Where the speed of a minimum-jerk movement passes 5 % of its peak, as a share of the movement's time: the root of
/// 16 x^2 (1 - x)^2 = 0.05.
const double threshold_share = 0.5 * (1.0 - std::sqrt(1.0 - std::sqrt(0.05)));

struct Tally {
    Errors highest, lowest, arc, mean_top;    // deg
    Errors start, end, turn;                  // s
    Errors raising_time_pct, peak_speed_pct;  // %
    std::size_t recordings = 0, counted_right = 0;
};

double away_from(double value, double from, double to) {
    return value < from ? value - from : std::max(0.0, value - to);
}

void add_repetitions(Tally& tally, const Measured& measured) {
    const auto& truth = measured.truth.movement.repetitions();
    const auto& found = measured.measurements.repetitions.rows;
    tally.counted_right += truth.size() == found.size() ? 1U : 0U;
    for (const TrueRepetition& repetition : truth) {
        const double middle_s = 0.5 * (repetition.top_from_s + repetition.top_to_s);
        const auto match = std::ranges::find_if(
            found, [&](const Repetition& row) { return row.start.value() < middle_s && middle_s < row.end.value(); });
        if (match == found.end()) {
            tally.start.miss();
            continue;
        }
        tally.start.add(match->start.value() - repetition.start_s);
        tally.end.add(match->end.value() - repetition.end_s);
        tally.turn.add(away_from(match->turn.value(), repetition.top_from_s, repetition.top_to_s));
        const double raising_s = repetition.top_from_s - repetition.start_s;
        tally.raising_time_pct.add(100.0 * (match->raising.value() / raising_s - 1.0));
        const double peak_deg_s = 1.875 * (repetition.top_deg - repetition.start_deg) / raising_s;
        tally.peak_speed_pct.add(100.0 * (match->raising_peak_velocity.value() / peak_deg_s - 1.0));
    }
}

void add_to(Tally& tally, const Measured& measured) {
    const RangeOfMotion& range = measured.measurements.range;
    const double high_deg = measured.truth.movement.highest_deg();
    const double low_deg = measured.truth.movement.lowest_deg();
    const auto add = [](Errors& errors, Degrees value, double truth_deg, const Budget& budget) {
        errors.add(value.value() - truth_deg, budget.expanded_uncertainty());
    };
    add(tally.highest, range.positive.angle, high_deg, range.positive.budget);
    add(tally.lowest, range.negative.angle, low_deg, range.negative.budget);
    add(tally.arc, range.arc, high_deg - low_deg, range.arc_budget);
    if (range.mean_positive) {
        add(tally.mean_top, range.mean_positive->mean, measured.truth.own_top_deg, range.mean_positive->budget);
    } else {
        tally.mean_top.miss();
    }
    add_repetitions(tally, measured);
    ++tally.recordings;
}

Simulation simulation_of(const Cell& cell, std::uint64_t seed) {
    Simulation simulation;
    simulation.seed = seed;
    simulation.sensor.noise_deg = cell.noise_deg;
    simulation.logger.rate = Hertz(cell.rate_hz);
    simulation.movement.bottom_deg = {-3.0};
    simulation.movement.raising = {Seconds(cell.raising_s)};
    simulation.movement.lowering = {Seconds(cell.raising_s)};
    simulation.movement.holding = Seconds(cell.holding_s);
    return simulation;
}

/// Where a result stands in the table, and its name there.
using Label = std::pair<int, std::string>;
using ByValue = std::map<Label, Tally>;
constexpr int kinds_from = 100000;

/// The rows that a recording belongs to.
std::vector<Label> labels_of(const Cell& cell) {
    const auto thousandth = [](double value) { return static_cast<int>(std::lround(1000.0 * value)); };
    const std::string noise = "noise " + shortest_text(cell.noise_deg) + " deg";
    const std::string rate = "rate " + shortest_text(cell.rate_hz) + " Hz";
    const std::string raising = "raising in " + shortest_text(cell.raising_s) + " s";
    const std::string hold = cell.holding_s > 0.0 ? "top held" : "no hold";
    return {{0, "all"},
            {10000 + thousandth(cell.noise_deg), noise},
            {20000 + static_cast<int>(cell.rate_hz), rate},
            {30000 + thousandth(cell.raising_s), raising},
            {40000 + thousandth(cell.holding_s), hold},
            {50000 + thousandth(cell.raising_s + 0.1 * cell.holding_s), raising + ", " + hold},
            {kinds_from, raising + ", " + hold + ", " + rate + ", " + noise}};
}

Row angle_row(const std::string& name, const Tally& tally) {
    Row row{name};
    for (const Errors* errors : {&tally.highest, &tally.arc, &tally.mean_top}) {
        row.push_back(number(errors->bias(), 2));
        row.push_back(number(errors->sd(), 2));
        row.push_back(number(errors->mean_u95(), 2));
        row.push_back(number(errors->coverage_pct(), 1));
    }
    return row;
}

Row time_row(const std::string& name, const Tally& tally) {
    return {name,
            number(100.0 * static_cast<double>(tally.counted_right) / static_cast<double>(tally.recordings), 1),
            number(1000.0 * tally.start.bias(), 0),
            number(1000.0 * tally.start.sd(), 0),
            number(1000.0 * tally.end.bias(), 0),
            number(1000.0 * tally.end.sd(), 0),
            number(1000.0 * tally.turn.bias(), 0),
            number(1000.0 * tally.turn.sd(), 0),
            number(tally.raising_time_pct.bias(), 1),
            number(tally.peak_speed_pct.bias(), 1)};
}

PageTable worst_kinds(const ByValue& results) {
    std::vector<const ByValue::value_type*> kinds;
    for (const auto& entry : results) {
        if (entry.first.first == kinds_from) {
            kinds.push_back(&entry);
        }
    }
    std::ranges::stable_sort(kinds, {}, [](const auto* entry) { return entry->second.highest.coverage_pct(); });
    PageTable table{{"kind", "n", "bias", "SD", "U", "held %"}, {}};
    for (std::size_t i = 0; i < 5; ++i) {
        const Errors& errors = kinds[i]->second.highest;
        table.rows.push_back({kinds[i]->first.second, std::to_string(errors.count()), number(errors.bias(), 2),
                              number(errors.sd(), 2), number(errors.mean_u95(), 2), number(errors.coverage_pct(), 1)});
    }
    return table;
}

}  // namespace

Section range_study(std::size_t repeats) {
    Settings settings;
    settings.preparation.sensor_error = Degrees(0.0);  // the simulated sensor has none
    ByValue results;
    std::uint64_t seed = 1000;
    Section section;
    for (const double noise_deg : {0.1, 0.3, 1.0}) {
        for (const double rate_hz : {50.0, 200.0, 1000.0}) {
            for (const double raising_s : {0.5, 1.0, 2.0}) {
                for (const double holding_s : {0.0, 0.8}) {
                    const Cell cell{noise_deg, rate_hz, raising_s, holding_s};
                    const std::vector<Label> labels = labels_of(cell);
                    for (std::size_t i = 0; i < repeats; ++i) {
                        const Measured measured = measure_simulated(simulation_of(cell, ++seed), settings);
                        for (const Label& name : labels) {
                            add_to(results[name], measured);
                        }
                        ++section.recordings;
                    }
                }
            }
        }
    }
    PageTable angles{{"recordings", "highest: bias", "SD", "U", "held %", "arc: bias", "SD", "U", "held %",
                      "mean top: bias", "SD", "U", "held %"},
                     {}};
    PageTable times{{"recordings", "count right %", "start: bias", "SD", "end: bias", "SD", "turn: bias", "SD",
                     "raising time: bias %", "peak speed: bias %"},
                    {}};
    for (const auto& [name, tally] : results) {
        if (name.first == kinds_from) {
            continue;
        }
        angles.rows.push_back(angle_row(name.second, tally));
        times.rows.push_back(time_row(name.second, tally));
    }
    section.tables = {angles, times, worst_kinds(results)};
    const Tally& all = results.begin()->second;
    section.checks = {
        {"at least 90 % of the intervals of the highest angle hold it", all.highest.coverage_pct() >= 90.0},
        {"at least 93 % of the intervals of the arc hold it", all.arc.coverage_pct() >= 93.0},
        {"91 to 99 % of the intervals of the mean top hold it", std::abs(all.mean_top.coverage_pct() - 95.0) <= 4.0},
        {"repetitions are counted right in 99 % of the recordings", 100 * all.counted_right >= 99 * all.recordings},
        {"the highest angle is off by less than 0.3 deg on average", std::abs(all.highest.bias()) < 0.3},
        {"movements are as much shorter as the threshold makes them, within 2 %",
         std::abs(all.raising_time_pct.bias() + 200.0 * threshold_share) < 2.0}};
    return section;
}

}  // namespace jointrom::validation
