#include <jointrom/recording/channel_quality.hpp>

#include "quality_checks.hpp"
#include "saturation.hpp"

#include <jointrom/core/number_text.hpp>
#include <jointrom/recording/sampling.hpp>
#include <jointrom/signal/noise_level.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <iterator>
#include <utility>
#include <vector>

namespace jointrom {
namespace {

/// Findings about one channel, each with the time at which it starts.
class Judge {
  public:
    explicit Judge(const Channel& channel)
        : channel_(channel), scale_(scale_of(channel.samples, channel.times.rate().value())),
          filled_up_(scale_.count < 2 ? std::nullopt : find_repeated_readings(channel.samples, scale_)) {}

    [[nodiscard]] const Scale& scale() const { return scale_; }
    [[nodiscard]] const std::optional<RepeatedReadings>& filled_up() const { return filled_up_; }
    [[nodiscard]] Findings& findings() { return findings_; }

    void judge() {
        if (scale_.count < 2) {
            return;
        }
        if (scale_.is_constant()) {
            note("stuck", fmt::format("reads {} all the time", shortest_text(scale_.min)));
            return;
        }
        judge_filled_up();
        has_missing_code_ = judge_missing_code();
        // As long as a value stands for missing samples, it would be taken for a limit and a wrong unit.
        if (!has_missing_code_) {
            judge_unit();
            judge_saturation();
            judge_stuck();
        }
    }

    /// What the way from reading to angle looks for by itself.
    void judge_jumps(std::size_t full_turns, Spikes spikes) {
        if (has_missing_code_) {
            return;
        }
        if (spikes.count > 0) {
            note("spikes", fmt::format("has {} single sample{} far off, first at {:.3f} s", spikes.count,
                                       spikes.count == 1 ? "" : "s", time_s(spikes.first)));
        }
        if (full_turns > 0 && channel_.role == ChannelRole::angle) {
            note("wrap-around", fmt::format("jumps by a full turn {} time{}", full_turns, full_turns == 1 ? "" : "s"));
        }
    }

    void note(std::string_view code, const std::string& text) {
        findings_.emplace_back(code, "'" + channel_.name + "' " + text);
    }

  private:
    void judge_unit();
    [[nodiscard]] bool judge_missing_code();
    void judge_filled_up();
    void judge_saturation();
    void judge_stuck();
    [[nodiscard]] double time_s(std::size_t i) const { return channel_.times.time_s(i); }
    [[nodiscard]] std::string value(double number) const {
        return shortest_text(number) + (channel_.unit.empty() ? "" : " " + channel_.unit);
    }

    const Channel& channel_;
    Scale scale_;
    std::optional<RepeatedReadings> filled_up_;
    bool has_missing_code_ = false;
    Findings findings_;
};

void Judge::judge_unit() {
    if (channel_.role == ChannelRole::angle) {
        const std::string doubt = unit_doubt(channel_.samples, scale_, channel_.unit);
        if (!doubt.empty()) {
            note("unit-suspect", doubt);
        }
    }
}

bool Judge::judge_missing_code() {
    const auto code = find_missing_code(scale_);
    const auto suspect = code ? code : find_dropouts_to_zero(channel_.samples, scale_);
    if (suspect) {
        note("missing-suspect", fmt::format("reads {} in {} samples, far off the others, first at {:.3f} s",
                                            shortest_text(suspect->value), suspect->count, time_s(suspect->first)));
    }
    return suspect.has_value();
}

void Judge::judge_filled_up() {
    if (filled_up_) {
        const bool is_held = filled_up_->kind == RepeatedReadings::Kind::held;
        note("repeated-readings", fmt::format("seems to be sampled at {:.4g} Hz and filled up to {:.4g} Hz by {}",
                                              filled_up_->true_rate.value(), channel_.times.rate().value(),
                                              is_held ? "repeating readings" : "straight lines"));
    }
}

void Judge::judge_saturation() {
    const bool is_held = filled_up_ && filled_up_->kind == RepeatedReadings::Kind::held;
    for (const double level : {scale_.max, scale_.min}) {
        const auto saturation = find_saturation(channel_.samples, scale_, level, is_held ? filled_up_->every : 1);
        if (saturation) {
            note("saturated", fmt::format("stays at {} for {} samples in {} place{}, first at {:.3f} s", value(level),
                                          saturation->samples, saturation->runs, saturation->runs == 1 ? "" : "s",
                                          time_s(saturation->first)));
        }
    }
}

void Judge::judge_stuck() {
    constexpr double shortest_s = 1.0;
    constexpr std::size_t fewest = 20;
    if (!scale_.is_noisy() || scale_.longest_run.length < fewest) {
        return;
    }
    const FlatRun run = longest_flat_run(channel_.samples, scale_.max);
    if (run.length < fewest || channel_.samples[run.first] == scale_.min) {
        return;
    }
    const double length_s = time_s(run.first + run.length - 1) - time_s(run.first);
    if (length_s >= shortest_s) {
        note("stuck", fmt::format("reads {} for {:.3g} s from {:.3f} s on, where noise should show",
                                  value(channel_.samples[run.first]), length_s, time_s(run.first)));
    }
}

double median_of(const std::vector<double>& samples) {
    std::vector<double> present;
    present.reserve(samples.size());
    std::ranges::copy_if(samples, std::back_inserter(present), [](double sample) { return !std::isnan(sample); });
    const auto middle = present.begin() + static_cast<std::ptrdiff_t>(present.size() / 2);
    std::ranges::nth_element(present, middle);
    if (present.size() % 2 == 1) {
        return *middle;
    }
    return 0.5 * (*middle + *std::max_element(present.begin(), middle));
}

void judge_sampling(Judge& judge, const Channel& channel) {
    const Sampling sampling = sampling_of(channel);
    if (!channel.times.is_regular()) {
        judge.note("irregular-sampling", fmt::format("was sampled every {:.4g} s on median, varying by {:.2g} s (SD)",
                                                     sampling.median_interval_s, sampling.jitter_s));
    }
}

}  // namespace

ChannelQuality channel_quality(const Channel& channel) {
    ChannelQuality quality;
    quality.count = channel.samples.size();
    Judge judge(channel);
    const Scale& scale = judge.scale();
    quality.missing = quality.count - scale.count;
    if (scale.count == 0) {
        return quality;
    }
    quality.min = scale.min;
    quality.max = scale.max;
    quality.median = median_of(channel.samples);
    if (scale.count >= 2) {
        quality.noise_sd = noise_sd(channel.samples);
        quality.noise_sd = quality.noise_sd < 1e-6 * scale.resolution ? 0.0 : quality.noise_sd;
        quality.resolution = scale.resolution > 0.0 ? scale.resolution : ChannelQuality::none;
        quality.repeated_share = static_cast<double>(scale.repeats) / static_cast<double>(scale.count - 1);
        quality.full_turns = count_full_turns(channel.samples, scale, channel.unit);
        // An electromyogram is made of spikes.
        const bool is_emg = channel.role == ChannelRole::emg;
        const Spikes spikes = is_emg ? Spikes{} : count_spikes(channel.samples, scale);
        quality.spikes = spikes.count;
        quality.filled_up = judge.filled_up();
        judge_sampling(judge, channel);
        judge.judge();
        judge.judge_jumps(quality.full_turns, spikes);
    }
    quality.findings = std::move(judge.findings());
    return quality;
}

Findings angle_findings(const Channel& channel) {
    Judge judge(channel);
    judge.judge();
    return std::move(judge.findings());
}

}  // namespace jointrom
