// Laws that hold whatever the recording: drawn at random, and made smaller when one fails, by RapidCheck.
#include <jointrom/core/number_text.hpp>
#include <jointrom/movement/range_of_motion.hpp>
#include <jointrom/movement/repetitions.hpp>
#include <jointrom/signal/derivative.hpp>
#include <jointrom/signal/resample.hpp>
#include <jointrom/signal/unwrap.hpp>
#include <jointrom/signal/zero_phase.hpp>
#include <jointrom/stats/descriptive.hpp>
#include <jointrom/stats/intraclass_correlation.hpp>
#include <jointrom/stats/quantile.hpp>

#include <support/catch.hpp>
#include <support/made_trace.hpp>

#include <rapidcheck.h>

#include <algorithm>
#include <cmath>
#include <cstdlib>

using namespace jointrom;
using namespace jointrom::test;

namespace {

/// The same cases each time, unless RC_PARAMS says otherwise: RC_PARAMS="max_success=5000".
const int same_cases = ::setenv("RC_PARAMS", "seed=2026", 0);

/// A whole number from `from` to `to`, both included; whole numbers shrink well and repeat exactly.
int drawn(int from, int to) {
    return *rc::gen::inRange(from, to + 1);
}

std::vector<double> drawn_numbers(int least, int most) {
    std::vector<double> numbers(static_cast<std::size_t>(drawn(least, most)));
    std::ranges::generate(numbers, [] { return drawn(-9000, 9000) / 64.0; });
    return numbers;
}

struct Movement {
    std::vector<double> angle_deg;
    double rate_hz;

    [[nodiscard]] RangeOfMotion range() const { return range_of_motion(filtered_trace(angle_deg, rate_hz, 0.2)); }
};

/// One to five repetitions with noise, from 20 to 400 samples per second.
Movement drawn_movement() {
    const double rate_hz = drawn(20, 400), base_deg = drawn(-20, 20), size_deg = drawn(15, 140);
    const auto path = minimum_jerk_path(repeated(drawn(1, 5), base_deg, base_deg + size_deg), rate_hz);
    return {with_noise(path, drawn(0, 10) / 20.0, static_cast<std::uint64_t>(drawn(1, 1000))), rate_hz};
}

std::vector<double> scaled(std::vector<double> values, double factor, double shift) {
    std::ranges::transform(values, values.begin(), [&](double value) { return factor * value + shift; });
    return values;
}

bool near(double a, double b, double tolerance = 1e-7) {
    return std::abs(a - b) <= tolerance * std::max({1.0, std::abs(a), std::abs(b)});
}

}  // namespace

TEST_CASE("a range moves, grows and turns with the angle", "[property]") {
    CHECK(rc::check("shift and scale", [] {
        Movement movement = drawn_movement();
        const RangeOfMotion before = movement.range();
        const double factor = drawn(2, 40) / 16.0, shift_deg = drawn(-30, 30);
        movement.angle_deg = scaled(movement.angle_deg, factor, shift_deg);
        const RangeOfMotion after = movement.range();
        RC_ASSERT(near(after.positive.angle.value(), factor * before.positive.angle.value() + shift_deg));
        RC_ASSERT(near(after.negative.angle.value(), factor * before.negative.angle.value() + shift_deg));
        RC_ASSERT(near(after.arc.value(), factor * before.arc.value()));
    }));
    CHECK(rc::check("mirror", [] {
        Movement movement = drawn_movement();
        const RangeOfMotion before = movement.range();
        movement.angle_deg = negated(movement.angle_deg);
        const RangeOfMotion after = movement.range();
        RC_ASSERT(near(after.positive.angle.value(), -before.negative.angle.value()));
        RC_ASSERT(near(after.negative.angle.value(), -before.positive.angle.value()));
        RC_ASSERT(near(after.arc_budget.standard_uncertainty(), before.arc_budget.standard_uncertainty()));
    }));
    CHECK(rc::check("time reversal", [] {
        Movement movement = drawn_movement();
        const RangeOfMotion before = movement.range();
        movement.angle_deg = reversed(movement.angle_deg);
        // Forward-backward and backward-forward differ a little near the ends.
        RC_ASSERT(std::abs(movement.range().arc.value() - before.arc.value()) < 1e-3);
    }));
    CHECK(rc::check("twice the rate", [] {
        const double size_deg = drawn(15, 140), rate_hz = drawn(50, 200);
        const auto waypoints = repeated(drawn(1, 5), 0.0, size_deg);
        const Movement once{minimum_jerk_path(waypoints, rate_hz), rate_hz},
            twice{minimum_jerk_path(waypoints, 2.0 * rate_hz), 2.0 * rate_hz};
        RC_ASSERT(std::abs(once.range().arc.value() - twice.range().arc.value()) < 0.002 * size_deg);
    }));
}

TEST_CASE("filters and derivatives are linear and unwrapping undoes wrapping", "[property]") {
    CHECK(rc::check("low-pass of a sum", [] {
        const auto a = drawn_numbers(20, 200);
        const double factor = drawn(-64, 64) / 16.0;
        std::vector<double> b = a;
        std::ranges::generate(b, [] { return drawn(-9000, 9000) / 64.0; });
        std::vector<double> sum(a.size());
        std::ranges::transform(a, b, sum.begin(), [&](double x, double y) { return factor * x + y; });
        const auto low = [](const std::vector<double>& x) { return lowpass_zero_phase(x, Hertz(6.0), Hertz(100.0)); };
        const auto low_a = low(a), low_b = low(b), low_sum = low(sum);
        const auto slope_a = first_derivative(a, Hertz(100.0)), slope_b = first_derivative(b, Hertz(100.0)),
                   slope_sum = first_derivative(sum, Hertz(100.0));
        for (std::size_t i = 0; i < a.size(); ++i) {
            RC_ASSERT(near(low_sum[i], factor * low_a[i] + low_b[i]));
            RC_ASSERT(near(slope_sum[i], factor * slope_a[i] + slope_b[i]));
        }
    }));
    CHECK(rc::check("unwrap", [] {
        std::vector<double> angle{0.0};
        for (int i = drawn(2, 200); i > 0; --i) {
            angle.push_back(angle.back() + drawn(-170, 170));
        }
        std::vector<double> wrapped = angle;
        std::ranges::transform(angle, wrapped.begin(), [](double x) { return x - 360.0 * std::floor(x / 360.0); });
        RC_ASSERT(unwrap(wrapped).samples == angle);
    }));
}

TEST_CASE("statistics follow a change of unit and of zero", "[property]") {
    CHECK(rc::check("mean, standard deviation and quantiles", [] {
        const auto values = drawn_numbers(2, 60);
        const double factor = drawn(1, 64) / 16.0, shift = drawn(-500, 500);
        const auto other = scaled(values, factor, shift);
        const Description before = describe(values), after = describe(other);
        RC_ASSERT(near(after.mean, factor * before.mean + shift));
        RC_ASSERT(near(after.sd, factor * before.sd));
        const double p = drawn(0, 100) / 100.0;
        RC_ASSERT(near(quantile(other, p), factor * quantile(values, p) + shift));
        RC_ASSERT(quantile(values, p) >= before.min);
        RC_ASSERT(quantile(values, p) <= before.max);
    }));
    CHECK(rc::check("intraclass correlations", [] {
        ScoreTable scores{.columns = static_cast<std::size_t>(drawn(2, 4)), .values = {}};
        scores.values.resize(scores.columns * static_cast<std::size_t>(drawn(3, 12)));
        std::ranges::generate(scores.values, [] { return drawn(-9000, 9000) / 64.0; });
        ScoreTable other = scores;
        other.values = scaled(scores.values, drawn(1, 64) / 16.0, drawn(-500, 500));
        const auto before = intraclass_correlations(two_way_anova(scores)),
                   after = intraclass_correlations(two_way_anova(other));
        for (std::size_t i = 0; i < before.size(); ++i) {
            RC_ASSERT(std::isnan(before[i].value) == std::isnan(after[i].value));
            RC_ASSERT(std::isnan(before[i].value) || near(after[i].value, before[i].value, 1e-6));
            RC_ASSERT(std::isnan(before[i].value) || before[i].value <= 1.0);
        }
    }));
    CHECK(rc::check("numbers survive being written and read", [] {
        const double value = *rc::gen::arbitrary<double>();
        RC_PRE(std::isfinite(value));
        RC_ASSERT(parse_number(shortest_text(value)).value() == value);
    }));
}
