#include <jointrom/movement/angle_uncertainty.hpp>

#include <jointrom/angle/prepare_angle.hpp>
#include <jointrom/movement/range_of_motion.hpp>

#include <support/catch.hpp>
#include <support/made_trace.hpp>

#include <array>
#include <cmath>

using namespace jointrom;
using namespace jointrom::test;

namespace {

/// How errors of many trials compare with what each trial says about its own.
class Comparison {
  public:
    void add(double error, const Budget& budget) {
        squares_ += error * error;
        stated_squares_ += std::pow(budget.standard_uncertainty(), 2);
        covered_ += std::abs(error) <= budget.expanded_uncertainty() ? 1.0 : 0.0;
        count_ += 1.0;
    }
    [[nodiscard]] double stated_over_true() const { return std::sqrt(stated_squares_ / squares_); }
    [[nodiscard]] double covered() const { return covered_ / count_; }

  private:
    double squares_ = 0.0, stated_squares_ = 0.0, covered_ = 0.0, count_ = 0.0;
};

constexpr double gain_deg_per_v = 38.0;
constexpr double offset_deg = -21.5;
constexpr double sensor_scatter_deg = 0.6;  // of the sensor about its line, at every angle anew
constexpr double noise_deg = 0.15;          // of one sample
constexpr double top_deg = 100.0, bottom_deg = -12.0;

double reading_v(double sensor_deg) {
    return (sensor_deg - offset_deg) / gain_deg_per_v;
}

Calibration calibrated(Noise& draw) {
    std::vector<CalibrationPoint> points;
    for (const double known_deg : {0.0, 30.0, 60.0, 90.0, 120.0}) {
        points.push_back({.known_deg = known_deg, .reading = reading_v(known_deg + sensor_scatter_deg * draw())});
    }
    Findings findings;
    return fit_calibration(points, {.unit = "V", .motion = joint_motion("elbow")}, findings);
}

/// Neutral, the top, the bottom, each held; the sensor's scatter is one at each of them.
Channel recording(const std::vector<double>& truth_deg, Noise& draw) {
    const double at_neutral = sensor_scatter_deg * draw(), at_top = sensor_scatter_deg * draw(),
                 at_bottom = sensor_scatter_deg * draw();
    const double strapped_on_deg = 7.0 * draw();
    Channel channel;
    channel.unit = "V";
    channel.times = TimeBase::regular(Seconds(0.0), Hertz(50.0), truth_deg.size());
    for (const double angle_deg : truth_deg) {
        const double share = angle_deg > 0.0 ? angle_deg / top_deg : angle_deg / bottom_deg;
        const double scatter = at_neutral + share * ((angle_deg > 0.0 ? at_top : at_bottom) - at_neutral);
        channel.samples.push_back(reading_v(angle_deg + strapped_on_deg + scatter + noise_deg * draw()));
    }
    return channel;
}

}  // namespace

// JCGM 101 (propagation of distributions): 8000 times a calibration, a strapping-on and a recording are drawn anew and
// go through the program's own way from reading to angle. The scatter of the trials is known to 0.8 %.
TEST_CASE("stated uncertainties agree within 2 % with those of Monte Carlo trials", "[movement][angle_uncertainty]") {
    const auto truth = minimum_jerk_path(
        {{0.0, 0.0}, {1.0, 0.0}, {2.0, top_deg}, {2.5, top_deg}, {3.6, bottom_deg}, {4.2, bottom_deg}}, 50.0);
    Comparison calibrated_angle, positive, negative, arc;
    Noise draw(2024);
    for (int trial = 0; trial < 8000; ++trial) {
        const Calibration calibration = calibrated(draw);
        const double reading = reading_v(105.0 + sensor_scatter_deg * draw());
        calibrated_angle.add(angle_of_reading(calibration, reading).value - 105.0,
                             reading_budget(calibration, reading));

        Findings findings;
        const PreparationOptions options{
            .motion = joint_motion("elbow"),
            .calibration = calibration,
            .neutral = {.rule = NeutralChoice::Rule::window, .window = {Seconds(0.1), Seconds(0.9)}}};
        const RangeOfMotion range = range_of_motion(prepare_angle(recording(truth, draw), options, findings));
        positive.add(range.positive.angle.value() - top_deg, range.positive.budget);
        negative.add(range.negative.angle.value() - bottom_deg, range.negative.budget);
        arc.add(range.arc.value() - (top_deg - bottom_deg), range.arc_budget);
    }
    CHECK_THAT(calibrated_angle.stated_over_true(), WithinAbs(1.0, 0.02));
    CHECK_THAT(positive.stated_over_true(), WithinAbs(1.0, 0.02));
    CHECK_THAT(negative.stated_over_true(), WithinAbs(1.0, 0.02));
    CHECK_THAT(arc.stated_over_true(), WithinAbs(1.0, 0.02));
    // Five points leave three degrees of freedom, however many lines of a budget rest on them.
    for (const Comparison* expanded : {&calibrated_angle, &positive, &negative, &arc}) {
        CHECK_THAT(expanded->covered(), WithinAbs(0.95, 0.01));
    }
}

TEST_CASE("the zero cancels in an arc and not in an angle", "[movement][angle_uncertainty]") {
    TraceUncertainty known;
    known.gain_relative = 0.02;
    known.linearity = Degrees(0.4);
    known.zero = Degrees(0.9);
    known.zero_is_read = true;
    const auto trace = trace_from_angles({0, 1, 2}, Hertz(1), Seconds(0), joint_motion("elbow"), Side::left, known);
    const Budget high = angle_budget(trace, Degrees(100.0)), low = angle_budget(trace, Degrees(-20.0));
    CHECK_THAT(high.standard_uncertainty(), WithinRel(std::sqrt(4.0 + 2 * 0.16 + 0.81), 1e-12));
    CHECK_THAT(low.standard_uncertainty(), WithinRel(std::sqrt(0.16 + 2 * 0.16 + 0.81), 1e-12));
    const double arc_u = std::sqrt(2.4 * 2.4 + 2 * 0.16);
    CHECK_THAT(arc_budget(trace, Degrees(120.0)).standard_uncertainty(), WithinRel(arc_u, 1e-12));
    CHECK_THAT(difference(high, low, CommonTo::recording).standard_uncertainty(), WithinRel(arc_u, 1e-12));
}

TEST_CASE("with the calibration's own zero an angle is surest in the middle of the calibration",
          "[movement][angle_uncertainty]") {
    Noise draw(3);
    const Calibration calibration = calibrated(draw);
    Channel channel;
    channel.unit = "V";
    channel.times = TimeBase::regular(Seconds(0.0), Hertz(50.0), 300);
    for (const double angle_deg : sampled([](double t) { return 60.0 + 50.0 * std::sin(2.0 * t); }, 5.98, 50.0)) {
        channel.samples.push_back(reading_v(angle_deg));
    }
    Findings findings;
    const auto trace = prepare_angle(channel, {.motion = joint_motion("elbow"), .calibration = calibration}, findings);
    REQUIRE(contains(findings, "neutral-sensor-zero"));
    for (const double angle_deg : {10.0, 60.0, 110.0}) {
        const double reading = (angle_deg - calibration.offset_deg) / calibration.gain_deg_per_unit;
        CHECK_THAT(angle_budget(trace, Degrees(angle_deg), MomentaryNoise::left_out).standard_uncertainty(),
                   WithinRel(angle_of_reading(calibration, reading).u, 1e-6));
    }
}
