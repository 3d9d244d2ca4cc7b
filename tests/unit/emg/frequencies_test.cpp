#include <jointrom/emg/frequencies.hpp>

#include "emg_reference.hpp"

using namespace jointrom;
using namespace jointrom::test;

// SciPy 1.10.1 (welch, linregress) on 10 s of simulated activity at 1000 Hz whose frequencies fall.
TEST_CASE("the fall of the frequencies is the reference one", "[emg][frequencies]") {
    const auto samples = reference_column("reference/emg/fatigue_1000hz.csv", "emg_uV");
    const auto& expected = reference()["fatigue"];
    std::vector<double> time_s;
    std::vector<double> medians;
    std::vector<double> means;
    for (std::size_t k = 0; k < 10; ++k) {
        const auto found = emg_frequencies(std::span(samples).subspan(1000 * k, 1000), Hertz(1000.0));
        CHECK_THAT(found.median.value(), WithinRel(expected["rows"][k]["mdf_hz_interp"].get<double>(), 1e-9));
        CHECK_THAT(found.mean.value(), WithinRel(expected["rows"][k]["mnf_hz"].get<double>(), 1e-9));
        time_s.push_back(static_cast<double>(k) + 0.5);
        medians.push_back(found.median.value());
        means.push_back(found.mean.value());
    }
    const auto check = [&](const std::vector<double>& values, const nlohmann::json& line) {
        const Trend trend = trend_of(time_s, values);
        CHECK_THAT(trend.slope_per_s, WithinRel(line["slope_hz_per_s"].get<double>(), 1e-9));
        CHECK_THAT(trend.intercept, WithinRel(line["intercept_hz"].get<double>(), 1e-9));
        CHECK_THAT(trend.r_squared, WithinRel(line["r2"].get<double>(), 1e-9));
        CHECK(trend.is_clear());
    };
    check(medians, expected["regression"]["mdf_hz_interp"]);
    check(means, expected["regression"]["mnf_hz"]);
}

// By hand: through (0,1), (1,3), (2,2), (3,4): slope 0.8, intercept 1.3, residuals -0.3 0.9 -0.9 0.3.
TEST_CASE("a trend by hand", "[emg][frequencies]") {
    const std::vector<double> time_s{0.0, 1.0, 2.0, 3.0, 4.0};
    const Trend trend = trend_of(time_s, std::vector<double>{1.0, 3.0, 2.0, 4.0, missing});
    CHECK(trend.count == 4);
    CHECK_THAT(trend.slope_per_s, WithinAbs(0.8, 1e-12));
    CHECK_THAT(trend.intercept, WithinAbs(1.3, 1e-12));
    CHECK_THAT(trend.slope_u_per_s, WithinAbs(std::sqrt(1.8 / 2.0 / 5.0), 1e-12));
    CHECK_THAT(trend.first_to_last_pct, WithinAbs(100.0 * 2.4 / 1.3, 1e-9));
    CHECK_FALSE(trend.is_clear());
}

TEST_CASE("too little for a frequency or a trend", "[emg][frequencies]") {
    CHECK_FALSE(emg_frequencies({}, Hertz(1000.0)).median.is_set());
    CHECK_FALSE(emg_frequencies(std::vector<double>(100, 1.0), Hertz(1000.0)).mean.is_set());
    CHECK_FALSE(emg_frequencies(std::vector<double>(1000, missing), Hertz(1000.0)).median.is_set());
    CHECK_FALSE(emg_frequencies(std::vector<double>(1000, 0.0), Hertz(1000.0)).median.is_set());
    CHECK(std::isnan(trend_of({}, {}).slope_per_s));
    CHECK(std::isnan(trend_of(std::vector<double>{1.0, 1.0}, std::vector<double>{1.0, 2.0}).slope_per_s));
    const Trend two = trend_of(std::vector<double>{1.0, 2.0}, std::vector<double>{1.0, 2.0});
    CHECK_THAT(two.slope_per_s, WithinAbs(1.0, 1e-12));
    CHECK_FALSE(two.is_clear());
}
