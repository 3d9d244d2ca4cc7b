#include <jointrom/recording/sampling.hpp>

#include <algorithm>
#include <cmath>

namespace jointrom {
namespace {

constexpr double gap_intervals = 3.0;

/// Spread of the intervals, which are reordered.
void summarise(Sampling& sampling, std::vector<double>& intervals_s) {
    if (intervals_s.empty()) {
        return;
    }
    const auto middle = intervals_s.begin() + static_cast<std::ptrdiff_t>(intervals_s.size() / 2);
    std::ranges::nth_element(intervals_s, middle);
    const double median_s = *middle;
    sampling.median_interval_s = median_s;
    double sum = 0.0;
    double squares = 0.0;
    double used = 0.0;
    for (const double interval_s : intervals_s) {
        if (interval_s <= gap_intervals * median_s) {
            const double deviation = interval_s - median_s;
            sum += deviation;
            squares += deviation * deviation;
            used += 1.0;
            sampling.largest_deviation_s = std::max(sampling.largest_deviation_s, std::abs(deviation));
        }
    }
    sampling.jitter_s = used > 1.0 ? std::sqrt(std::max(0.0, (squares - sum * sum / used) / (used - 1.0))) : 0.0;
}

}  // namespace

Sampling sampling_of(std::span<const double> time_s) {
    Sampling sampling;
    sampling.count = time_s.size();
    std::vector<double> intervals_s;
    intervals_s.reserve(time_s.size());
    for (std::size_t i = 1; i < time_s.size(); ++i) {
        intervals_s.push_back(time_s[i] - time_s[i - 1]);
        sampling.repeated_stamps += intervals_s.back() == 0.0 ? 1U : 0U;
    }
    summarise(sampling, intervals_s);
    sampling.rate_hz = 1.0 / sampling.median_interval_s;
    for (std::size_t i = 1; i < time_s.size(); ++i) {
        const double interval_s = time_s[i] - time_s[i - 1];
        if (interval_s > gap_intervals * sampling.median_interval_s) {
            sampling.gaps.push_back({time_s[i - 1], interval_s});
        }
    }
    return sampling;
}

Sampling sampling_of(const Channel& channel) {
    const TimeBase& times = channel.times;
    Sampling sampling;
    sampling.count = times.count();
    sampling.rate_hz = times.rate().value();
    sampling.median_interval_s = sample_interval(times.rate()).value();
    std::vector<double> intervals_s;
    std::size_t last = times.count();  // none yet
    for (std::size_t i = 0; i < times.count(); ++i) {
        if (!times.is_regular() && i > 0) {
            intervals_s.push_back(times.time_s(i) - times.time_s(i - 1));
        }
        if (std::isnan(channel.samples[i])) {
            continue;
        }
        if (last < i) {
            const double interval_s = times.time_s(i) - times.time_s(last);
            const bool is_long = !times.is_regular() && interval_s > gap_intervals * sampling.median_interval_s;
            if (i - last > 1 || is_long) {
                sampling.gaps.push_back({times.time_s(last), interval_s});
            }
        }
        last = i;
    }
    summarise(sampling, intervals_s);
    return sampling;
}

}  // namespace jointrom
