#include "study.hpp"

#include <jointrom/analysis/measure_activity.hpp>
#include <jointrom/core/failure.hpp>

#include <algorithm>
#include <cmath>
#include <functional>
#include <map>
#include <set>
#include <sstream>

namespace jointrom::validation {
namespace {

struct Blunder {
    std::string what;
    std::vector<std::string> codes;  ///< any of which finds it; of a failure, too
    std::function<void(Simulation&)> make;
    bool must_be_found = true;  ///< in the quick run
};

Simulation clean(std::uint64_t seed) {
    Simulation simulation;
    simulation.seed = seed;
    simulation.logger.rate = Hertz(1000.0);
    simulation.movement.bottom_deg = {-3.0};
    simulation.muscles = {{.name = "Biceps", .raising_mv = 0.4, .holding_mv = 0.25, .lowering_mv = 0.15},
                          {.name = "Triceps", .raising_mv = 0.03, .holding_mv = 0.03, .lowering_mv = 0.05}};
    return simulation;
}

void slip(Simulation& simulation, double deg) {
    simulation.sensor.slips = {{8.0, deg}};
}

const std::vector<Blunder>& blunders() {
    static const std::vector<Blunder> all{
        {"reading turns over at 360",
         {"wrap-around"},
         [](Simulation& s) {
             s.sides = {Side::left};
             s.sensor.neutral_reading = 270.0;
             s.sensor.wraps_at = 360.0;
         }},
        {"sensor slips by 3 deg", {"resting-level-drift"}, [](Simulation& s) { slip(s, 3.0); }, false},
        {"sensor slips by 6 deg", {"resting-level-drift"}, [](Simulation& s) { slip(s, 6.0); }, false},
        {"sensor slips by 15 deg", {"resting-level-drift"}, [](Simulation& s) { slip(s, 15.0); }},
        {"sensor drifts by 5 deg a minute",
         {"resting-level-drift"},
         [](Simulation& s) { s.sensor.drift_deg_per_min = 5.0; },
         false},
        {"sensor drifts by 20 deg a minute",
         {"resting-level-drift"},
         [](Simulation& s) { s.sensor.drift_deg_per_min = 20.0; }},
        {"0.05 s missing",
         {"gap-bridged", "gap"},
         [](Simulation& s) {
             s.logger.gaps = {{Seconds(5.0), Seconds(5.05)}};
         }},
        {"0.4 s missing",
         {"gap"},
         [](Simulation& s) {
             s.logger.gaps = {{Seconds(5.0), Seconds(5.4)}};
         }},
        {"0.4 s of blank cells",
         {"gap"},
         [](Simulation& s) {
             s.logger.gaps = {{Seconds(5.0), Seconds(5.4)}};
             s.logger.gaps_are_blank = true;
         }},
        {"reading cut off 10 deg below the tops",
         {"saturated"},
         [](Simulation& s) {
             s.sensor.limits = {50.0, 400.0};
         }},
        {"reading stuck for 2 s",
         {"stuck"},
         [](Simulation& s) {
             s.sensor.stuck = TimeWindow{Seconds(4.0), Seconds(6.0)};
         }},
        {"reading stuck all the time",
         {"stuck", "no-movement"},
         [](Simulation& s) {
             s.sensor.stuck = TimeWindow{Seconds(0.0), Seconds(1000.0)};
         }},
        {"three spikes of 60 deg", {"spikes"}, [](Simulation& s) { s.sensor.spikes = 3; }},
        {"sampling times vary by 30 %", {"irregular-sampling"}, [](Simulation& s) { s.logger.jitter_ms = 0.3; }},
        {"radians in a column of degrees",
         {"unit-suspect"},
         [](Simulation& s) {
             s.sensor.reading_per_deg = -0.017453292519943295;
             s.sensor.neutral_reading = 3.14;
             s.sensor.resolution = 0.0001;
         }},
        {"volts without a calibration",
         {"calibration-needed"},
         [](Simulation& s) {
             s.sensor.unit = "V";
             s.sensor.reading_per_deg = 0.0125;
             s.sensor.neutral_reading = 0.6;
             s.sensor.resolution = 0.0001;
         }},
        {"no rest before the movement",
         {"neutral-suspect", "neutral-sensor-zero", "neutral-not-still", "cut-repetition"},
         [](Simulation& s) { s.movement.rest = Seconds(0.0); }},
        {"starts bent by 30 deg, not at neutral",
         {"neutral-suspect", "resting-level-drift"},
         [](Simulation& s) {
             s.movement.postures_deg = {30.0, 120.0, 30.0, 120.0, 30.0, 120.0, 30.0};
             s.movement.holding = Seconds(1.5);
         },
         false},
        {"cut off in the middle of a repetition",
         {"cut-repetition", "extreme-at-edge"},
         [](Simulation& s) {
             s.logger.gaps = {{Seconds(11.5), Seconds(1000.0)}};
         }},
        {"one repetition given up at 50 deg",
         {"aborted-repetition"},
         [](Simulation& s) {
             s.movement.top_deg = {140.0, 140.0, 50.0, 140.0, 140.0};
         }},
        {"joint never moves", {"no-movement"}, [](Simulation& s) { s.movement.repetitions = 0; }},
        {"electrodes unplugged",
         {"emg-unplugged", "emg-unusable"},
         [](Simulation& s) {
             for (MuscleModel& muscle : s.muscles) {
                 muscle.raising_mv = muscle.holding_mv = muscle.lowering_mv = muscle.rest_mv = 0.0;
             }
         }},
        {"electrodes show mains hum only",
         {"emg-unplugged", "mains-hum"},
         [](Simulation& s) {
             for (MuscleModel& muscle : s.muscles) {
                 muscle.raising_mv = muscle.holding_mv = muscle.lowering_mv = muscle.rest_mv = 0.002;
             }
             s.logger.hum_mv = 0.3;
         }},
        {"mains hum of 0.05 mV", {"mains-hum"}, [](Simulation& s) { s.logger.hum_mv = 0.05; }},
        {"electromyogram logged at 200 Hz", {"emg-undersampled"}, [](Simulation& s) { s.logger.rate = Hertz(200.0); }},
        {"flexor and extensor exchanged",
         {"emg-swapped"},
         [](Simulation& s) { std::swap(s.muscles[0].name, s.muscles[1].name); }},
    };
    return all;
}

/// Codes of all that is said about a recording: of the failure, when it is refused.
struct Said {
    std::set<std::string> warnings;
    std::set<std::string> all;
};

Said said_about(const Simulation& simulation) {
    Said said;
    const auto take = [&](const Findings& findings) {
        for (const Finding& finding : findings) {
            said.all.emplace(finding.code());
            if (finding.severity() != Severity::note) {
                said.warnings.emplace(finding.code());
            }
        }
    };
    try {
        const Measured measured = measure_simulated(simulation);
        take(measured.trial.findings);
        take(measured.measurements.findings());
        std::istringstream nothing;
        take(measure_activity(measured.trial, {}, nothing).findings);
    } catch (const Failure& failure) {
        said.all.insert(failure.code());
        said.warnings.insert(failure.code());
    }
    return said;
}

std::string counted(const std::map<std::string, std::size_t>& counts) {
    std::string text;
    for (const auto& [code, count] : counts) {
        text += (text.empty() ? "" : ", ") + code + " (" + std::to_string(count) + ")";
    }
    return text.empty() ? "none" : text;
}

double pct(std::size_t part, std::size_t all) {
    return 100.0 * static_cast<double>(part) / static_cast<double>(all);
}

}  // namespace

Section blunder_study(std::size_t repeats) {
    Section section;
    PageTable found_table{{"blunder", "recordings", "found %", "warnings besides"}, {}};
    std::uint64_t seed = 900000;
    for (const Blunder& blunder : blunders()) {
        std::size_t found = 0;
        std::map<std::string, std::size_t> besides;
        for (std::size_t i = 0; i < repeats; ++i) {
            Simulation simulation = clean(++seed);
            blunder.make(simulation);
            const Said said = said_about(simulation);
            const auto is_meant = [&](const std::string& code) {
                return std::ranges::find(blunder.codes, code) != blunder.codes.end();
            };
            found += std::ranges::any_of(said.all, is_meant) ? 1U : 0U;
            for (const std::string& code : said.warnings) {
                besides[code] += is_meant(code) ? 0U : 1U;
            }
        }
        std::erase_if(besides, [](const auto& entry) { return entry.second == 0; });
        section.recordings += repeats;
        found_table.rows.push_back(
            {blunder.what, std::to_string(repeats), number(pct(found, repeats), 0), counted(besides)});
        if (blunder.must_be_found) {
            section.checks.push_back({"found: " + blunder.what, 10 * found >= 9 * repeats});
        }
    }

    std::map<std::string, std::size_t> alarms;
    std::size_t alarmed = 0;
    const std::size_t clean_count = 4 * repeats;
    for (std::size_t i = 0; i < clean_count; ++i) {
        const Said said = said_about(clean(++seed));
        alarmed += said.warnings.empty() ? 0U : 1U;
        for (const std::string& code : said.warnings) {
            ++alarms[code];
        }
    }
    section.recordings += clean_count;
    PageTable alarm_table{{"clean recordings", "with a warning", "%", "which"},
                          {{std::to_string(clean_count), std::to_string(alarmed), number(pct(alarmed, clean_count), 1),
                            counted(alarms)}}};
    section.tables = {found_table, alarm_table};
    section.checks.push_back({"fewer than 5 % of clean recordings are warned about", 20 * alarmed < clean_count});
    return section;
}

}  // namespace jointrom::validation
