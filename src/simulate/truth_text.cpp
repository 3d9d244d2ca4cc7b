#include <jointrom/simulate/simulated_recording.hpp>

#include <nlohmann/json.hpp>

#include <cmath>

namespace jointrom {
namespace {

using Json = nlohmann::ordered_json;

double rounded(double value) {
    return std::round(value * 1e4) / 1e4;
}

Json range_json(const SimulatedRecording& recording) {
    const double low = recording.movement.lowest_deg();
    const double high = recording.movement.highest_deg();
    return {{"positive_direction", recording.plan.motion->positive},
            {"positive_deg", high},
            {"negative_direction", recording.plan.motion->negative},
            {"negative_deg", low},
            {"arc_deg", rounded(high - low)},
            {"own_top_deg", rounded(recording.own_top_deg)}};
}

Json peaks_json(const TrueMovement& movement) {
    Json peaks = Json::array();
    const auto& phases = movement.phases();
    const TruePhase* before = nullptr;  // the movement before
    for (const TruePhase& phase : phases) {
        if (phase.kind != PhaseKind::raising && phase.kind != PhaseKind::lowering) {
            continue;
        }
        if (before != nullptr && before->kind != phase.kind) {
            peaks.push_back({{"kind", before->kind == PhaseKind::raising ? "maximum" : "minimum"},
                             {"from_s", before->end_s},
                             {"to_s", phase.start_s},
                             {"angle_deg", phase.start_deg}});
        }
        before = &phase;
    }
    return peaks;
}

Json phases_json(const TrueMovement& movement) {
    Json phases = Json::array();
    for (const TruePhase& phase : movement.phases()) {
        phases.push_back({{"kind", name_of(phase.kind)},
                          {"start_s", phase.start_s},
                          {"end_s", phase.end_s},
                          {"start_deg", phase.start_deg},
                          {"end_deg", phase.end_deg},
                          {"peak_velocity_deg_s", rounded(phase.peak_velocity_deg_s())}});
    }
    return phases;
}

Json repetitions_json(const TrueMovement& movement) {
    Json rows = Json::array();
    for (const TrueRepetition& repetition : movement.repetitions()) {
        rows.push_back({{"repetition", rows.size() + 1},
                        {"start_s", repetition.start_s},
                        {"top_from_s", repetition.top_from_s},
                        {"top_to_s", repetition.top_to_s},
                        {"end_s", repetition.end_s},
                        {"start_deg", repetition.start_deg},
                        {"top_deg", repetition.top_deg},
                        {"end_deg", repetition.end_deg}});
    }
    return rows;
}

Json fatigue_json(const std::optional<MuscleFatigue>& fatigue) {
    if (!fatigue) {
        return nullptr;
    }
    return {{"from_s", fatigue->start_s},
            {"to_s", fatigue->end_s},
            {"median_hz", fatigue->median_frequency.value()},
            {"sd_times", fatigue->sd_factor}};
}

Json muscles_json(const SimulatedRecording& recording) {
    Json muscles = Json::array();
    for (const SimulatedMuscle& muscle : recording.muscles) {
        Json bursts = Json::array();
        for (const MuscleBurst& burst : muscle.bursts) {
            if (!bursts.empty() && bursts.back()["offset_s"] == rounded(burst.start_s)) {
                bursts.back()["offset_s"] = rounded(burst.end_s);  // goes on, with another amplitude
                bursts.back()["sd_mv"].push_back(burst.sd_mv);
            } else {
                bursts.push_back({{"onset_s", rounded(burst.start_s)},
                                  {"offset_s", rounded(burst.end_s)},
                                  {"sd_mv", Json::array({burst.sd_mv})}});
            }
        }
        muscles.push_back({{"name", muscle.model.name},
                           {"rest_sd_mv", muscle.model.rest_mv},
                           {"median_hz", muscle.model.median_frequency.value()},
                           {"tires", fatigue_json(muscle.model.fatigue)},
                           {"bursts", std::move(bursts)}});
    }
    return muscles;
}

Json windows_json(const std::vector<TimeWindow>& windows) {
    Json rows = Json::array();
    for (const TimeWindow& window : windows) {
        rows.push_back({window.start.value(), window.end.value()});
    }
    return rows;
}

Json sensor_json(const SimulatedRecording& recording) {
    const SensorModel& sensor = recording.sensor;
    Json json{{"neutral_reading", recording.neutral_reading},
              {"reading_per_deg", recording.reading_per_deg},
              {"unit", sensor.unit},
              {"noise_deg", sensor.noise_deg},
              {"nonlinearity_deg", sensor.nonlinearity_deg},
              {"hum_deg", sensor.hum_deg},
              {"resolution", sensor.resolution},
              {"limits", nullptr},
              {"wraps_at", nullptr},
              {"drift_deg_per_min", sensor.drift_deg_per_min},
              {"slips_s_deg", sensor.slips},
              {"spikes", sensor.spikes},
              {"stuck_s", nullptr}};
    if (sensor.limits) {
        json["limits"] = {sensor.limits->first, sensor.limits->second};
    }
    if (sensor.wraps_at) {
        json["wraps_at"] = *sensor.wraps_at;
    }
    if (sensor.stuck) {
        json["stuck_s"] = {sensor.stuck->start.value(), sensor.stuck->end.value()};
    }
    return json;
}

}  // namespace

std::string truth_text(const SimulatedRecording& recording) {
    const LoggerModel& logger = recording.logger;
    Json json{{"schema", "jointrom-truth"},
              {"version", 1},
              {"file", recording.plan.file},
              {"seed", recording.seed},
              {"participant", recording.plan.participant},
              {"joint", recording.plan.motion->joint},
              {"motion", recording.plan.motion->motion},
              {"side", name_of(recording.plan.side)},
              {"trial", recording.plan.trial},
              {"note", recording.note},
              {"range", range_json(recording)},
              {"peaks", peaks_json(recording.movement)},
              {"repetitions", repetitions_json(recording.movement)},
              {"phases", phases_json(recording.movement)},
              {"muscles", muscles_json(recording)},
              {"sensor", sensor_json(recording)},
              {"logger",
               {{"rate_hz", logger.rate.value()},
                {"angle_rate_hz", (logger.angle_rate.is_set() ? logger.angle_rate : logger.rate).value()},
                {"jitter_ms", logger.jitter_ms},
                {"gaps_s", windows_json(logger.gaps)},
                {"hum_mv", logger.hum_mv},
                {"mains_hz", logger.mains.value()}}}};
    return json.dump(1, ' ', false, Json::error_handler_t::replace) + "\n";
}

}  // namespace jointrom
