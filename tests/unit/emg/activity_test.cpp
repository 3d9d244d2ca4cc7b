#include <jointrom/emg/activity.hpp>

#include "emg_reference.hpp"
#include "simulated_emg.hpp"

#include <jointrom/core/failure.hpp>

#include <functional>

using namespace jointrom;
using namespace jointrom::test;

namespace {

constexpr double rate_hz = 1000.0;

/// Elbow repetitions at 100 Hz: 1 s rest, then each 1 s raising, 0.5 s held, 1 s lowering, 0.5 s rest.
AngleTrace elbow(int count) {
    return trace_from_angles(minimum_jerk_path(repeated(count, 0.0, 120.0), 100.0), Hertz(100.0), Seconds(0.0),
                             joint_motion("elbow"), Side::right);
}

/// Noise with the SD that `sd_mv` gives for the time since the start of a repetition of 3 s; 0.005 before the first.
Channel muscle(const std::string& name, int count, const std::function<double(double)>& sd_mv, std::uint64_t seed = 3) {
    auto samples = simulated_emg(1.0 + 3.0 * count, rate_hz, 1.0, 1.0, seed);
    for (std::size_t i = 0; i < samples.size(); ++i) {
        const double time_s = static_cast<double>(i) / rate_hz - 1.0;
        samples[i] *= time_s < -0.1 || time_s > 3.0 * count - 0.1 ? 0.005 : sd_mv(std::fmod(time_s + 0.1, 3.0) - 0.1);
    }
    const std::size_t size = samples.size();
    return {.name = name,
            .unit = "mV",
            .column = 3,
            .role = ChannelRole::emg,
            .times = TimeBase::regular(Seconds(0.0), Hertz(rate_hz), size),
            .samples = std::move(samples)};
}

/// Works from 0.1 s before the movement, most while raising.
double flexor(double time_s) {
    return time_s < 1.0 ? 0.4 : time_s < 1.5 ? 0.3 : time_s < 2.4 ? 0.2 : 0.005;
}
/// A tenth of it, most while lowering.
double extensor(double time_s) {
    return time_s < 0.0 ? 0.005 : time_s < 1.5 ? 0.02 : time_s < 2.5 ? 0.04 : 0.005;
}

Recording recording_of(std::vector<Channel> channels) {
    Recording recording;
    recording.source = "elbow.csv";
    recording.channels = std::move(channels);
    return recording;
}

Recording arm(int count = 4) {
    return recording_of({muscle("Biceps", count, flexor), muscle("Triceps", count, extensor, 4)});
}

ActivityResult activity(const Recording& recording, int count = 4, const ActivityOptions& options = {}) {
    const AngleTrace trace = elbow(count);
    const MovementPhases phases = movement_phases(trace);
    return muscle_activity(recording, trace, phases, repetitions(trace, phases), options);
}

std::string code_of(const Recording& recording, const ActivityOptions& options) {
    try {
        (void)activity(recording, 4, options);
    } catch (const Failure& failure) {
        return failure.code();
    }
    return {};
}

/// The first onset in each repetition.
std::vector<double> onsets_s(const MuscleActivity& found) {
    std::vector<double> times_s;
    for (const BurstActivity& burst : found.bursts) {
        if (burst.lead.is_set()) {
            times_s.push_back(burst.onset.value());
        }
    }
    return times_s;
}

}  // namespace

// Mean rectified value of a normal signal: 0.797885 SD (closed form); the band-pass takes a little of it.
TEST_CASE("activity is what went in, phase by phase", "[emg][activity]") {
    const ActivityResult result = activity(arm());
    REQUIRE(result.muscles.size() == 2);
    const MuscleActivity& biceps = result.muscles[0];
    CHECK(biceps.unit == "mV");
    CHECK_THAT(biceps.raising_mean, WithinRel(0.797885 * 0.4, 0.08));
    CHECK_THAT(biceps.holding_mean, WithinRel(0.797885 * 0.3, 0.15));
    CHECK_THAT(biceps.lowering_mean, WithinRel(0.797885 * 0.2, 0.12));
    CHECK_THAT(biceps.rise_to_fall, WithinRel(2.0, 0.12));
    CHECK(result.muscles[1].rise_to_fall < 0.6);
    REQUIRE(biceps.repetitions.size() == 16);
    double shares = 0.0;
    for (std::size_t i = 1; i < 4; ++i) {
        CHECK(biceps.repetitions[i].repetition == 1);
        CHECK_THAT(biceps.repetitions[i].figures.integral,
                   WithinRel(biceps.repetitions[i].figures.mean * biceps.repetitions[i].figures.duration_s, 1e-12));
        CHECK(biceps.repetitions[i].figures.rms > biceps.repetitions[i].figures.mean);
        shares += biceps.repetitions[i].share_pct;
    }
    CHECK_THAT(shares, WithinAbs(100.0, 1.0));
    CHECK(biceps.phases.size() == 17);
    CHECK_FALSE(biceps.phases[0].repetition);
    CHECK(biceps.phases[1].repetition == 1U);
    CHECK_FALSE(contains(result.findings, "emg-swapped"));
}

// A sample of noise above the threshold may count up to a window of 0.05 s early, when the window reaches the burst.
TEST_CASE("bursts start before the movement, by the lead that went in", "[emg][activity]") {
    const ActivityResult result = activity(arm());
    const MuscleActivity& biceps = result.muscles[0];
    REQUIRE(biceps.bursts.size() == 4);
    for (std::size_t i = 0; i < 4; ++i) {
        const double start_s = 1.0 + 3.0 * static_cast<double>(i);
        CHECK(biceps.bursts[i].repetition == i + 1);
        CHECK_THAT(biceps.bursts[i].onset.value(), WithinAbs(start_s - 0.1, 0.05));
        CHECK_THAT(biceps.bursts[i].offset.value(), WithinAbs(start_s + 2.4, 0.05));
        CHECK_THAT(biceps.bursts[i].figures.active_pct, WithinAbs(100.0, 1e-9));
    }
    CHECK(biceps.bursts[0].lead.value() > 0.1);
    const ActivityResult energy = activity(arm(), 4, {.onset = OnsetSignal::teager_kaiser});
    REQUIRE(onsets_s(energy.muscles[0]).size() == 4);
    for (std::size_t i = 0; i < 4; ++i) {
        CHECK_THAT(onsets_s(energy.muscles[0])[i], WithinAbs(0.9 + 3.0 * static_cast<double>(i), 0.05));
    }
}

TEST_CASE("percentages name what they are of", "[emg][activity]") {
    const double plain = activity(arm()).muscles[0].raising_mean;
    const auto of_mvc =
        activity(arm(), 4, {.normalisation = Normalisation::mvc, .maxima = {{"biceps", 0.8}, {"", 0.1}}});
    CHECK(of_mvc.muscles[0].unit == "% of MVC");
    CHECK_THAT(of_mvc.muscles[0].raising_mean, WithinRel(100.0 * plain / 0.8, 1e-12));
    CHECK_THAT(of_mvc.muscles[1].reference, WithinAbs(0.1, 1e-12));
    CHECK_FALSE(contains(of_mvc.findings, "mvc-exceeded"));
    CHECK(contains(activity(arm(), 4, {.normalisation = Normalisation::mvc, .maxima = {{"", 0.1}}}).findings,
                   "mvc-exceeded"));
    const auto of_peak = activity(arm(), 4, {.normalisation = Normalisation::peak});
    CHECK(of_peak.muscles[0].unit == "% of peak");
    double peak = 0.0;
    for (const PhaseActivity& row : of_peak.muscles[0].phases) {
        peak = std::max(peak, row.figures.peak);
    }
    CHECK_THAT(peak, WithinAbs(100.0, 1e-9));
}

TEST_CASE("the type of contraction needs the direction of the load", "[emg][activity]") {
    const auto types = [](const MuscleActivity& found) {
        std::string text;
        for (std::size_t i = 0; i < 4; ++i) {
            text += std::string(name_of(found.repetitions[i].contraction)) + "/";
        }
        return text;
    };
    CHECK(types(activity(arm()).muscles[0]) == "////");
    const ActivityResult result = activity(arm(), 4, {.resisted = "flexion"});
    CHECK(types(result.muscles[0]) == "/concentric/isometric/eccentric/");
    CHECK(types(result.muscles[1]) == "////");
}

TEST_CASE("two muscles with opposite actions are a pair", "[emg][activity]") {
    const ActivityResult result = activity(arm());
    REQUIRE(result.pairs.size() == 1);
    CHECK(contains(result.findings, "pair-assumed"));
    CHECK(result.pairs[0].mover == "Biceps");
    CHECK(result.pairs[0].unit == "% of peak");
    REQUIRE(result.pairs[0].rows.size() == 5);
    CHECK(result.pairs[0].rows[0].co_contraction.common_area_pct > 40.0);
    CHECK(result.pairs[0].rows[0].co_contraction.common_area_pct < 95.0);
    const auto named = activity(arm(), 4, {.pairs = {{"triceps", "biceps"}}});
    CHECK(named.pairs[0].mover == "Triceps");
    CHECK_FALSE(contains(named.findings, "pair-assumed"));
}

TEST_CASE("swapped channels are noticed", "[emg][activity]") {
    auto swapped = recording_of({muscle("Triceps", 4, flexor), muscle("Biceps", 4, extensor, 4)});
    CHECK(contains(activity(swapped).findings, "emg-swapped"));
    swapped.channels[0].name = "EMG 1";
    swapped.channels[1].name = "EMG 2";
    CHECK_FALSE(contains(activity(swapped).findings, "emg-swapped"));
}

// The envelope is a raised cosine and so is the velocity's square: here the angle itself, 0.15 s later.
TEST_CASE("the lag between muscle and joint is the one that went in", "[emg][activity]") {
    std::vector<double> angle_deg(2000);
    for (std::size_t i = 0; i < angle_deg.size(); ++i) {
        const double time_s = static_cast<double>(i) / 100.0;
        angle_deg[i] = 60.0 - 60.0 * std::cos(2.0 * std::numbers::pi * (time_s - 0.15) / 4.0);
    }
    const AngleTrace trace = trace_from_angles(angle_deg, Hertz(100.0), Seconds(0.0), joint_motion("elbow"));
    Channel channel = muscle("Biceps", 7, [](double) { return 1.0; });
    for (std::size_t i = 0; i < channel.samples.size(); ++i) {
        const double time_s = static_cast<double>(i) / rate_hz;
        channel.samples[i] *= 0.2 - 0.19 * std::cos(2.0 * std::numbers::pi * time_s / 4.0);
    }
    std::fill_n(channel.samples.begin(), 900, 0.0);
    const MovementPhases phases = movement_phases(trace);
    const auto result =
        muscle_activity(recording_of({channel}), trace, phases, repetitions(trace, phases), ActivityOptions{});
    REQUIRE(result.muscles[0].angle_lag);
    CHECK_THAT(result.muscles[0].angle_lag->lag.value(), WithinAbs(0.15, 0.04));
    CHECK(result.muscles[0].angle_lag->correlation > 0.9);
}

TEST_CASE("frequencies are told by repetition, or by the second of a hold", "[emg][activity]") {
    const ActivityResult result = activity(arm(), 4, {.frequencies = FrequencyWish::required});
    CHECK(activity(arm(), 4, {.frequencies = FrequencyWish::none}).muscles[0].frequencies.empty());
    REQUIRE(result.muscles[0].frequencies.size() == 4);
    CHECK_THAT(result.muscles[0].frequencies[2].frequencies.median.value(), WithinAbs(85.0, 10.0));
    CHECK_FALSE(result.muscles[0].median_trend.is_clear());
    const AngleTrace hold = trace_from_angles(
        minimum_jerk_path({{0.0, 0.0}, {1.0, 0.0}, {2.0, 90.0}, {10.0, 90.0}, {11.0, 0.0}, {12.0, 0.0}}, 100.0),
        Hertz(100.0), Seconds(0.0), joint_motion("elbow"));
    const MovementPhases phases = movement_phases(hold);
    const auto held = muscle_activity(recording_of({muscle("Biceps", 4, flexor)}), hold, phases,
                                      repetitions(hold, phases), {.frequencies = FrequencyWish::required});
    CHECK(held.muscles[0].frequencies.size() == 8);
    CHECK_FALSE(held.muscles[0].frequencies[0].repetition);
}

TEST_CASE("a muscle without frequencies beside one that has them is named", "[emg][activity]") {
    Recording mixed = arm();
    Channel& slow = mixed.channels[1];
    std::vector<double> kept;
    for (std::size_t i = 0; i < slow.samples.size(); i += 5) {
        kept.push_back(slow.samples[i]);
    }
    slow.times = TimeBase::regular(Seconds(0.0), Hertz(200.0), kept.size());
    slow.samples = std::move(kept);
    const ActivityResult result = activity(mixed, 4, {.frequencies = FrequencyWish::required});
    CHECK(contains(result.findings, "emg-no-frequencies"));
    CHECK(result.muscles[0].frequencies.size() == 4);
    CHECK(result.muscles[1].frequencies.empty());
}

TEST_CASE("requests about muscles that cannot be served are refused", "[emg][activity]") {
    Recording slow = arm();
    for (Channel& channel : slow.channels) {
        channel.times = TimeBase::regular(Seconds(0.0), Hertz(200.0), 2600);
        channel.samples.resize(2600);
    }
    CHECK(code_of(slow, {.frequencies = FrequencyWish::required}) == "emg-rate-too-low");
    CHECK(code_of(slow, {.onset = OnsetSignal::teager_kaiser}) == "emg-rate-too-low");
    CHECK(code_of(recording_of({}), {}) == "emg-missing");
    Recording flat = arm();
    flat.channels[0].samples.assign(flat.channels[0].samples.size(), 0.1);
    CHECK(contains(activity(flat).findings, "emg-unplugged"));
    CHECK(activity(flat).muscles.size() == 1);
    flat.channels.pop_back();
    CHECK(code_of(flat, {}) == "emg-unusable");
    CHECK(code_of(arm(), {.pairs = {{"Biceps", "Tricep"}}}) == "muscle-unknown");
    CHECK(code_of(arm(), {.pairs = {{"Biceps", "biceps"}}}) == "pair-same");
    CHECK(code_of(arm(), {.normalisation = Normalisation::mvc, .maxima = {{"Biceps", 1.0}}}) == "mvc-missing");
    CHECK(code_of(arm(), {.normalisation = Normalisation::mvc, .maxima = {{"", 0.0}}}) == "mvc-invalid");
    CHECK(code_of(arm(), {.normalisation = Normalisation::mvc, .maxima = {{"", -2.0}}}) == "mvc-invalid");
    CHECK(code_of(arm(), {.normalisation = Normalisation::mvc, .maxima = {{"quads", 1.0}}}) == "muscle-unknown");
    CHECK(code_of(arm(), {.baseline = {Seconds(50.0), Seconds(51.0)}}) == "baseline-empty");
    CHECK(code_of(arm(), {.resisted = "sideways"}) == "direction-unknown");
}

TEST_CASE("a still joint is no resting muscle", "[emg][activity]") {
    const AngleTrace still =
        trace_from_angles(std::vector<double>(1300, 90.0), Hertz(100.0), Seconds(0.0), joint_motion("elbow"));
    const MovementPhases phases = movement_phases(still);
    const auto result = muscle_activity(recording_of({muscle("Biceps", 4, flexor)}), still, phases,
                                        repetitions(still, phases), ActivityOptions{});
    CHECK(contains(result.findings, "emg-baseline-assumed"));
    CHECK(result.muscles[0].bursts.size() >= 4);
}

TEST_CASE("muscles that never rest have no bursts, and gaps give no figures", "[emg][activity]") {
    const auto busy = activity(recording_of({muscle("Biceps", 4, [](double) { return 0.005; })}));
    CHECK(contains(busy.findings, "emg-no-rest"));
    CHECK(busy.muscles[0].bursts.empty());
    CHECK(std::isnan(busy.muscles[0].repetitions[0].figures.active_pct));
    Recording gapped = arm();
    std::fill_n(gapped.channels[0].samples.begin() + 1000, 900, missing);
    const auto result = activity(gapped);
    CHECK(std::isnan(result.muscles[0].repetitions[1].figures.mean));
    CHECK(result.muscles[0].repetitions[3].figures.mean > 0.1);
}

// NumPy 1.24.2: rectified mean and RMS over rest, burst and after.
TEST_CASE("figures over stretches are the reference ones", "[emg][activity]") {
    const AngleTrace trace = elbow(1);
    Channel channel = muscle("Biceps", 1, flexor);
    channel.times = TimeBase::regular(Seconds(0.0), Hertz(2000.0), 6000);
    channel.samples = burst_without_offset();
    MovementPhases phases;
    for (const auto& row : reference()["phase_table"]) {
        Phase phase;
        phase.start = Seconds(row["start"].get<double>() / 2000.0);
        phase.end = Seconds(row["end_exclusive"].get<double>() / 2000.0);
        phases.phases.push_back(phase);
    }
    ActivityOptions options;
    options.emg = {
        .form = EmgForm::raw, .band = {.rule = EmgBand::Rule::off}, .mains = {.rule = MainsChoice::Rule::off}};
    options.baseline = {Seconds(0.0), Seconds(0.5)};
    const auto result = muscle_activity(recording_of({channel}), trace, phases, Repetitions{}, options);
    for (std::size_t i = 0; i < 3; ++i) {
        const auto& row = reference()["phase_table"][i];
        CHECK_THAT(result.muscles[0].phases[i].figures.mean, WithinRel(row["arv_uV"].get<double>(), 1e-9));
        CHECK_THAT(result.muscles[0].phases[i].figures.rms, WithinRel(row["rms_uV"].get<double>(), 1e-9));
        CHECK_THAT(result.muscles[0].phases[i].figures.duration_s, WithinAbs(row["duration_s"].get<double>(), 1e-9));
    }
}
