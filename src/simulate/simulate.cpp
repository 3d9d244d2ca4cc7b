#include "simulate/muscle_noise.hpp"
#include "simulate/portable_math.hpp"

#include <jointrom/core/failure.hpp>
#include <jointrom/simulate/random_numbers.hpp>
#include <jointrom/simulate/simulated_recording.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <set>

namespace jointrom {
namespace {

constexpr double missing = std::numeric_limits<double>::quiet_NaN();
constexpr double most_samples = 2e7;
constexpr double most_recordings = 1e5;

[[noreturn]] void refuse(const std::string& text, std::string advice) {
    throw Failure(FailureKind::usage, "simulation-invalid", text, std::move(advice));
}

/// Normal about 0, but never farther than three SD: nobody's elbow bends backwards by chance.
double spread(RandomNumbers& random, double sd) {
    return sd * std::clamp(random.normal(), -3.0, 3.0);
}

struct Person {
    double top_deg = 0.0;  ///< to be added to the plan
    double bottom_deg = 0.0;
    double tempo = 1.0;
};

Person person(const Simulation& simulation, const std::string& participant, Side side) {
    Person result;
    if (simulation.people.students == 0) {
        return result;
    }
    const ClassModel& people = simulation.people;
    RandomNumbers own(simulation.seed, "person " + participant);
    result.top_deg = spread(own, people.top_between_sd_deg);
    result.bottom_deg = spread(own, people.bottom_between_sd_deg);
    result.tempo = std::max(0.3, 1.0 + spread(own, people.tempo_between_pct / 100.0));
    RandomNumbers sides(simulation.seed, fmt::format("person {} {}", participant, name_of(side)));
    result.top_deg += spread(sides, people.side_sd_deg);
    return result;
}

double listed(const std::vector<double>& list, std::size_t i) {
    return list[i % list.size()];
}

/// As a reading of angles would be noted, so that the truth is short.
double tenth(double value) {
    return std::round(value * 10.0) / 10.0;
}

TrueMovement movement_of(const MovementPlan& plan, const Person& who, RandomNumbers random) {
    if (!plan.postures_deg.empty()) {
        TrueMovement movement(plan.postures_deg.front());
        movement.hold(plan.holding.value(), PhaseKind::rest);
        for (std::size_t i = 1; i < plan.postures_deg.size(); ++i) {
            movement.move(plan.postures_deg[i], plan.raising.value());
            movement.hold(plan.holding.value(), PhaseKind::holding);
        }
        return movement;
    }
    TrueMovement movement(0.0);
    movement.hold(plan.rest.value(), PhaseKind::rest);
    for (std::size_t i = 0; i < plan.repetitions; ++i) {
        const double top = listed(plan.top_deg, i) + who.top_deg + spread(random, plan.top_sd_deg);
        const double bottom = listed(plan.bottom_deg, i) + who.bottom_deg + spread(random, plan.bottom_sd_deg);
        const double stretch = who.tempo * std::max(0.3, 1.0 + spread(random, plan.tempo_sd_pct / 100.0));
        movement.repeat(tenth(top), tenth(bottom), plan.raising.value() * stretch, plan.holding.value(),
                        plan.lowering.value() * stretch);
        if (i + 1 < plan.repetitions) {
            movement.hold(plan.pause.value(), PhaseKind::rest);
        }
    }
    if (movement.now_deg() != 0.0) {
        movement.hold(plan.pause.value(), PhaseKind::rest);
        movement.move(0.0, 0.7);
    }
    movement.hold(plan.end_rest.value(), PhaseKind::rest);
    return movement;
}

bool in_gap(const std::vector<TimeWindow>& gaps, double time_s) {
    return std::ranges::any_of(
        gaps, [&](const TimeWindow& gap) { return gap.start.value() <= time_s && time_s < gap.end.value(); });
}

/// Sampling times, strictly rising.
std::vector<double> sampling_times(const LoggerModel& logger, double end_s, RandomNumbers random) {
    const double rate_hz = logger.rate.value();
    const auto count = static_cast<std::size_t>(end_s * rate_hz + 1e-6);
    std::vector<double> time_s(count);
    for (std::size_t i = 0; i < count; ++i) {
        const double even_s = static_cast<double>(i) / rate_hz;
        const double off_s = logger.jitter_ms > 0.0 ? logger.jitter_ms / 1000.0 * random.normal() : 0.0;
        time_s[i] = std::max(0.0, even_s + std::clamp(off_s, -0.4 / rate_hz, 0.4 / rate_hz));
    }
    return time_s;
}

double slipped_deg(const SensorModel& sensor, double time_s) {
    double more_deg = sensor.drift_deg_per_min * time_s / 60.0;
    for (const auto& [from_s, deg] : sensor.slips) {
        more_deg += time_s >= from_s ? deg : 0.0;
    }
    return more_deg;
}

/// The error of a sensor over the angle: sines of which none repeats within the range of a joint together with the
/// others, so that it is close to normal and errors some 20 deg apart have little to do with each other.
class Nonlinearity {
  public:
    Nonlinearity(std::uint64_t seed, double sd_deg) : amplitude_deg_(sd_deg * std::sqrt(2.0 / periods_deg.size())) {
        RandomNumbers random(seed, "non-linearity of the sensor");
        for (double& phase : phases_) {
            phase = random.uniform();
        }
    }
    [[nodiscard]] double error_deg(double angle_deg) const {
        if (amplitude_deg_ == 0.0) {
            return 0.0;
        }
        double sum = 0.0;
        for (std::size_t i = 0; i < periods_deg.size(); ++i) {
            sum += sine_of_turns(phases_[i] + angle_deg / periods_deg[i]);
        }
        return amplitude_deg_ * sum;
    }

  private:
    static constexpr std::array periods_deg{97.0, 71.0, 53.0, 41.0, 31.0, 23.0};
    double amplitude_deg_;
    std::array<double, periods_deg.size()> phases_{};
};

double limited(const SensorModel& sensor, double reading) {
    if (sensor.limits) {
        reading = std::clamp(reading, sensor.limits->first, sensor.limits->second);
    }
    if (sensor.wraps_at) {
        reading -= *sensor.wraps_at * std::floor(reading / *sensor.wraps_at);
    }
    return sensor.resolution > 0.0 ? std::round(reading / sensor.resolution) * sensor.resolution : reading;
}

std::vector<double> readings(const SimulatedRecording& recording) {
    const SensorModel& sensor = recording.sensor;
    RandomNumbers noise(recording.seed, recording.plan.file + " noise");
    const double mains_hz = recording.logger.mains.value();
    const Nonlinearity nonlinearity(recording.seed, sensor.nonlinearity_deg);
    std::vector<double> reading(recording.time_s.size());
    for (std::size_t i = 0; i < reading.size(); ++i) {
        const double t = recording.time_s[i];
        const double seen_deg = recording.movement.angle_deg(t) + slipped_deg(sensor, t);
        const double angle_deg = seen_deg + nonlinearity.error_deg(seen_deg) + sensor.noise_deg * noise.normal() +
                                 (sensor.hum_deg > 0.0 ? sensor.hum_deg * sine_of_turns(mains_hz * t) : 0.0);
        reading[i] = recording.neutral_reading + recording.reading_per_deg * angle_deg;
    }
    RandomNumbers spikes(recording.seed, recording.plan.file + " spikes");
    for (std::size_t i = 0; i < sensor.spikes && !reading.empty(); ++i) {
        const auto at = static_cast<std::size_t>(spikes.uniform() * static_cast<double>(reading.size()));
        reading[at] += (spikes.uniform() < 0.5 ? -1.0 : 1.0) * sensor.spike_deg * recording.reading_per_deg;
    }
    std::optional<double> last;
    for (std::size_t i = 0; i < reading.size(); ++i) {
        reading[i] = limited(sensor, reading[i]);
        const double t = recording.time_s[i];
        if (sensor.stuck && sensor.stuck->start.value() <= t && t < sensor.stuck->end.value()) {
            last = last ? last : reading[i];
            reading[i] = *last;
        }
    }
    return reading;
}

std::vector<MuscleBurst> bursts_of(const MuscleModel& model, const TrueMovement& movement) {
    std::vector<MuscleBurst> bursts = model.bursts;
    for (const TrueRepetition& repetition : movement.repetitions()) {
        const double end_s = std::max(repetition.end_s - model.early_ms / 1000.0, repetition.top_to_s);
        for (const MuscleBurst& part :
             {MuscleBurst{repetition.start_s - model.lead_ms / 1000.0, repetition.top_from_s, model.raising_mv},
              MuscleBurst{repetition.top_from_s, repetition.top_to_s, model.holding_mv},
              MuscleBurst{repetition.top_to_s, end_s, model.lowering_mv}}) {
            if (part.sd_mv > 0.0 && part.end_s > part.start_s) {
                bursts.push_back(part);
            }
        }
    }
    std::ranges::sort(bursts, {}, &MuscleBurst::start_s);
    return bursts;
}

void add_muscle(SimulatedRecording& recording, const MuscleModel& model) {
    const LoggerModel& logger = recording.logger;
    SimulatedMuscle muscle{model, bursts_of(model, recording.movement), {}};
    muscle.mv.assign(recording.time_s.size(), model.rest_mv);
    for (const MuscleBurst& burst : muscle.bursts) {
        const auto from = std::ranges::lower_bound(recording.time_s, burst.start_s);
        const auto to = std::ranges::lower_bound(recording.time_s, burst.end_s);
        for (auto at = from; at < to; ++at) {
            muscle.mv[static_cast<std::size_t>(at - recording.time_s.begin())] = burst.sd_mv;
        }
    }
    const double finer = std::max(1.0, std::ceil(2000.0 / logger.rate.value()));
    MuscleNoise noise(RandomNumbers(recording.seed, recording.plan.file + " muscle " + model.name),
                      model.median_frequency, finer * logger.rate);
    for (std::size_t i = 0; i < muscle.mv.size(); ++i) {
        double sample = 0.0;
        for (int step = 0; step < static_cast<int>(finer); ++step) {
            sample = noise.next();
        }
        muscle.mv[i] =
            muscle.mv[i] * sample +
            (logger.hum_mv > 0.0 ? logger.hum_mv * sine_of_turns(logger.mains.value() * recording.time_s[i]) : 0.0);
    }
    recording.muscles.push_back(std::move(muscle));
}

void take_out(SimulatedRecording& recording, const std::vector<std::size_t>& rows) {
    const auto keep = [&](std::vector<double>& values) {
        std::vector<double> kept;
        kept.reserve(values.size() - rows.size());
        auto next = rows.begin();
        for (std::size_t i = 0; i < values.size(); ++i) {
            if (next != rows.end() && *next == i) {
                ++next;
            } else {
                kept.push_back(values[i]);
            }
        }
        values = std::move(kept);
    };
    keep(recording.time_s);
    keep(recording.reading);
    for (SimulatedMuscle& muscle : recording.muscles) {
        keep(muscle.mv);
    }
}

void lose_samples(SimulatedRecording& recording) {
    const LoggerModel& logger = recording.logger;
    if (logger.angle_rate.is_set()) {
        const auto every = static_cast<std::size_t>(std::round(logger.rate / logger.angle_rate));
        for (std::size_t i = 0; i < recording.reading.size(); ++i) {
            recording.reading[i] = i % every == 0 ? recording.reading[i] : missing;
        }
    }
    std::vector<std::size_t> lost;
    for (std::size_t i = 0; i < recording.time_s.size(); ++i) {
        if (in_gap(logger.gaps, recording.time_s[i])) {
            lost.push_back(i);
        }
    }
    if (!logger.gaps_are_blank) {
        take_out(recording, lost);
        return;
    }
    for (const std::size_t i : lost) {
        recording.reading[i] = missing;
        for (SimulatedMuscle& muscle : recording.muscles) {
            muscle.mv[i] = missing;
        }
    }
}

void replace(std::string& text, const std::string& from, std::string_view to) {
    for (std::size_t at = text.find(from); at != std::string::npos; at = text.find(from, at + to.size())) {
        text.replace(at, from.size(), to);
    }
}

std::string file_of(const Simulation& simulation, const PlannedRecording& plan) {
    std::string file = simulation.file;
    std::string joint = plan.motion->joint;
    std::ranges::replace(joint, ' ', '-');
    replace(file, "{participant}", plan.participant);
    replace(file, "{side}", name_of(plan.side));
    replace(file, "{joint}", joint);
    replace(file, "{trial}", std::to_string(plan.trial));
    if (file.empty() || file == "manifest.csv" || std::string(".=+-@").find(file.front()) != std::string::npos ||
        file.find_first_of("/\\{},;\"\r\n") != std::string::npos) {
        refuse(fmt::format("\"{}\" is no name for a recording", file),
               "Names are plain, without folders; {participant}, {side}, {joint} and {trial} are filled in.");
    }
    return file;
}

/// How the sensor happens to be strapped on.
void mount(SimulatedRecording& recording, const Simulation& simulation) {
    const SensorModel& sensor = recording.sensor;
    recording.reading_per_deg = sensor.reading_per_deg.value_or(recording.plan.side == Side::left ? 1.0 : -1.0);
    recording.neutral_reading = sensor.neutral_reading.value_or(180.0);
    if (simulation.people.students > 0) {
        RandomNumbers mounting(simulation.seed, recording.plan.file + " mounting");
        recording.neutral_reading +=
            tenth(spread(mounting, simulation.people.mounting_sd_deg)) * std::abs(recording.reading_per_deg);
    }
}

void judge(const Simulation& simulation) {
    const MovementPlan& plan = simulation.movement;
    const LoggerModel& logger = simulation.logger;
    if (plan.top_deg.empty() || plan.bottom_deg.empty()) {
        refuse("there is no angle to move to", "Give --top-deg and --bottom-deg.");
    }
    const auto students = static_cast<double>(std::max<std::size_t>(1, simulation.people.students));
    const double recordings =
        students * static_cast<double>(simulation.sides.size()) * static_cast<double>(simulation.trials);
    if (recordings > most_recordings) {
        refuse(fmt::format("{:g} recordings; {:g} are as many as can be made at once", recordings, most_recordings),
               "Lower --students or --trials.");
    }
    if (logger.angle_rate.is_set() &&
        std::abs(logger.rate / logger.angle_rate - std::round(logger.rate / logger.angle_rate)) > 1e-9) {
        refuse(fmt::format("an angle at {:g} Hz does not fit into rows at {:g} Hz", logger.angle_rate.value(),
                           logger.rate.value()),
               "Let --rate-hz be a multiple of --angle-rate-hz.");
    }
    for (const MuscleModel& muscle : simulation.muscles) {
        if (muscle.median_frequency < Hertz(10.0) || muscle.median_frequency > Hertz(400.0)) {
            refuse(fmt::format("a median frequency of {:g} Hz for {}", muscle.median_frequency.value(), muscle.name),
                   "Give 10 to 400 Hz; a surface electromyogram has about 50 to 150.");
        }
    }
}

std::vector<std::string> participants(const Simulation& simulation) {
    if (simulation.people.students == 0) {
        return {simulation.participant};
    }
    std::vector<std::string> names;
    const std::size_t width = std::max<std::size_t>(2, std::to_string(simulation.people.students).size());
    for (std::size_t i = 1; i <= simulation.people.students; ++i) {
        names.push_back(fmt::format("P{:0{}}", i, width));
    }
    return names;
}

}  // namespace

std::vector<PlannedRecording> planned_recordings(const Simulation& simulation) {
    judge(simulation);
    const JointMotion& motion = joint_motion(simulation.joint, simulation.motion);
    std::vector<PlannedRecording> plans;
    std::set<std::string> files;
    for (const std::string& participant : participants(simulation)) {
        for (const Side side : simulation.sides) {
            for (std::size_t trial = 1; trial <= simulation.trials; ++trial) {
                PlannedRecording plan{{}, participant, &motion, side, trial};
                plan.file = file_of(simulation, plan);
                if (!files.insert(plan.file).second) {
                    refuse(fmt::format("two recordings would be called {}", plan.file),
                           "Tell them apart in --file with {participant}, {side} or {trial}.");
                }
                plans.push_back(std::move(plan));
            }
        }
    }
    return plans;
}

SimulatedRecording simulate(const Simulation& simulation, const PlannedRecording& plan) {
    SimulatedRecording recording;
    recording.plan = plan;
    recording.sensor = simulation.sensor;
    recording.logger = simulation.logger;
    recording.seed = simulation.seed;
    const Person who = person(simulation, plan.participant, plan.side);
    recording.own_top_deg = simulation.movement.top_deg.front() + who.top_deg;
    recording.movement = movement_of(simulation.movement, who, RandomNumbers(simulation.seed, plan.file + " movement"));
    if (recording.movement.end_s() * recording.logger.rate.value() > most_samples) {
        refuse(fmt::format("{} would hold more than {:g} rows", plan.file, most_samples),
               "Lower --rate-hz or --repetitions.");
    }
    mount(recording, simulation);
    recording.time_s = sampling_times(recording.logger, recording.movement.end_s(),
                                      RandomNumbers(simulation.seed, plan.file + " clock"));
    recording.reading = readings(recording);
    for (const MuscleModel& model : simulation.muscles) {
        add_muscle(recording, model);
    }
    lose_samples(recording);
    return recording;
}

}  // namespace jointrom
