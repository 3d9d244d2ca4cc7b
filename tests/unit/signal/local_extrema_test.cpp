#include <jointrom/signal/local_extrema.hpp>

#include "signal_reference.hpp"

#include <random>

using namespace jointrom;
using namespace jointrom::test;

namespace {

nlohmann::json reference() {
    return reference_json("reference/signal/peaks.json");
}

std::vector<double> elbow(const std::string& heading) {
    return reference_column("reference/movement/elbow_reps_100hz.csv", heading);
}

std::vector<std::size_t> places(const std::vector<Extremum>& extrema) {
    std::vector<std::size_t> result;
    for (const Extremum& extremum : extrema) {
        result.push_back(extremum.sample);
    }
    return result;
}

void check_against(const nlohmann::json& expected, const std::vector<Extremum>& found) {
    CHECK(places(found) == expected["peaks"].get<std::vector<std::size_t>>());
    REQUIRE(found.size() == expected["peaks"].size());
    for (std::size_t k = 0; k < found.size(); ++k) {
        CHECK_THAT(found[k].prominence, WithinAbs(expected["prominences"][k], 1e-12));
        CHECK(found[k].left_base == expected["left_bases"][k]);
        CHECK(found[k].right_base == expected["right_bases"][k]);
    }
}

void check_widths(const nlohmann::json& expected, const std::vector<double>& x, const std::vector<Extremum>& found,
                  double relative) {
    for (std::size_t k = 0; k < found.size(); ++k) {
        const ExtremumWidth width = extremum_width(x, found[k], relative);
        const double sign = found[k].turn == Turn::maximum ? 1.0 : -1.0;
        CHECK_THAT(width.samples(), WithinAbs(expected["widths"][k], 1e-10));
        CHECK_THAT(sign * width.level, WithinAbs(expected["width_heights"][k], 1e-12));
        CHECK_THAT(width.left, WithinAbs(expected["left_ips"][k], 1e-10));
        CHECK_THAT(width.right, WithinAbs(expected["right_ips"][k], 1e-10));
    }
}

/// The definition, sample by sample.
double walked_prominence(const std::vector<double>& x, std::size_t peak) {
    double left = x[peak];
    for (std::size_t i = peak; i-- > 0 && x[i] <= x[peak];) {
        left = std::min(left, x[i]);
    }
    double right = x[peak];
    for (std::size_t i = peak + 1; i < x.size() && x[i] <= x[peak]; ++i) {
        right = std::min(right, x[i]);
    }
    return x[peak] - std::max(left, right);
}

}  // namespace

// SciPy 1.10.1: find_peaks, peak_prominences, peak_widths.
TEST_CASE("maxima and minima of a noisy movement are the reference ones", "[signal][local_extrema]") {
    const auto noisy = elbow("noisy_deg");
    const auto maxima = local_maxima(noisy, {.least_prominence = 60.0});
    check_against(reference()["elbow_noisy_max"], maxima);
    check_widths(reference()["elbow_noisy_max"], noisy, maxima, 0.5);
    const auto minima = local_minima(noisy, {.least_prominence = 60.0});
    check_against(reference()["elbow_noisy_min"], minima);
    check_widths(reference()["elbow_noisy_min"], noisy, minima, 0.5);
    CHECK_THAT(minima.front().value, WithinAbs(noisy[370], 1e-12));

    const auto apart = reference()["elbow_noisy_max_distance"]["peaks"].get<std::vector<std::size_t>>();
    CHECK(places(local_maxima(noisy, {.level = 90.0, .least_distance = 150})) == apart);
}

TEST_CASE("a plateau counts once at its middle", "[signal][local_extrema]") {
    const auto expected = reference()["elbow_clean_plateau"];
    const auto maxima = local_maxima(elbow("clean_deg"), {.least_prominence = 60.0});
    check_against(expected, maxima);
    for (std::size_t k = 0; k < maxima.size(); ++k) {
        CHECK(maxima[k].plateau.first == expected["left_edges"][k]);
        CHECK(maxima[k].plateau.last == expected["right_edges"][k].get<std::size_t>() + 1);
    }
    CHECK(places(local_maxima(std::vector{0.0, 1.0, 1.0, 0.0})) == std::vector<std::size_t>{1});
}

TEST_CASE("extrema of a small example are the reference ones", "[signal][local_extrema]") {
    const auto tiny = reference()["tiny"];
    const std::vector<double> x = tiny["x"];
    const auto results = tiny["results"];
    check_against(results["prominences_of_all"], local_maxima(x));
    check_against(results["prom"], local_maxima(x, {.least_prominence = 2.0}));
    check_widths(results["widths_of_all_rel_height_0.5"], x, local_maxima(x), 0.5);
    check_widths(results["widths_of_all_rel_height_1.0"], x, local_maxima(x), 1.0);
    CHECK(places(local_maxima(x, {.level = 2.0})) == results["height"]["peaks"].get<std::vector<std::size_t>>());
    CHECK(places(local_maxima(x, {.least_distance = 3})) == results["dist3"]["peaks"].get<std::vector<std::size_t>>());
}

TEST_CASE("prominences agree with walking on coarse random signals", "[signal][local_extrema]") {
    const unsigned seed = GENERATE(range(1U, 21U));
    std::mt19937 generator(seed);
    std::uniform_int_distribution<int> level(0, 6);
    std::vector<double> x(200);
    for (double& value : x) {
        value = level(generator);
    }
    const auto maxima = local_maxima(x);
    CHECK_FALSE(maxima.empty());
    for (const Extremum& maximum : maxima) {
        CHECK(maximum.prominence == walked_prominence(x, maximum.sample));
        CHECK(maximum.prominence == x[maximum.sample] - std::max(x[maximum.left_base], x[maximum.right_base]));
    }
}

TEST_CASE("turning the signal upside down swaps maxima and minima", "[signal][local_extrema]") {
    const auto x = filter_test_signal();
    auto negative = x;
    for (double& value : negative) {
        value = -value;
    }
    CHECK(places(local_maxima(x)) == places(local_minima(negative)));
    CHECK(places(local_maxima(x, {.level = 50.0})) == places(local_minima(negative, {.level = -50.0})));
}

TEST_CASE("signals without turning points have none", "[signal][local_extrema]") {
    CHECK(local_maxima({}).empty());
    CHECK(local_maxima(std::vector{1.0}).empty());
    CHECK(local_maxima(std::vector{1.0, 2.0}).empty());
    CHECK(local_maxima(std::vector<double>(9, 3.0)).empty());
    CHECK(local_maxima(std::vector{0.0, 2.0, 2.0}).empty());
    CHECK(local_minima(std::vector{1.0, 2.0, 3.0}).empty());
    CHECK(local_maxima(std::vector<double>(9, missing)).empty());
}

TEST_CASE("missing samples are skipped", "[signal][local_extrema]") {
    const std::vector<double> x{missing, 0.0, 3.0, missing, missing, 1.0, 5.0, missing, 5.0, 2.0, missing};
    const auto maxima = local_maxima(x);
    CHECK(places(maxima) == std::vector<std::size_t>{2, 6});
    CHECK(maxima[0].prominence == 2.0);
    CHECK(maxima[0].right_base == 5);
    CHECK(maxima[1].plateau == SampleSpan{6, 9});
    CHECK(maxima[1].right_base == 9);
    const ExtremumWidth width = extremum_width(x, maxima[0]);
    CHECK_THAT(width.left, WithinAbs(1.0 + 2.0 / 3.0, 1e-12));
    CHECK(std::isnan(width.right));
}

TEST_CASE("a million turning points take no noticeable time", "[signal][local_extrema]") {
    // Rising saw teeth: walking outward from each would pass all before it.
    std::vector<double> x(2000000);
    for (std::size_t i = 0; i < x.size(); ++i) {
        x[i] = static_cast<double>(i) + (i % 2 == 0 ? 2.5 : 0.0);
    }
    const auto maxima = local_maxima(x, {.least_distance = 100});
    CHECK(maxima.size() > 19000);
    CHECK(maxima.back().left_base == 1);
}
