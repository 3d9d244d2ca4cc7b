#include <jointrom/core/failure.hpp>
#include <jointrom/signal/spectrum.hpp>
#include <jointrom/simulate/simulated_recording.hpp>

#include <support/catch.hpp>

#include <algorithm>
#include <cmath>
#include <numeric>

using namespace jointrom;

namespace {

SimulatedRecording first_of(const Simulation& simulation) {
    return simulate(simulation, planned_recordings(simulation).front());
}

/// Nothing but the movement and a sensor that reads true angles.
Simulation bare() {
    Simulation simulation;
    simulation.sensor = {.neutral_reading = 0.0, .reading_per_deg = 1.0, .noise_deg = 0.0, .resolution = 0.0};
    return simulation;
}

/// Still at neutral for so long.
Simulation still(double seconds) {
    Simulation simulation = bare();
    simulation.movement.repetitions = 0;
    simulation.movement.rest = Seconds(seconds);
    simulation.movement.end_rest = Seconds(0.0);
    return simulation;
}

double mean_of(const std::vector<double>& values) {
    return std::accumulate(values.begin(), values.end(), 0.0) / static_cast<double>(values.size());
}

double sd_of(const std::vector<double>& values) {
    const double mean = mean_of(values);
    double squares = 0.0;
    for (const double value : values) {
        squares += (value - mean) * (value - mean);
    }
    return std::sqrt(squares / static_cast<double>(values.size()));
}

std::vector<double> between(const SimulatedRecording& recording, const std::vector<double>& values, double from_s,
                            double to_s) {
    std::vector<double> part;
    for (std::size_t i = 0; i < values.size(); ++i) {
        if (recording.time_s[i] >= from_s && recording.time_s[i] < to_s) {
            part.push_back(values[i]);
        }
    }
    return part;
}

double strongest_hz(const std::vector<double>& samples, double rate_hz) {
    const Spectrum spectrum = periodogram(samples, Hertz(rate_hz), Taper::hann);
    return spectrum
        .frequency_hz[static_cast<std::size_t>(std::ranges::max_element(spectrum.values) - spectrum.values.begin())];
}

}  // namespace

TEST_CASE("a minimum-jerk movement has the closed form's middle, speed and excursion", "[simulate][true_movement]") {
    TrueMovement movement(10.0);
    movement.hold(1.0, PhaseKind::rest);
    movement.move(130.0, 1.5);
    CHECK(movement.angle_deg(0.5) == 10.0);
    CHECK_THAT(movement.angle_deg(1.75), WithinAbs(70.0, 1e-12));
    CHECK(movement.angle_deg(3.0) == 130.0);
    // Flash & Hogan 1985: the peak speed is 1.875 times the mean one, at the middle.
    const double speed = (movement.angle_deg(1.75 + 1e-4) - movement.angle_deg(1.75 - 1e-4)) / 2e-4;
    CHECK_THAT(speed, WithinRel(1.875 * 120.0 / 1.5, 1e-6));
    CHECK_THAT(movement.phases().back().peak_velocity_deg_s(), WithinRel(150.0, 1e-12));
    // A quarter of the way in time: 10/64 - 15/256 + 6/1024 = 0.103515625 of the way.
    CHECK_THAT(movement.angle_deg(1.375), WithinAbs(10.0 + 120.0 * 0.103515625, 1e-12));
}

TEST_CASE("repetitions follow the plan", "[simulate][true_movement]") {
    Simulation simulation = bare();
    simulation.movement = {.repetitions = 3,
                           .top_deg = {120.0, 130.0},
                           .bottom_deg = {-5.0},
                           .top_sd_deg = 0.0,
                           .bottom_sd_deg = 0.0,
                           .tempo_sd_pct = 0.0,
                           .rest = Seconds(2.0),
                           .raising = {Seconds(1.0)},
                           .holding = Seconds(0.5),
                           .lowering = {Seconds(1.5)},
                           .pause = Seconds(1.0)};
    const SimulatedRecording recording = first_of(simulation);
    const auto& repetitions = recording.movement.repetitions();
    REQUIRE(repetitions.size() == 3);
    CHECK(repetitions[1].start_s == 6.0);
    CHECK(repetitions[1].top_from_s == 7.0);
    CHECK(repetitions[1].top_to_s == 7.5);
    CHECK(repetitions[1].end_s == 9.0);
    CHECK(repetitions[0].top_deg == 120.0);
    CHECK(repetitions[1].top_deg == 130.0);
    CHECK(repetitions[2].top_deg == 120.0);
    CHECK(repetitions[1].start_deg == -5.0);
    CHECK(recording.movement.highest_deg() == 130.0);
    CHECK(recording.movement.lowest_deg() == -5.0);
    CHECK(recording.reading[static_cast<std::size_t>(7.2 * 200)] == 130.0);
    CHECK(recording.movement.now_deg() == 0.0);

    simulation.movement.raising = {Seconds(1.0), Seconds(1.2)};
    simulation.movement.lowering = {Seconds(1.5), Seconds(1.4), Seconds(1.6)};
    const SimulatedRecording at_own_pace = first_of(simulation);
    const auto& timed = at_own_pace.movement.repetitions();
    CHECK_THAT(timed[1].top_from_s - timed[1].start_s, WithinAbs(1.2, 1e-9));
    CHECK_THAT(timed[2].top_from_s - timed[2].start_s, WithinAbs(1.0, 1e-9));
    CHECK_THAT(timed[2].end_s - timed[2].top_to_s, WithinAbs(1.6, 1e-9));

    simulation.movement.postures_deg = {0.0, 30.0, 60.0};
    const SimulatedRecording held = first_of(simulation);
    const auto& phases = held.movement.phases();
    REQUIRE(phases.size() == 5);
    CHECK_THAT(phases[1].duration_s(), WithinAbs(1.0, 1e-9));
    CHECK_THAT(phases[3].duration_s(), WithinAbs(1.2, 1e-9));
}

TEST_CASE("noise and quantisation have the spread that is stated", "[simulate][sensor]") {
    Simulation simulation = still(250.0);
    simulation.sensor.noise_deg = 0.4;
    const SimulatedRecording noisy = first_of(simulation);
    REQUIRE(noisy.reading.size() == 50000);
    CHECK_THAT(sd_of(noisy.reading), WithinRel(0.4, 4.0 / std::sqrt(2.0 * 50000)));
    // JCGM 100 F.2.2.1: the error of a step q has the standard deviation q / sqrt(12).
    simulation.sensor.resolution = 0.5;
    simulation.sensor.noise_deg = 10.0;  // so that the place within a step is even
    const SimulatedRecording stepped = first_of(simulation);
    simulation.sensor.resolution = 0.0;
    const SimulatedRecording fine = first_of(simulation);
    std::vector<double> error(stepped.reading.size());
    for (std::size_t i = 0; i < error.size(); ++i) {
        error[i] = stepped.reading[i] - fine.reading[i];
    }
    CHECK_THAT(sd_of(error), WithinRel(0.5 / std::sqrt(12.0), 0.02));
}

TEST_CASE("hum that is sampled too slowly shows at the folded frequency", "[simulate][aliasing]") {
    // |f - fs round(f / fs)|
    const auto [hum_hz, rate_hz, seen_hz] = GENERATE(table<double, double, double>({{50.0, 1000.0, 50.0},
                                                                                    {60.0, 100.0, 40.0},
                                                                                    {60.0, 50.0, 10.0},
                                                                                    {120.0, 200.0, 80.0},
                                                                                    {60.0, 200.0, 60.0},
                                                                                    {50.0, 80.0, 30.0}}));
    Simulation simulation = still(40.0);
    simulation.logger.rate = Hertz(rate_hz);
    simulation.logger.mains = Hertz(hum_hz);
    simulation.logger.hum_mv = 1.0;
    simulation.sensor.hum_deg = 2.0;
    simulation.muscles = {{.name = "Biceps", .rest_mv = 0.01}};
    const SimulatedRecording recording = first_of(simulation);
    CHECK_THAT(strongest_hz(recording.reading, rate_hz), WithinAbs(seen_hz, 0.05));
    CHECK_THAT(strongest_hz(recording.muscles.front().mv, rate_hz), WithinAbs(seen_hz, 0.05));
    CHECK_THAT(sd_of(recording.reading), WithinRel(2.0 / std::sqrt(2.0), 0.01));
}

TEST_CASE("sensor faults do what they say", "[simulate][sensor]") {
    Simulation simulation = still(120.0);
    simulation.sensor.neutral_reading = 350.0;
    SECTION("slippage and drift") {
        simulation.sensor.slips = {{30.0, 12.0}, {60.0, -5.0}};
        simulation.sensor.drift_deg_per_min = 3.0;
        const SimulatedRecording recording = first_of(simulation);
        CHECK_THAT(recording.reading[29 * 200], WithinAbs(350.0 + 29.0 * 0.05, 1e-9));
        CHECK_THAT(recording.reading[30 * 200], WithinAbs(350.0 + 1.5 + 12.0, 1e-9));
        CHECK_THAT(recording.reading[90 * 200], WithinAbs(350.0 + 4.5 + 7.0, 1e-9));
    }
    SECTION("turning over at 360") {
        simulation.sensor.drift_deg_per_min = 10.0;
        simulation.sensor.wraps_at = 360.0;
        const SimulatedRecording recording = first_of(simulation);
        CHECK_THAT(recording.reading[59 * 200], WithinAbs(350.0 + 59.0 / 6.0, 1e-9));
        CHECK_THAT(recording.reading[61 * 200], WithinAbs(61.0 / 6.0 - 10.0, 1e-9));
    }
    SECTION("the ends of the range") {
        simulation.sensor.noise_deg = 5.0;
        simulation.sensor.limits = {345.0, 352.0};
        const auto [low, high] = std::ranges::minmax(first_of(simulation).reading);
        CHECK(low == 345.0);
        CHECK(high == 352.0);
    }
    SECTION("a non-linear sensor") {
        simulation.sensor.nonlinearity_deg = 0.7;
        simulation.sensor.drift_deg_per_min = 5000.0;  // over a range in which each sine repeats often
        const SimulatedRecording recording = first_of(simulation);
        std::vector<double> error(recording.reading.size());
        for (std::size_t i = 0; i < error.size(); ++i) {
            error[i] = recording.reading[i] - 350.0 - 5000.0 / 60.0 * recording.time_s[i];
        }
        CHECK_THAT(sd_of(error), WithinRel(0.7, 0.02));
        CHECK_THAT(mean_of(error), WithinAbs(0.0, 0.02));
    }
    SECTION("stuck") {
        simulation.sensor.noise_deg = 1.0;
        simulation.sensor.stuck = TimeWindow{Seconds(10.0), Seconds(20.0)};
        const SimulatedRecording recording = first_of(simulation);
        CHECK(sd_of(between(recording, recording.reading, 10.0, 20.0)) < 1e-9);
        CHECK(sd_of(between(recording, recording.reading, 20.0, 30.0)) > 0.9);
    }
    SECTION("spikes") {
        simulation.sensor.spikes = 4;
        simulation.sensor.spike_deg = 60.0;
        const SimulatedRecording recording = first_of(simulation);
        CHECK(std::ranges::count_if(recording.reading, [](double x) { return std::abs(x - 350.0) == 60.0; }) == 4);
    }
    SECTION("a left sensor is mounted mirrored") {
        simulation.sensor = {.noise_deg = 0.0};
        simulation.movement.repetitions = 1;
        simulation.movement.top_sd_deg = 0.0;
        simulation.sides = {Side::left, Side::right};
        const auto plans = planned_recordings(simulation);
        CHECK(std::ranges::max(simulate(simulation, plans[0]).reading) == 320.0);
        CHECK_THAT(std::ranges::min(simulate(simulation, plans[1]).reading), WithinAbs(40.0, 1e-9));
    }
}

TEST_CASE("the logger loses, delays and thins out samples as it is told", "[simulate][logger]") {
    Simulation simulation = still(20.0);
    simulation.muscles = {{.name = "Biceps"}};
    SECTION("a gap is missing rows, or blank cells") {
        simulation.logger.gaps = {{Seconds(5.0), Seconds(6.0)}};
        CHECK(first_of(simulation).time_s.size() == 3800);
        simulation.logger.gaps_are_blank = true;
        const SimulatedRecording recording = first_of(simulation);
        REQUIRE(recording.time_s.size() == 4000);
        CHECK(std::ranges::count_if(recording.reading, [](double x) { return std::isnan(x); }) == 200);
        CHECK(std::isnan(recording.muscles.front().mv[1000]));
    }
    SECTION("sampling times vary, never backwards") {
        simulation.logger.jitter_ms = 0.5;
        const SimulatedRecording recording = first_of(simulation);
        CHECK(std::ranges::is_sorted(recording.time_s));
        std::vector<double> late_ms(recording.time_s.size());
        for (std::size_t i = 0; i < late_ms.size(); ++i) {
            late_ms[i] = 1000.0 * recording.time_s[i] - 5.0 * static_cast<double>(i);
        }
        CHECK_THAT(sd_of(late_ms), WithinRel(0.5, 0.05));
    }
    SECTION("a slower angle leaves cells blank") {
        simulation.logger.angle_rate = Hertz(50.0);
        const SimulatedRecording recording = first_of(simulation);
        CHECK(std::isfinite(recording.reading[8]));
        CHECK(std::isnan(recording.reading[9]));
        CHECK(recording_text(recording).find("\n0.005,,") != std::string::npos);
    }
}

TEST_CASE("muscles are as strong as stated in each phase, from their onset on", "[simulate][muscles]") {
    Simulation simulation = bare();
    simulation.logger.rate = Hertz(2000.0);
    simulation.movement.raising = {Seconds(4.0)};
    simulation.movement.holding = Seconds(4.0);
    simulation.movement.lowering = {Seconds(4.0)};
    simulation.movement.repetitions = 1;
    simulation.muscles = {{.name = "Biceps",
                           .raising_mv = 0.4,
                           .holding_mv = 0.2,
                           .lowering_mv = 0.1,
                           .rest_mv = 0.005,
                           .lead_ms = 80.0,
                           .bursts = {{0.5, 1.0, 0.7}}}};
    const SimulatedRecording recording = first_of(simulation);
    const TrueRepetition& repetition = recording.movement.repetitions().front();
    const auto sd = [&](double from_s, double to_s) {
        return sd_of(between(recording, recording.muscles.front().mv, from_s, to_s));
    };
    CHECK_THAT(sd(0.0, 0.5), WithinRel(0.005, 0.1));
    CHECK_THAT(sd(0.5, 1.0), WithinRel(0.7, 0.1));
    CHECK_THAT(sd(repetition.start_s, repetition.top_from_s), WithinRel(0.4, 0.05));
    CHECK_THAT(sd(repetition.top_from_s, repetition.top_to_s), WithinRel(0.2, 0.05));
    CHECK_THAT(sd(repetition.top_to_s, repetition.end_s - 0.1), WithinRel(0.1, 0.05));
    CHECK(sd(repetition.start_s - 0.08, repetition.start_s - 0.06) > 0.1);
    CHECK(sd(repetition.start_s - 0.1, repetition.start_s - 0.08) < 0.02);
    CHECK(truth_text(recording).find("\"onset_s\": 1.92,") != std::string::npos);
}

TEST_CASE("a muscle that tires grows stronger and slower from start to end, and stays so", "[simulate][muscles]") {
    Simulation simulation = still(120.0);
    simulation.logger.rate = Hertz(2000.0);
    simulation.muscles = {{.name = "Biceps",
                           .rest_mv = 0.01,
                           .median_frequency = Hertz(110.0),
                           .bursts = {{10.0, 110.0, 0.2}},
                           .fatigue = MuscleFatigue{40.0, 80.0, Hertz(70.0), 1.5}}};
    const SimulatedRecording recording = first_of(simulation);
    const auto part = [&](double from_s, double to_s) {
        return between(recording, recording.muscles.front().mv, from_s, to_s);
    };
    const auto median_hz = [&](double from_s, double to_s) {
        return median_frequency(periodogram(part(from_s, to_s), Hertz(2000.0))).value();
    };
    CHECK_THAT(median_hz(10.0, 40.0), WithinAbs(110.0, 3.0));
    CHECK_THAT(median_hz(58.0, 62.0), WithinAbs(90.0, 6.0));  // half of the way
    CHECK_THAT(median_hz(80.0, 110.0), WithinAbs(70.0, 3.0));
    CHECK_THAT(sd_of(part(10.0, 40.0)), WithinRel(0.2, 0.03));
    CHECK_THAT(sd_of(part(58.0, 62.0)), WithinRel(0.25, 0.06));
    CHECK_THAT(sd_of(part(80.0, 110.0)), WithinRel(0.3, 0.03));
    CHECK_THAT(sd_of(part(110.0, 120.0)), WithinRel(0.01, 0.05));  // electrodes do not tire
    CHECK(truth_text(recording).find("\"sd_times\": 1.5") != std::string::npos);
}

TEST_CASE("students differ as stated, and stay themselves", "[simulate][people]") {
    Simulation simulation = still(0.1);
    simulation.people = {.students = 3000, .top_between_sd_deg = 6.0, .side_sd_deg = 2.0};
    simulation.sides = {Side::left, Side::right};
    simulation.logger.rate = Hertz(10.0);
    std::vector<double> left, right;
    for (const PlannedRecording& plan : planned_recordings(simulation)) {
        (plan.side == Side::left ? left : right).push_back(simulate(simulation, plan).own_top_deg);
    }
    CHECK_THAT(mean_of(left), WithinAbs(140.0, 4.0 * std::sqrt(40.0 / 3000.0)));
    CHECK_THAT(sd_of(left), WithinRel(std::sqrt(36.0 + 4.0), 0.06));
    double covariance = 0.0;
    for (std::size_t i = 0; i < left.size(); ++i) {
        covariance += (left[i] - mean_of(left)) * (right[i] - mean_of(right)) / static_cast<double>(left.size());
    }
    CHECK_THAT(covariance, WithinRel(36.0, 0.12));
    simulation.file = "{participant}_{side}_again.csv";
    CHECK(simulate(simulation, planned_recordings(simulation)[7]).own_top_deg == right[3]);
}

TEST_CASE("the same seed gives the same bytes, whatever else is simulated", "[simulate][seed]") {
    Simulation simulation;
    const std::string text = recording_text(first_of(simulation));
    CHECK(recording_text(first_of(simulation)) == text);
    simulation.muscles = {{.name = "Biceps", .raising_mv = 0.4}};
    Simulation plain;
    CHECK(first_of(simulation).reading == first_of(plain).reading);
    plain.seed = 2;
    CHECK(recording_text(first_of(plain)) != text);
}

TEST_CASE("a logger's text has the form that was asked for", "[simulate][recording_text]") {
    Simulation simulation = still(0.01);
    simulation.sensor.resolution = 0.01;
    CHECK(recording_text(first_of(simulation)) == "Time (s),Elbow angle (deg)\n0.000,0.00\n0.005,0.00\n");
    simulation.logger.square_brackets = true;
    CHECK(recording_text(first_of(simulation)) == "Time [s],Elbow angle [deg]\n0.000,0.00\n0.005,0.00\n");
    simulation.logger.delimiter = ';';
    simulation.logger.decimal_mark = ',';
    simulation.logger.carriage_returns = true;
    simulation.logger.byte_order_mark = true;
    simulation.logger.units_in_row = true;
    simulation.logger.preamble = {"Lab 7"};
    CHECK(recording_text(first_of(simulation)) ==
          "\xEF\xBB\xBFLab 7\r\nTime;Elbow angle\r\ns;deg\r\n0,000;0,00\r\n0,005;0,00\r\n");
}

TEST_CASE("what cannot be simulated is refused", "[simulate][failures]") {
    Simulation simulation;
    SECTION("two recordings of one name") {
        simulation.trials = 2;
    }
    SECTION("a name outside the folder") {
        simulation.file = "../x.csv";
    }
    SECTION("a name that a spreadsheet would compute") {
        simulation.file = "=1+1.csv";
    }
    SECTION("the name of the manifest") {
        simulation.file = "manifest.csv";
    }
    SECTION("an unknown place in the name") {
        simulation.file = "{who}.csv";
    }
    SECTION("an angle rate that does not fit") {
        simulation.logger.angle_rate = Hertz(70.0);
    }
    SECTION("a median frequency beyond muscles") {
        simulation.muscles = {{.name = "Biceps", .median_frequency = Hertz(900.0)}};
    }
    SECTION("too long") {
        simulation.logger.rate = Hertz(100000.0);
        simulation.movement.rest = Seconds(86400.0);
    }
    SECTION("too many") {
        simulation.file = "{participant}{trial}.csv";
        simulation.people.students = 1000;
        simulation.trials = 1000;
    }
    SECTION("no angle") {
        simulation.movement.top_deg.clear();
    }
    CHECK_THROWS_AS(first_of(simulation), Failure);
}
