#include "study.hpp"

#include <jointrom/analysis/measure_activity.hpp>
#include <jointrom/core/number_text.hpp>

#include <algorithm>
#include <cmath>
#include <sstream>

namespace jointrom::validation {
namespace {

struct Tally {
    Errors onset, offset;
    std::size_t extra = 0;
};

Simulation simulation_of(double rate_hz, double strength, std::uint64_t seed) {
    Simulation simulation;
    simulation.seed = seed;
    simulation.logger.rate = Hertz(rate_hz);
    simulation.movement.bottom_deg = {-3.0};
    const double rest_mv = 0.01;
    simulation.muscles = {{.name = "Biceps",
                           .raising_mv = strength * rest_mv,
                           .holding_mv = strength * rest_mv,
                           .lowering_mv = strength * rest_mv,
                           .rest_mv = rest_mv,
                           .lead_ms = 60.0,
                           .early_ms = 0.0}};
    return simulation;
}

/// Each true burst is one repetition's; what overlaps it first is its onset, what overlaps it last its offset.
void add_to(Tally& tally, const Measured& measured, const ActivityResult& activity) {
    if (activity.muscles.empty()) {
        return;
    }
    const auto& found = activity.muscles.front().bursts;
    const double early_s = measured.truth.muscles.front().model.lead_ms / 1000.0;
    std::size_t used = 0;
    for (const TrueRepetition& repetition : measured.truth.movement.repetitions()) {
        const double onset_s = repetition.start_s - early_s;
        const BurstActivity* first = nullptr;
        const BurstActivity* last = nullptr;
        for (const BurstActivity& burst : found) {
            if (burst.offset.value() > onset_s && burst.onset.value() < repetition.end_s) {
                first = first == nullptr ? &burst : first;
                last = &burst;
                ++used;
            }
        }
        if (first == nullptr) {
            tally.onset.miss();
            continue;
        }
        tally.onset.add(1000.0 * (first->onset.value() - onset_s));
        tally.offset.add(1000.0 * (last->offset.value() - repetition.end_s));
    }
    tally.extra += found.size() - std::min(found.size(), used);
}

}  // namespace

Section onset_study(std::size_t repeats) {
    PageTable table{{"electromyogram", "bursts", "missed", "besides", "onset: bias ms", "SD", "largest",
                     "offset: bias ms", "SD", "largest"},
                    {}};
    Section section;
    std::uint64_t seed = 700000;
    for (const double rate_hz : {200.0, 1000.0, 2000.0}) {
        for (const double strength : {3.0, 10.0, 40.0}) {
            Tally tally;
            for (std::size_t i = 0; i < repeats; ++i) {
                const Measured measured = measure_simulated(simulation_of(rate_hz, strength, ++seed));
                std::istringstream nothing;
                add_to(tally, measured, measure_activity(measured.trial, {}, nothing).activity);
                ++section.recordings;
            }
            const Errors& on = tally.onset;
            const Errors& off = tally.offset;
            table.rows.push_back({shortest_text(rate_hz) + " Hz, " + shortest_text(strength) + " times rest",
                                  std::to_string(on.count() + on.missed()), std::to_string(on.missed()),
                                  std::to_string(tally.extra), number(on.bias(), 0), number(on.sd(), 0),
                                  number(on.largest(), 0), number(off.bias(), 0), number(off.sd(), 0),
                                  number(off.largest(), 0)});
            if (strength > 5.0) {
                section.checks.push_back({"onsets at " + shortest_text(rate_hz) +
                                              " Hz are off by less than 40 ms on "
                                              "average, and few are missed",
                                          std::abs(on.bias()) < 40.0 && on.missed() * 20 <= on.count()});
            }
        }
    }
    section.tables = {table};
    return section;
}

}  // namespace jointrom::validation
