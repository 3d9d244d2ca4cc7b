#include "simulate/muscles.hpp"

#include "simulate/muscle_noise.hpp"
#include "simulate/portable_math.hpp"

#include <algorithm>
#include <cmath>

namespace jointrom {
namespace {

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

/// 0 before the muscle begins to tire, 1 from the end on.
double tired(const MuscleFatigue& fatigue, double time_s) {
    return std::clamp((time_s - fatigue.start_s) / (fatigue.end_s - fatigue.start_s), 0.0, 1.0);
}

/// The SD at each time; electrodes do not tire, so rest stays as it is.
std::vector<double> sd_mv(const SimulatedMuscle& muscle, const std::vector<double>& time_s) {
    const MuscleModel& model = muscle.model;
    std::vector<double> sd(time_s.size(), model.rest_mv);
    for (const MuscleBurst& burst : muscle.bursts) {
        const auto from = std::ranges::lower_bound(time_s, burst.start_s) - time_s.begin();
        const auto to = std::ranges::lower_bound(time_s, burst.end_s) - time_s.begin();
        for (auto i = static_cast<std::size_t>(from); i < static_cast<std::size_t>(to); ++i) {
            sd[i] = burst.sd_mv;
            if (model.fatigue) {
                sd[i] *= 1.0 + (model.fatigue->sd_factor - 1.0) * tired(*model.fatigue, time_s[i]);
            }
        }
    }
    return sd;
}

}  // namespace

SimulatedMuscle simulated_muscle(const SimulatedRecording& recording, const MuscleModel& model) {
    const LoggerModel& logger = recording.logger;
    SimulatedMuscle muscle{model, bursts_of(model, recording.movement), {}};
    muscle.mv = sd_mv(muscle, recording.time_s);
    const double finer = std::max(1.0, std::ceil(2000.0 / logger.rate.value()));
    MuscleNoise noise(RandomNumbers(recording.seed, recording.plan.file + " muscle " + model.name),
                      model.median_frequency, finer * logger.rate);
    for (std::size_t i = 0; i < muscle.mv.size(); ++i) {
        if (model.fatigue) {
            noise.set_median(model.median_frequency + tired(*model.fatigue, recording.time_s[i]) *
                                                          (model.fatigue->median_frequency - model.median_frequency));
        }
        double sample = 0.0;
        for (int step = 0; step < static_cast<int>(finer); ++step) {
            sample = noise.next();
        }
        muscle.mv[i] =
            muscle.mv[i] * sample +
            (logger.hum_mv > 0.0 ? logger.hum_mv * sine_of_turns(logger.mains.value() * recording.time_s[i]) : 0.0);
    }
    return muscle;
}

}  // namespace jointrom
