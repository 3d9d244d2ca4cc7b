#include <jointrom/analysis/measure_recording.hpp>
#include <jointrom/core/failure.hpp>

#include <support/catch.hpp>
#include <support/made_trace.hpp>

#include <sstream>

using namespace jointrom;

namespace {

/// Three flexions at 200 Hz beside a muscle that gives `emg`.
std::string recording_text(const std::string& emg) {
    const auto angle_deg = test::minimum_jerk_path(test::repeated(3, 0.0, 120.0), 200.0);
    std::string text = "Time (s),Elbow angle (deg),Biceps EMG (mV)\n";
    test::Noise noise(7);
    for (std::size_t i = 0; i < angle_deg.size(); ++i) {
        text += std::to_string(static_cast<double>(i) / 200.0) + "," + std::to_string(angle_deg[i]) + "," +
                (emg.empty() ? std::to_string(noise() * (angle_deg[i] > 5.0 ? 0.5 : 0.01)) : emg) + "\n";
    }
    return text;
}

MeasuredRecording measured(const std::string& text, const Settings& settings) {
    std::istringstream in(text);
    std::istringstream none;
    return measure_recording(prepare_trial("-", in, settings), settings, none);
}

}  // namespace

TEST_CASE("one recording is measured in full, each finding once", "[analysis][measure_recording]") {
    const MeasuredRecording found = measured(recording_text(""), {});
    CHECK(found.repetitions.rows.size() == 3);
    CHECK_THAT(found.range.arc.value(), WithinAbs(120.0, 0.5));
    CHECK(found.range.held_positive.has_value());
    CHECK_FALSE(found.peaks.empty());
    REQUIRE(found.muscles.has_value());
    CHECK(found.muscles->activity.muscles.size() == 1);
    for (auto one = found.findings.begin(); one != found.findings.end(); ++one) {
        CHECK(std::find(one + 1, found.findings.end(), *one) == found.findings.end());
    }
}

TEST_CASE("a muscle that cannot be measured leaves the movement", "[analysis][measure_recording]") {
    const MeasuredRecording found = measured(recording_text("0.0"), {});
    CHECK_FALSE(found.muscles.has_value());
    CHECK(contains(found.findings, "activity-unavailable"));
    CHECK(found.repetitions.rows.size() == 3);
}

TEST_CASE("a setting of muscles that cannot be met is a failure", "[analysis][measure_recording]") {
    Settings settings;
    settings.maxima = {"no_such_file.csv"};
    CHECK_THROWS_AS(measured(recording_text(""), settings), Failure);
}
