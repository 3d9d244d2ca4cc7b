#include "sensor_series.hpp"

#include "percentile_range.hpp"
#include "reading_unit.hpp"

#include <jointrom/core/failure.hpp>
#include <jointrom/core/number_text.hpp>

#include <algorithm>
#include <cmath>
#include <limits>
#include <utility>

namespace jointrom {
namespace {

void to_degrees(std::vector<double>& reading, const ReadingScale& scale) {
    for (double& x : reading) {
        x = std::isfinite(x) ? scale.offset_deg + scale.gain_deg * x : std::numeric_limits<double>::quiet_NaN();
    }
}

void report_calibration(const std::optional<Calibration>& calibration, std::span<const double> angle_deg,
                        Degrees sensor_error, Findings& findings) {
    if (!calibration) {
        findings.emplace_back("uncalibrated", "the sensor was taken to be right within " +
                                                  fixed_text(sensor_error.value(), 1) + " deg");
        return;
    }
    if (calibration->points.size() == 1) {
        findings.emplace_back("calibration-single-point", "gain taken as " +
                                                              shortest_text(calibration->gain_deg_per_unit) +
                                                              " deg per " + calibration->unit);
        return;
    }
    if (std::isnan(calibration->reading_min)) {
        return;
    }
    const auto [low, high] = percentile_range(angle_deg);
    double from = calibration->offset_deg + calibration->gain_deg_per_unit * calibration->reading_min;
    double to = calibration->offset_deg + calibration->gain_deg_per_unit * calibration->reading_max;
    if (from > to) {
        std::swap(from, to);
    }
    const double slack = 0.05 * (to - from);
    if (low.value() < from - slack || high.value() > to + slack) {
        findings.emplace_back("calibration-extrapolated", "calibrated from " + fixed_text(from, 0) + " to " +
                                                              fixed_text(to, 0) + " deg, recorded from " +
                                                              fixed_text(low.value(), 0) + " to " +
                                                              fixed_text(high.value(), 0) + " deg");
    }
}

void join_up(std::vector<double>& reading, Hertz rate, double full_turn, std::vector<std::string>& steps,
             Findings& findings) {
    const std::size_t jumps = join_full_turns(reading, rate, full_turn);
    if (jumps > 0) {
        const std::string text =
            std::to_string(jumps) + (jumps == 1 ? " jump" : " jumps") + " of a full turn joined up";
        findings.emplace_back("wrap-around", text);
        steps.push_back(text);
    }
}

void take_out_spikes(const Channel& channel, bool keep, std::vector<double>& angle_deg, std::vector<std::string>& steps,
                     Findings& findings) {
    const std::vector<SampleSpan> spikes = find_spikes(angle_deg, channel.times.rate());
    if (spikes.empty()) {
        return;
    }
    const std::string count = std::to_string(spikes.size()) + (spikes.size() == 1 ? " spike" : " spikes");
    findings.emplace_back("spikes", count + (keep ? " left in" : " taken out") + ", the first at " +
                                        fixed_text(channel.times.time_s(spikes.front().first), 2) +
                                        " s: " + fixed_text(angle_deg[spikes.front().first], 1) + " deg");
    if (keep) {
        return;
    }
    for (const SampleSpan spike : spikes) {
        for (std::size_t i = spike.first; i < spike.last; ++i) {
            angle_deg[i] = std::numeric_limits<double>::quiet_NaN();
        }
    }
    steps.push_back(count + " taken out");
}

}  // namespace

EvenSeries sensor_series(Channel&& channel, const PreparationOptions& options, std::vector<std::string>& steps,
                         Findings& findings) {
    const ReadingScale scale = reading_scale(channel.unit, options.angle_unit, options.calibration, findings);
    std::vector<double> angle_deg = std::move(channel.samples);
    if (!std::isnan(scale.full_turn)) {
        join_up(angle_deg, channel.times.rate(), scale.full_turn, steps, findings);
    }
    if (!scale.step.empty()) {
        steps.push_back(scale.step);
    }
    to_degrees(angle_deg, scale);
    take_out_spikes(channel, options.keep_spikes, angle_deg, steps, findings);
    report_calibration(options.calibration, angle_deg, options.sensor_error, findings);
    EvenSeries series = even_series(channel.times, std::move(angle_deg), options.longest_bridged, findings);
    if (!channel.times.is_regular()) {
        steps.push_back("put on an even time base of " + fixed_text(series.rate.value(), 2) + " Hz");
    }
    return series;
}

SampleSpan window_span(const EvenSeries& series, TimeWindow window) {
    if (!window.is_set()) {
        return {0, series.samples.size()};
    }
    const SampleSpan span = TimeBase::regular(series.start, series.rate, series.samples.size()).span(window);
    if (span.empty()) {
        throw Failure(FailureKind::usage, "window-empty",
                      "there is no sample from " + fixed_text(window.start.value(), 2) + " to " +
                          fixed_text(window.end.value(), 2) + " s",
                      "The recording goes from " + fixed_text(series.start.value(), 2) + " to " +
                          fixed_text(series.time(series.samples.size()).value(), 2) + " s; see --window-s.");
    }
    return span;
}

}  // namespace jointrom
