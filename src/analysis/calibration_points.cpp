#include "analysis/setting_text.hpp"

#include <jointrom/analysis/calibration_points.hpp>
#include <jointrom/analysis/trial.hpp>
#include <jointrom/angle/posture.hpp>
#include <jointrom/core/failure.hpp>
#include <jointrom/core/number_text.hpp>

#include <fmt/format.h>

#include <cmath>
#include <map>
#include <optional>

namespace jointrom {
namespace {

/// A text "ANGLE=READING" or "ANGLE=FILE@START,END" in its parts.
struct PointText {
    double known_deg = 0.0;
    std::optional<double> reading;
    std::string file;
    TimeWindow window;
};

[[noreturn]] void refuse_point(const std::string& text) {
    throw Failure(FailureKind::usage, "point-invalid",
                  fmt::format("the point '{}' is not ANGLE=READING or ANGLE=FILE@START,END", text),
                  "Write 90=2.867, or 90=cal.csv@2,4 for the mean of cal.csv from 2 s to 4 s.");
}

PointText parse_point(const std::string& text) {
    const auto [angle, reading] = named_value(text);
    const auto known_deg = parse_number(angle);
    if (!known_deg) {
        refuse_point(text);
    }
    PointText result{.known_deg = *known_deg, .reading = parse_number(reading), .file = {}, .window = {}};
    if (result.reading) {
        return result;
    }
    const std::size_t at = reading.rfind('@');
    if (at == std::string::npos || at == 0) {
        refuse_point(text);
    }
    result.file = reading.substr(0, at);
    result.window = window_setting("the window of " + text, reading.substr(at + 1));
    return result;
}

CalibrationPoint point_in(const Channel& channel, const PointText& text) {
    const SampleSpan span = channel.times.span(text.window);
    const HeldLevel level = held_level(channel.samples, span);
    if (std::isnan(level.mean)) {
        throw Failure(FailureKind::usage, "window-empty",
                      fmt::format("there is no sample of {} between {} s and {} s", channel.name,
                                  shortest_text(text.window.start.value()), shortest_text(text.window.end.value())),
                      "`inspect` shows from when to when the recording lasts.", {text.file});
    }
    return {.known_deg = text.known_deg,
            .reading = level.mean,
            .reading_sd = level.sd,
            .effective_count = level.effective_count,
            .source = fmt::format("{}@{}", text.file, window_text(text.window))};
}

}  // namespace

NamedPoints calibration_points(const std::vector<std::string>& texts, const Settings& settings, double known_u_deg,
                               std::istream& standard_input) {
    NamedPoints result;
    std::map<std::string, Recording> recordings;
    for (const std::string& text : texts) {
        const PointText parsed = parse_point(text);
        CalibrationPoint point{.known_deg = parsed.known_deg, .source = "given"};
        if (parsed.reading) {
            point.reading = *parsed.reading;
        } else {
            if (!recordings.contains(parsed.file)) {
                Recording recording = read_recording(parsed.file, standard_input, settings);
                result.findings.insert(result.findings.end(), recording.findings.begin(), recording.findings.end());
                recordings.emplace(parsed.file, std::move(recording));
            }
            const Channel& channel = angle_channel(recordings.at(parsed.file));
            if (!result.unit.empty() && result.unit != channel.unit) {
                throw Failure(FailureKind::usage, "units-differ",
                              fmt::format("{} is in {}, the points before are in {}", channel.name, channel.unit,
                                          result.unit),
                              "Name the same column for all with --angle.", {parsed.file});
            }
            result.unit = channel.unit;
            point = point_in(channel, parsed);
        }
        point.known_u_deg = known_u_deg;
        result.points.push_back(std::move(point));
    }
    return result;
}

}  // namespace jointrom
