#include "reading_repair.hpp"

#include <jointrom/core/failure.hpp>
#include <jointrom/core/number_text.hpp>
#include <jointrom/signal/noise_level.hpp>
#include <jointrom/signal/resample.hpp>

#include <algorithm>
#include <cassert>
#include <cmath>
#include <limits>
#include <utility>

namespace jointrom {
namespace {

constexpr double missing = std::numeric_limits<double>::quiet_NaN();
constexpr double fastest_joint_deg_s = 1000.0;
constexpr std::size_t longest_spike = 3;

double fastest_step_deg(Hertz rate) {
    return fastest_joint_deg_s / rate.value();
}

bool finite_at(std::span<const double> x, std::size_t i) {
    return i < x.size() && std::isfinite(x[i]);
}

/// Whether sample i, beside an end or gap, leaves the level of its neighbour and that of the neighbour's neighbour.
bool is_spike_at_edge(std::span<const double> x, std::size_t i, double limit_deg) {
    const bool forward = finite_at(x, i + 1);
    const std::size_t next = forward ? i + 1 : i - 1;  // wraps below 0: not finite_at
    const std::size_t next_but_one = forward ? i + 2 : i - 2;
    return finite_at(x, next) && finite_at(x, next_but_one) && std::abs(x[i] - x[next]) > limit_deg &&
           std::abs(x[next] - x[next_but_one]) <= limit_deg;
}

/// Whether any step from one sample to the next is large enough to lead to a spike.
bool has_step_beyond(std::span<const double> x, double limit_deg) {
    std::size_t count = 0;
    for (std::size_t i = 1; i < x.size(); ++i) {
        count += std::abs(x[i] - x[i - 1]) > limit_deg ? 1U : 0U;
    }
    return count > 0;
}

/// Length of a spike that starts at i, 0 when there is none.
std::size_t spike_length(std::span<const double> x, std::size_t i, double limit_deg) {
    if (!finite_at(x, i - 1) || !finite_at(x, i + 1)) {
        return is_spike_at_edge(x, i, limit_deg) ? 1 : 0;
    }
    const double before = x[i - 1];
    const double sign = x[i] > before ? 1.0 : -1.0;
    for (std::size_t length = 1; length <= longest_spike && finite_at(x, i + length); ++length) {
        const double last = x[i + length - 1], after = x[i + length];
        if (!(sign * (last - before) > limit_deg)) {
            return 0;
        }
        if (sign * (last - after) > limit_deg && std::abs(after - before) <= limit_deg) {
            return length;
        }
    }
    return 0;
}

struct Gaps {
    std::size_t bridged = 0;
    double bridged_s = 0.0;
    std::vector<std::pair<double, double>> open_s;  ///< start and length of what stays missing

    void add_open(double start_s, double length_s) { open_s.emplace_back(start_s, length_s); }
};

void report(const Gaps& gaps, Findings& findings) {
    if (gaps.bridged > 0) {
        findings.emplace_back("gap-bridged", std::to_string(gaps.bridged) +
                                                 (gaps.bridged == 1 ? " gap of " : " gaps of together ") +
                                                 fixed_text(gaps.bridged_s, 3) + " s filled by straight lines");
    }
    if (gaps.open_s.empty()) {
        return;
    }
    constexpr std::size_t most_named = 3;
    std::string text;
    for (std::size_t i = 0; i < std::min(most_named, gaps.open_s.size()); ++i) {
        text += (i > 0 ? ", " : "") + fixed_text(gaps.open_s[i].second, 2) + " s without samples at " +
                fixed_text(gaps.open_s[i].first, 2) + " s";
    }
    if (gaps.open_s.size() > most_named) {
        text += " and " + std::to_string(gaps.open_s.size() - most_named) + " more";
    }
    findings.emplace_back("gap", text);
}

double longest_bridged_s(Seconds longest_bridged, double interval_s) {
    return std::max(longest_bridged.value(), 2.0 * interval_s) * (1.0 + 1e-6);
}

/// Fills the short gaps of an even series in place.
Gaps bridge(EvenSeries& series, Seconds longest_bridged) {
    const double interval_s = 1.0 / series.rate.value();
    const double longest_s = longest_bridged_s(longest_bridged, interval_s);
    std::vector<double>& x = series.samples;
    Gaps gaps;
    std::size_t last_finite = x.size();
    for (std::size_t i = 0; i < x.size(); ++i) {
        if (!std::isfinite(x[i])) {
            continue;
        }
        if (last_finite < i && i - last_finite > 1) {
            const auto steps = static_cast<double>(i - last_finite);
            const double length_s = (steps - 1.0) * interval_s;
            if (length_s > longest_s) {
                gaps.add_open(series.time(last_finite + 1).value(), length_s);
            } else {
                for (std::size_t k = last_finite + 1; k < i; ++k) {
                    x[k] = x[last_finite] + (x[i] - x[last_finite]) * static_cast<double>(k - last_finite) / steps;
                }
                ++gaps.bridged;
                gaps.bridged_s += length_s;
            }
        }
        last_finite = i;
    }
    return gaps;
}

/// Mean of the intervals that are no gap.
double typical_interval_s(std::span<const double> time_s, double median_s) {
    double sum = 0.0, count = 0.0;
    for (std::size_t i = 1; i < time_s.size(); ++i) {
        const double interval_s = time_s[i] - time_s[i - 1];
        if (interval_s <= 1.5 * median_s) {
            sum += interval_s;
            count += 1.0;
        }
    }
    return sum / count;
}

double share_of_uneven_intervals(std::span<const double> time_s, double interval_s) {
    std::size_t uneven = 0;
    for (std::size_t i = 1; i < time_s.size(); ++i) {
        uneven += std::abs(time_s[i] - time_s[i - 1] - interval_s) > 0.1 * interval_s ? 1U : 0U;
    }
    return static_cast<double>(uneven) / static_cast<double>(time_s.size() - 1);
}

EvenSeries resampled(const TimeBase& times, std::span<const double> samples, Seconds longest_bridged,
                     Findings& findings) {
    std::vector<double> time_s, finite;
    for (std::size_t i = 0; i < samples.size(); ++i) {
        if (std::isfinite(samples[i])) {
            time_s.push_back(times.time_s(i));
            finite.push_back(samples[i]);
        }
    }
    if (time_s.size() < 2) {
        throw Failure(FailureKind::unreadable_data, "too-short", "the angle has fewer than two samples",
                      "Check the column and the missing-value marks.");
    }
    const double median_s = sample_interval(TimeBase::stamped(time_s).rate()).value();
    const double interval_s = typical_interval_s(time_s, median_s);
    const double length_s = time_s.back() - time_s.front();
    if (length_s / interval_s > 1e6 + 100.0 * static_cast<double>(time_s.size())) {
        throw Failure(FailureKind::unreadable_data, "gap-too-long",
                      "the samples are spread over " + fixed_text(length_s, 0) +
                          " s with gaps far longer than they are",
                      "Choose a part of the recording with --window-s START,END.");
    }
    constexpr double uneven_share_worth_saying = 0.05;
    if (const double share = share_of_uneven_intervals(time_s, interval_s); share > uneven_share_worth_saying) {
        findings.emplace_back("irregular-sampling", fixed_text(100.0 * share, 0) + " % of the intervals differ from " +
                                                        fixed_text(1000.0 * interval_s, 1) +
                                                        " ms by more than a tenth; put on an even " +
                                                        fixed_text(1.0 / interval_s, 2) + " Hz");
    }
    const double longest_s = interval_s + longest_bridged_s(longest_bridged, interval_s);
    Gaps gaps;
    for (std::size_t i = 1; i < time_s.size(); ++i) {
        const double step_s = time_s[i] - time_s[i - 1];
        if (step_s > longest_s) {
            gaps.add_open(time_s[i - 1] + interval_s, step_s - interval_s);
        } else if (step_s > 1.9 * interval_s) {
            ++gaps.bridged;
            gaps.bridged_s += step_s - interval_s;
        }
    }
    report(gaps, findings);
    const Hertz rate(1.0 / interval_s);
    return {resample_uniform(time_s, finite, rate, {.longest_gap = Seconds(longest_s)}), rate, Seconds(time_s.front())};
}

}  // namespace

std::size_t join_full_turns(std::span<double> reading, Hertz rate, double full_turn) {
    const double margin = std::clamp(fastest_step_deg(rate), 30.0, 170.0) / 360.0 * full_turn;
    std::size_t jumps = 0;
    double turns = 0.0, last = missing;
    for (double& sample : reading) {
        if (!std::isfinite(sample)) {
            continue;
        }
        const double step = sample - last;
        if (std::abs(std::abs(step) - full_turn) <= margin) {
            turns -= std::copysign(1.0, step);
            ++jumps;
        }
        last = sample;
        sample += turns * full_turn;
    }
    return jumps;
}

std::vector<SampleSpan> find_spikes(std::span<const double> angle_deg, Hertz rate) {
    const auto found = [&](double limit_deg) {
        std::vector<SampleSpan> spikes;
        for (std::size_t i = 0; i < angle_deg.size(); ++i) {
            if (!std::isfinite(angle_deg[i])) {
                continue;
            }
            if (const std::size_t length = spike_length(angle_deg, i, limit_deg); length > 0) {
                spikes.push_back({i, i + length});
                i += length - 1;
            }
        }
        return spikes;
    };
    const double limit_deg = std::max(10.0, fastest_step_deg(rate));
    if (!has_step_beyond(angle_deg, limit_deg)) {
        return {};  // most recordings
    }
    std::vector<SampleSpan> spikes = found(limit_deg);
    if (spikes.empty()) {
        return spikes;  // no need to know the noise
    }
    const double noise_deg = noise_sd(angle_deg);
    return 8.0 * noise_deg > limit_deg ? found(8.0 * noise_deg) : spikes;
}

EvenSeries even_series(const TimeBase& times, std::vector<double> samples, Seconds longest_bridged,
                       Findings& findings) {
    assert(times.count() == samples.size());
    if (!times.is_regular()) {
        return resampled(times, samples, longest_bridged, findings);
    }
    if (samples.empty()) {
        throw Failure(FailureKind::unreadable_data, "too-short", "the angle has no samples",
                      "Check the column and the missing-value marks.");
    }
    EvenSeries series{std::move(samples), times.rate(), Seconds(times.time_s(0))};
    report(bridge(series, longest_bridged), findings);
    return series;
}

}  // namespace jointrom
