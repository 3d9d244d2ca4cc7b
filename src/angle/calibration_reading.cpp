#include <jointrom/angle/calibration_reading.hpp>

#include "reading_repair.hpp"
#include "reading_unit.hpp"

#include <jointrom/angle/posture.hpp>
#include <jointrom/core/failure.hpp>
#include <jointrom/core/number_text.hpp>

#include <algorithm>
#include <cmath>

namespace jointrom {
namespace {

constexpr Seconds shortest_hold{1.0};
constexpr double one_level_deg = 5.0;

std::vector<double> joined_reading(const Channel& channel) {
    std::vector<double> reading = channel.samples;
    if (const double full_turn = full_turn_in(channel.unit); !std::isnan(full_turn)) {
        join_full_turns(reading, channel.times.rate(), full_turn);
    }
    return reading;
}

CalibrationPoint point_of(const HeldLevel& level, double known_deg, Degrees known_u, std::string source) {
    const double sd = std::max(level.sd, level.u);
    return {.known_deg = known_deg,
            .known_u_deg = known_u.is_set() ? known_u.value() : 0.0,
            .reading = level.mean,
            .reading_sd = sd,
            .effective_count = level.u > 0.0 ? (sd / level.u) * (sd / level.u) : level.effective_count,
            .source = std::move(source)};
}

std::string source_text(const std::string& file, double start_s, double end_s) {
    return file + "@" + shortest_text(start_s) + "," + shortest_text(end_s);
}

double range_of(std::span<const double> values) {
    double low = std::numeric_limits<double>::infinity(), high = -low;
    for (const double x : values) {
        low = x < low ? x : low;
        high = x > high ? x : high;
    }
    return high - low;
}

/// Stretches that follow each other at one level become one.
std::vector<SampleSpan> joined_holds(std::span<const double> scaled_deg, const std::vector<SampleSpan>& stretches) {
    std::vector<SampleSpan> holds;
    for (const SampleSpan stretch : stretches) {
        const bool same_level = !holds.empty() && std::abs(held_level(scaled_deg, holds.back()).mean -
                                                           held_level(scaled_deg, stretch).mean) < one_level_deg;
        if (same_level) {
            holds.back().last = stretch.last;
        } else {
            holds.push_back(stretch);
        }
    }
    return holds;
}

std::string holds_text(const EvenSeries& series, const std::vector<SampleSpan>& holds) {
    std::string text;
    for (const SampleSpan hold : holds) {
        text += (text.empty() ? "" : ", ") + fixed_text(series.time(hold.first).value(), 1) + "-" +
                fixed_text(series.time(hold.last).value(), 1) + " s";
    }
    return text;
}

}  // namespace

CalibrationPoint read_calibration_point(const Channel& channel, TimeWindow window, Degrees known, Degrees known_u,
                                        const std::string& file) {
    const SampleSpan span = window.is_set() ? channel.times.span(window) : SampleSpan{0, channel.samples.size()};
    const HeldLevel level = held_level(joined_reading(channel), span);
    if (std::isnan(level.mean)) {
        throw Failure(FailureKind::usage, "window-empty",
                      "there is no reading" + (window.is_set() ? " from " + shortest_text(window.start.value()) +
                                                                     " to " + shortest_text(window.end.value()) + " s"
                                                               : std::string()),
                      "Name a stretch in which the known angle was held.", {file});
    }
    return point_of(level, known.value(), known_u,
                    window.is_set() ? source_text(file, window.start.value(), window.end.value()) : file);
}

std::vector<CalibrationPoint> read_calibration_holds(const Channel& channel, std::span<const double> known_deg,
                                                     Degrees known_u, const std::string& file) {
    const double known_range_deg = range_of(known_deg);
    if (!(known_range_deg > 0.0)) {
        throw Failure(FailureKind::usage, "calibration-angles-equal", "the known angles do not differ",
                      "Give the angles in the order in which they were held, e.g. 0,30,60,90.");
    }
    Findings findings;
    const EvenSeries series = even_series(channel.times, joined_reading(channel), Seconds(0.1), findings);
    std::vector<double> scaled_deg = series.samples;
    const double to_deg = known_range_deg / range_of(scaled_deg);
    for (double& x : scaled_deg) {
        x *= to_deg;
    }
    const std::vector<SampleSpan> holds =
        joined_holds(scaled_deg, still_stretches(scaled_deg, series.rate, {.shortest = shortest_hold}));
    if (holds.size() != known_deg.size()) {
        throw Failure(FailureKind::usage, "calibration-holds",
                      std::to_string(known_deg.size()) + " known angles, but " + std::to_string(holds.size()) +
                          " readings held for a second or more" +
                          (holds.empty() ? "" : ": " + holds_text(series, holds)),
                      "Give one known angle for each hold, or name the stretches one by one.", {file});
    }
    std::vector<CalibrationPoint> points;
    for (std::size_t i = 0; i < holds.size(); ++i) {
        // Timed by hand, so the ends of a hold may still move.
        const std::size_t margin = holds[i].size() / 10;
        const SampleSpan middle{holds[i].first + margin, holds[i].last - margin};
        const double start_s = std::round(series.time(middle.first).value() * 1000.0) / 1000.0;
        const double end_s = std::round(series.time(middle.last).value() * 1000.0) / 1000.0;
        points.push_back(
            point_of(held_level(series.samples, middle), known_deg[i], known_u, source_text(file, start_s, end_s)));
    }
    return points;
}

}  // namespace jointrom
