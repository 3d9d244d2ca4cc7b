#include "analysis/setting_text.hpp"

#include <jointrom/analysis/calibration_points.hpp>
#include <jointrom/analysis/trial.hpp>
#include <jointrom/angle/calibration_reading.hpp>
#include <jointrom/core/failure.hpp>
#include <jointrom/core/number_text.hpp>

#include <fmt/format.h>

#include <map>
#include <optional>

namespace jointrom {
namespace {

/// A point's text in its parts.
struct PointText {
    std::vector<double> known_deg;
    std::optional<double> reading;
    std::string file;
    TimeWindow window;
};

[[noreturn]] void refuse_point(const std::string& text) {
    throw Failure(FailureKind::usage, "point-invalid",
                  fmt::format("the point '{}' is not ANGLE=READING, ANGLE=FILE@START,END or ANGLES=FILE", text),
                  "Write 90=2.867, or 90=cal.csv@2,4 for the mean of cal.csv from 2 s to 4 s, or 0,45,90=cal.csv for "
                  "angles that were held one after the other.");
}

PointText parse_point(const std::string& text) {
    auto [angles, reading] = named_value(text);
    if (angles.empty() || reading.empty()) {
        refuse_point(text);
    }
    PointText result;
    result.known_deg = number_list_setting("the known angle of " + text, angles);
    const bool is_single = result.known_deg.size() == 1;
    result.reading = parse_number(reading);
    if (const std::size_t at = reading.rfind('@'); !result.reading && at != std::string::npos) {
        result.window = window_setting("the window of " + text, reading.substr(at + 1));
        reading.resize(at);
    }
    result.file = reading;
    if (is_single != (result.reading.has_value() || result.window.is_set())) {
        refuse_point(text);
    }
    return result;
}

/// Recordings that points were read from, each read once.
class PointRecordings {
  public:
    PointRecordings(const Settings& settings, std::istream& standard_input)
        : settings_(settings), standard_input_(standard_input) {}

    /// \param result takes the recording's findings and unit
    const Channel& channel(const std::string& file, NamedPoints& result) {
        if (!recordings_.contains(file)) {
            Recording recording = read_recording(file, standard_input_, settings_);
            result.findings.insert(result.findings.end(), recording.findings.begin(), recording.findings.end());
            result.files.emplace_back(file, recording.table.rows);
            recordings_.emplace(file, std::move(recording));
        }
        const Channel& channel = angle_channel(recordings_.at(file));
        if (!result.unit.empty() && result.unit != channel.unit) {
            throw Failure(
                FailureKind::usage, "units-differ",
                fmt::format("{} is in '{}', the points before are in '{}'", channel.name, channel.unit, result.unit),
                "Name the same column for all with --angle.", {file});
        }
        result.unit = channel.unit;
        return channel;
    }

  private:
    const Settings& settings_;
    std::istream& standard_input_;
    std::map<std::string, Recording> recordings_;
};

}  // namespace

NamedPoints calibration_points(const std::vector<std::string>& texts, const Settings& settings, Degrees known_u,
                               std::istream& standard_input) {
    NamedPoints result;
    PointRecordings recordings(settings, standard_input);
    for (const std::string& text : texts) {
        const PointText point = parse_point(text);
        if (point.reading) {
            result.points.push_back({.known_deg = point.known_deg.front(),
                                     .known_u_deg = known_u.value(),
                                     .reading = *point.reading,
                                     .source = "given"});
            continue;
        }
        const Channel& channel = recordings.channel(point.file, result);
        if (point.window.is_set()) {
            result.points.push_back(
                read_calibration_point(channel, point.window, Degrees(point.known_deg.front()), known_u, point.file));
        } else {
            const auto held = read_calibration_holds(channel, point.known_deg, known_u, point.file);
            result.points.insert(result.points.end(), held.begin(), held.end());
        }
    }
    return result;
}

}  // namespace jointrom
