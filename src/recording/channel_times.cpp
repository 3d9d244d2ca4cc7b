#include "channel_times.hpp"

#include "own_times.hpp"

#include <jointrom/core/failure.hpp>
#include <jointrom/core/number_text.hpp>
#include <jointrom/recording/repeated_readings.hpp>
#include <jointrom/recording/sampling.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <optional>
#include <utility>

namespace jointrom {
namespace {

/// Number of samples if they fill the first rows without a gap and leave the rest blank; else 0.
std::size_t filled_from_top(const std::vector<double>& samples) {
    const auto is_missing = [](double sample) { return std::isnan(sample); };
    const auto end = std::ranges::find_if(samples, is_missing);
    return std::all_of(end, samples.end(), is_missing) ? static_cast<std::size_t>(end - samples.begin()) : 0;
}

/// How many rows there are for each sample of a short column; nothing unless it is a whole number from 2 on.
std::optional<double> rows_per_sample(std::size_t rows, std::size_t filled, Hertz row_rate, Hertz stated) {
    const double ratio = static_cast<double>(rows) / static_cast<double>(filled);
    const double whole = std::round(stated.is_set() ? row_rate / stated : ratio);
    // The last sample may be missing, or stand for rows that no longer came.
    const double off = std::abs(static_cast<double>(rows) - whole * static_cast<double>(filled));
    return whole >= 2.0 && (stated.is_set() || off <= whole) ? std::optional(whole) : std::nullopt;
}

void keep_every(Channel& channel, std::size_t step, std::size_t first) {
    std::vector<double> samples;
    std::vector<double> stamps_s;
    samples.reserve(channel.samples.size() / step + 1);
    for (std::size_t i = first; i < channel.samples.size(); i += step) {
        samples.push_back(channel.samples[i]);
        if (!channel.times.is_regular()) {
            stamps_s.push_back(channel.times.time_s(i));
        }
    }
    const Hertz rate(channel.times.rate().value() / static_cast<double>(step));
    channel.times = stamps_s.size() >= 2
                        ? TimeBase::stamped(std::move(stamps_s))
                        : TimeBase::regular(Seconds(channel.times.time_s(first)), rate, samples.size());
    channel.samples = std::move(samples);
}

}  // namespace

void take_own_times(Channel& channel, double resolution_s, ShortColumn short_column, Hertz stated, Findings& findings) {
    if (auto own = own_times(channel.times, channel.samples, resolution_s)) {
        channel.times = std::move(own->times);
        channel.samples = std::move(own->samples);
        return;
    }
    const std::size_t filled = filled_from_top(channel.samples);
    if (short_column == ShortColumn::ended_early || filled < 2) {
        return;
    }
    const auto ratio = rows_per_sample(channel.samples.size(), filled, channel.times.rate(), stated);
    if (!ratio) {
        return;
    }
    const Hertz rate = stated.is_set() ? stated : Hertz(channel.times.rate().value() / *ratio);
    if (!stated.is_set()) {
        findings.emplace_back("rate-assumed",
                              fmt::format("'{}' fills {} of {} rows, so {} Hz was taken for it", channel.name, filled,
                                          channel.samples.size(), shortest_text(rate.value())));
    }
    channel.samples.resize(filled);
    channel.times = TimeBase::regular(Seconds(channel.times.time_s(0)), rate, filled);
}

void apply_stated_rate(Channel& channel, Hertz stated) {
    constexpr double allowed = 0.02;
    const double ratio = channel.times.rate() / stated;
    const double whole = std::round(ratio);
    if (!(whole >= 1.0) || std::abs(ratio - whole) > allowed * whole) {
        throw Failure(FailureKind::usage, "rate-mismatch",
                      fmt::format("--rate-hz: '{}' stands in the file at {:.6g} Hz, which {:.6g} Hz does not divide",
                                  channel.name, channel.times.rate().value(), stated.value()),
                      "Give the rate at which the channel was sampled.");
    }
    const auto step = static_cast<std::size_t>(whole);
    if (step < 2 || channel.samples.size() < 2 * step) {
        return;
    }
    const auto filled_up = find_repeated_readings(channel.samples, channel.times.rate());
    keep_every(channel, step, filled_up ? filled_up->first % step : 0);
}

std::size_t missing_cells(const Channel& channel, const TimeAxis& axis) {
    const auto missing = static_cast<std::size_t>(
        std::ranges::count_if(channel.samples, [](double sample) { return std::isnan(sample); }));
    const bool shares_rows = channel.samples.size() == axis.row_of.size();
    const auto without_row =
        shares_rows ? static_cast<std::size_t>(std::ranges::count(axis.row_of, TimeAxis::no_row)) : 0;
    return missing - std::min(missing, without_row);
}

std::string missing_text(const Channel& channel, std::size_t missing) {
    const Sampling sampling = sampling_of(channel);
    std::string text = fmt::format("'{}' lacks {} of {} samples", channel.name, missing, channel.samples.size());
    if (!sampling.gaps.empty()) {
        const auto longest = std::ranges::max_element(sampling.gaps, {}, &SamplingGap::length_s);
        text += fmt::format(", in {} place{}, the longest {:.3g} s at {:.3f} s", sampling.gaps.size(),
                            sampling.gaps.size() == 1 ? "" : "s", longest->length_s, longest->start_s);
    }
    return text;
}

}  // namespace jointrom
