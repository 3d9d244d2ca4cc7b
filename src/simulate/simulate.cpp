#include "simulate/logger.hpp"
#include "simulate/muscles.hpp"
#include "simulate/people.hpp"
#include "simulate/sensor.hpp"

#include <jointrom/core/failure.hpp>
#include <jointrom/simulate/random_numbers.hpp>
#include <jointrom/simulate/simulated_recording.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace jointrom {
namespace {

constexpr double most_samples = 2e7;

template <typename Value>
Value listed(const std::vector<Value>& list, std::size_t i) {
    return list[i % list.size()];
}

TrueMovement movement_of(const MovementPlan& plan, const Person& who, RandomNumbers random) {
    if (!plan.postures_deg.empty()) {
        TrueMovement movement(plan.postures_deg.front());
        movement.hold(plan.holding.value(), PhaseKind::rest);
        for (std::size_t i = 1; i < plan.postures_deg.size(); ++i) {
            movement.move(plan.postures_deg[i], listed(plan.raising, i - 1).value());
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
        movement.repeat(tenth(top), tenth(bottom), listed(plan.raising, i).value() * stretch, plan.holding.value(),
                        listed(plan.lowering, i).value() * stretch);
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

/// How the sensor is strapped on.
void mount(SimulatedRecording& recording, const Simulation& simulation) {
    const SensorModel& sensor = recording.sensor;
    recording.reading_per_deg = sensor.reading_per_deg.value_or(recording.plan.side == Side::left ? 1.0 : -1.0);
    recording.neutral_reading = sensor.neutral_reading.value_or(180.0) +
                                mounting_deg(simulation, recording.plan.file) * std::abs(recording.reading_per_deg);
}

}  // namespace

SimulatedRecording simulate(const Simulation& simulation, const PlannedRecording& plan) {
    SimulatedRecording recording;
    recording.plan = plan;
    recording.sensor = simulation.sensor;
    recording.logger = simulation.logger;
    recording.seed = simulation.seed;
    recording.note = simulation.note;
    const Person who = person(simulation, plan.participant, plan.side);
    recording.own_top_deg = simulation.movement.top_deg.front() + who.top_deg;
    recording.movement = movement_of(simulation.movement, who, RandomNumbers(simulation.seed, plan.file + " movement"));
    if (recording.movement.end_s() * recording.logger.rate.value() > most_samples) {
        throw Failure(FailureKind::usage, "simulation-invalid",
                      fmt::format("{} would hold more than {:g} rows", plan.file, most_samples),
                      "Lower --rate-hz or --repetitions.");
    }
    mount(recording, simulation);
    recording.time_s = sampling_times(recording.logger, recording.movement.end_s(),
                                      RandomNumbers(simulation.seed, plan.file + " clock"));
    recording.reading = readings(recording);
    for (const MuscleModel& model : simulation.muscles) {
        recording.muscles.push_back(simulated_muscle(recording, model));
    }
    lose_samples(recording);
    return recording;
}

}  // namespace jointrom
