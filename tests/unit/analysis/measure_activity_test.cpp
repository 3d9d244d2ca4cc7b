#include <jointrom/analysis/measure_activity.hpp>

#include <jointrom/core/failure.hpp>

#include <support/catch.hpp>
#include <support/reference_file.hpp>

#include <sstream>

using namespace jointrom;
using namespace jointrom::test;

namespace {

std::string demo(const std::string& name) {
    return tests_path("../data/demo/" + name).string();
}

void set(Settings& settings, std::string_view name, std::string_view text) {
    for (const SettingKind& kind : setting_catalogue()) {
        if (kind.name == name) {
            kind.set(settings, text);
        }
    }
}

TrialActivity activity(const std::string& file, const Settings& settings = {},
                       FrequencyWish frequencies = FrequencyWish::none) {
    std::istringstream in;
    return measure_activity(prepare_trial(demo(file), in, settings), settings, in, frequencies);
}

}  // namespace

// The demo session's own truth, truth_activity.csv: SD 0.42, 0.26 and 0.17 mV (biceps), 0.035, 0.035, 0.055 (triceps).
// The mean of |x| is 0.797885 SD; the 10 Hz high-pass takes 5 % of the power (SciPy: the spectrum of the noise, folded
// at 200 Hz, times the response of the filter, forward and backward).
TEST_CASE("the demo session's muscles are as strong as was put in", "[analysis][measure_activity]") {
    const double kept = 0.797885 * std::sqrt(0.946);
    for (const char* file :
         {"P01_right_elbow.csv", "P03_right_elbow.csv", "P04_left_elbow.csv", "P06_right_elbow.csv"}) {
        CAPTURE(file);
        const TrialActivity found = activity(file);
        REQUIRE(found.activity.muscles.size() == 2);
        const MuscleActivity& biceps = found.activity.muscles[0];
        const MuscleActivity& triceps = found.activity.muscles[1];
        CHECK_THAT(biceps.raising_mean, WithinRel(kept * 0.42, 0.06));
        CHECK_THAT(biceps.holding_mean, WithinRel(kept * 0.26, 0.12));
        CHECK_THAT(biceps.lowering_mean, WithinRel(kept * 0.17, 0.10));
        CHECK_THAT(triceps.raising_mean, WithinRel(kept * 0.035, 0.08));
        CHECK_THAT(triceps.lowering_mean, WithinRel(kept * 0.055, 0.10));
        CHECK(contains(found.findings, "emg-undersampled"));
        CHECK_FALSE(contains(found.findings, "emg-swapped"));
        CHECK(found.activity.pairs.size() == 1);
    }
}

// truth_activity.csv, column on_s. A sample of noise above the threshold may count up to a window of 0.05 s early, when
// the window reaches into the burst; the 40 Hz low-pass that 200 Hz allow adds 0.02 s.
TEST_CASE("the demo session's bursts start when they were put in", "[analysis][measure_activity]") {
    const TrialActivity found = activity("P01_right_elbow.csv");
    const std::vector<double> biceps_on_s{1.940, 6.193, 10.606, 15.098, 19.263};
    const auto& bursts = found.activity.muscles[0].bursts;
    std::vector<double> onsets_s;
    for (const BurstActivity& burst : bursts) {
        if (burst.lead.is_set()) {
            onsets_s.push_back(burst.onset.value());
        }
    }
    REQUIRE(onsets_s.size() == biceps_on_s.size());
    for (std::size_t i = 0; i < onsets_s.size(); ++i) {
        CHECK_THAT(onsets_s[i], WithinAbs(biceps_on_s[i], 0.07));
    }
}

// data/demo/README.md: SD 0.7 mV (biceps) and 0.4 mV (triceps) in the maximal contractions.
TEST_CASE("a recording of maximal contractions sets what 100 % is", "[analysis][measure_activity]") {
    Settings settings;
    set(settings, "mvc", demo("P01_right_elbow_mvc.csv"));
    const TrialActivity found = activity("P01_right_elbow.csv", settings);
    const MuscleActivity& biceps = found.activity.muscles[0];
    CHECK(biceps.unit == "% of MVC");
    // The mean of 100 samples of |x| scatters by 7.6 % (closed form): two standard deviations about the truth.
    const double mean = 0.797885 * std::sqrt(0.946) * 0.7;
    CHECK_THAT(biceps.reference, WithinRel(mean, 0.152));
    CHECK_THAT(biceps.raising_mean * biceps.reference, WithinRel(60.0 * mean, 0.06));
    REQUIRE(found.files.size() == 1);
    CHECK(found.files[0].second == 3400);
}

// data/demo/README.md: the biceps' median frequency falls from 121 to 78 Hz in 8 s; sampled at 1000 Hz without a
// filter, from 115 to 76 Hz (the spectrum of the noise, folded).
TEST_CASE("the demo session's biceps tires while it holds", "[analysis][measure_activity]") {
    const TrialActivity found = activity("P06_right_elbow_hold.csv", {}, FrequencyWish::required);
    const Trend& biceps = found.activity.muscles[0].median_trend;
    CHECK(biceps.count >= 7);
    CHECK(biceps.is_clear());
    CHECK_THAT(biceps.slope_per_s, WithinRel((76.0 - 115.0) / 8.0, 0.25));
    CHECK_FALSE(found.activity.muscles[1].median_trend.slope_per_s < -2.0);
}

TEST_CASE("maxima that cannot be had are refused", "[analysis][measure_activity]") {
    const auto code = [](std::string_view name, std::string_view text, std::string_view more = {}) {
        Settings settings;
        set(settings, name, text);
        if (!more.empty()) {
            set(settings, "normalise", more);
        }
        try {
            (void)activity("P01_right_elbow.csv", settings);
        } catch (const Failure& failure) {
            return failure.code();
        }
        return std::string();
    };
    CHECK(code("mvc", "0") == "mvc-invalid");
    CHECK(code("mvc", "Biceps=-1") == "mvc-invalid");
    CHECK(code("mvc", "Biceps=1") == "mvc-missing");
    CHECK(code("mvc", "Deltoid=1") == "muscle-unknown");
    CHECK(code("mvc", demo("P05_right_knee.csv")) == "mvc-channel-missing");
    CHECK(code("mvc", "Deltoid=" + demo("P01_right_elbow_mvc.csv")) == "mvc-channel-missing");
    CHECK(code("mvc", demo("no_such_file.csv")) == "file-missing");
    CHECK(code("mvc", "1", "peak") == "normalise-twice");
    CHECK(code("mvc", "Biceps=0.5", "none") == "mvc-missing");
    CHECK(code("mvc", "0.5").empty());
}
