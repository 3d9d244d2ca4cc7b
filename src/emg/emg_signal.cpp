#include <jointrom/emg/emg_signal.hpp>

#include "emg/longest_run.hpp"

#include <jointrom/core/failure.hpp>
#include <jointrom/emg/emg_quality.hpp>
#include <jointrom/emg/envelope.hpp>
#include <jointrom/signal/finite_runs.hpp>
#include <jointrom/signal/moving_window.hpp>
#include <jointrom/signal/resample.hpp>
#include <jointrom/stats/descriptive.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <limits>

namespace jointrom {
namespace {

constexpr int order = 2;

/// The channel on an even grid.
Channel evenly_sampled(const Channel& channel) {
    if (channel.times.is_regular()) {
        return channel;
    }
    std::vector<double> time_s(channel.samples.size());
    for (std::size_t i = 0; i < time_s.size(); ++i) {
        time_s[i] = channel.times.time_s(i);
    }
    const Hertz rate = channel.times.rate();
    const double intervals = (time_s.back() - time_s.front()) * rate.value();
    if (intervals > 1e6 + 100.0 * static_cast<double>(time_s.size())) {
        throw Failure(FailureKind::unreadable_data, "gap-too-long",
                      fmt::format("'{}' is spread over {:.0f} s with gaps far longer than its samples", channel.name,
                                  time_s.back() - time_s.front()),
                      "Choose a part of the recording with --window-s START,END.");
    }
    Channel even = channel;
    constexpr double gap_intervals = 3.0;
    even.samples =
        resample_uniform(time_s, channel.samples, rate, {.longest_gap = gap_intervals * sample_interval(rate)});
    even.times = TimeBase::regular(Seconds(time_s.front()), rate, even.samples.size());
    return even;
}

/// Whether so much lies below zero that the signal can be neither rectified nor an envelope.
bool swings_below_zero(std::span<const double> samples) {
    constexpr double more_than_noise = 0.1;
    double below = 0.0;
    double all = 0.0;
    for (const double sample : samples) {
        if (!std::isnan(sample)) {
            below += sample < 0.0 ? -sample : 0.0;
            all += std::abs(sample);
        }
    }
    return below > more_than_noise * all;
}

class Conditioning {
  public:
    Conditioning(const Channel& channel, const EmgOptions& options, Findings& findings)
        : channel_(evenly_sampled(channel)), rate_(channel_.times.rate()), options_(options), findings_(findings) {}

    std::optional<EmgSignal> run() {
        const Description facts = describe(channel_.samples);
        if (facts.count == 0 || facts.min == facts.max) {
            note("emg-unplugged", facts.count == 0 ? "no samples" : fmt::format("{:.4g} all the time", facts.min));
            return std::nullopt;
        }
        constexpr double beyond_any_sensor = 1e100;
        if (!(std::max(-facts.min, facts.max) < beyond_any_sensor)) {
            note("emg-unplugged", fmt::format("values up to {:.3g}", std::max(-facts.min, facts.max)));
            return std::nullopt;
        }
        const std::size_t longest = longest_run(channel_.samples).size();
        signal_ = {.name = channel_.name,
                   .unit = channel_.unit,
                   .form = options_.form.value_or(emg_form_of(channel_.samples, rate_)),
                   .start = Seconds(channel_.times.time_s(0)),
                   .rate = rate_,
                   .samples = std::move(channel_.samples),
                   .envelope = {},
                   .unfiltered = {},
                   .filter = {},
                   .steps = {}};
        judge();
        if (signal_.form == EmgForm::raw) {
            condition(facts.mean);
        }
        make_envelope();
        const bool is_usable = std::ranges::any_of(signal_.envelope, [](double x) { return !std::isnan(x); });
        if (!is_usable) {
            note("emg-too-short",
                 fmt::format("{}{} samples at {:.4g} Hz are too few for the filters to settle",
                             longest < facts.count ? "pieces of at most " : "", longest, rate_.value()));
            return std::nullopt;
        }
        return std::move(signal_);
    }

  private:
    void note(std::string_view code, const std::string& text) {
        findings_.emplace_back(code, fmt::format("'{}': {}", channel_.name, text));
    }
    void step(std::string text) { signal_.steps.push_back(std::move(text)); }
    void judge();
    void condition(double mean);
    void make_envelope();
    [[nodiscard]] Sections band_filter();
    void leave_out_short_pieces(std::size_t shortest);

    Channel channel_;
    Hertz rate_;
    const EmgOptions& options_;
    Findings& findings_;
    std::optional<MainsHum> hum_;
    EmgSignal signal_;
};

void Conditioning::judge() {
    if (signal_.form != EmgForm::raw && swings_below_zero(signal_.samples)) {
        throw Failure(FailureKind::usage, "emg-form-impossible",
                      fmt::format("--emg-form {}: '{}' swings below zero", name_of(signal_.form), channel_.name),
                      "A rectified or smoothed signal does not; leave --emg-form out, or state raw.");
    }
    SegmentDensities seconds;
    if (signal_.form == EmgForm::raw) {
        seconds = densities_of_seconds(signal_.samples, rate_);
    }
    if (options_.mains.rule != MainsChoice::Rule::off) {
        hum_ = find_mains_hum(seconds, rate_, options_.mains.frequency);
    }
    channel_.samples = std::move(signal_.samples);
    for (Finding& finding : emg_findings(channel_, signal_.form, hum_, seconds.mean())) {
        findings_.push_back(std::move(finding));
    }
    signal_.samples = std::move(channel_.samples);
    if (signal_.form != EmgForm::raw && !options_.form) {
        note("emg-form", fmt::format("{} already", signal_.form == EmgForm::envelope ? "smoothed" : "rectified"));
    }
}

/// High-pass and low-pass as the options and the rate have them, and a notch at every line of hum.
Sections Conditioning::band_filter() {
    constexpr double notch_quality = 30.0;
    EmgBand band = options_.band;
    const double half_hz = 0.5 * rate_.value();
    Sections sections;
    const auto append = [&](const Sections& more) { sections.insert(sections.end(), more.begin(), more.end()); };
    if (band.rule == EmgBand::Rule::fixed && band.high.value() >= half_hz) {
        throw Failure(FailureKind::usage, "band-impossible",
                      fmt::format("a band up to {:.4g} Hz cannot be filtered out of '{}', logged at {:.4g} Hz",
                                  band.high.value(), channel_.name, rate_.value()),
                      fmt::format("The upper edge must lie below {:.4g} Hz; --emg-band-hz auto takes what the rate "
                                  "allows.",
                                  half_hz));
    }
    if (band.rule != EmgBand::Rule::off) {
        const bool has_top = band.high.value() < half_hz;
        if (band.rule == EmgBand::Rule::automatic) {
            band.low = std::min(band.low, 0.05 * rate_);
        }
        append(butterworth_highpass(order, highpass_design_cutoff(band.low, order, 2, rate_), rate_));
        if (has_top) {
            append(butterworth_lowpass(order, design_cutoff(band.high, order, 2, rate_), rate_));
            step(fmt::format("band-pass {:.4g}-{:.4g} Hz", band.low.value(), band.high.value()));
        } else {
            step(fmt::format("high-pass {:.4g} Hz", band.low.value()));
            note("emg-band-lowered",
                 fmt::format("{:.4g} Hz allow a high-pass of {:.4g} Hz only", rate_.value(), band.low.value()));
        }
    }
    if (hum_) {
        for (const Hertz line : hum_->lines) {
            append(notch(line, notch_quality, rate_));
            step(fmt::format("notch at {:.4g} Hz", line.value()));
        }
    }
    return sections;
}

void Conditioning::condition(double mean) {
    for (double& sample : signal_.samples) {
        sample -= mean;
    }
    step(fmt::format("offset of {:.4g}{}{} taken off", mean, channel_.unit.empty() ? "" : " ", channel_.unit));
    const Sections& sections = signal_.filter = band_filter();
    // A notch rings longer, but little; the band decides how long a piece must be.
    const Sections band(sections.begin(), sections.begin() + std::min<std::ptrdiff_t>(2, std::ssize(sections)));
    leave_out_short_pieces(settling_samples(band));
    signal_.unfiltered = signal_.samples;
    if (!sections.empty()) {
        change_finite_runs(signal_.samples, [&](std::span<double> run) { zero_phase_in_place(run, sections); });
    }
}

void Conditioning::leave_out_short_pieces(std::size_t shortest) {
    const auto runs = finite_runs(signal_.samples);
    std::size_t left_out = 0;
    for (const SampleSpan run : runs) {
        if (run.size() <= shortest) {
            std::fill_n(signal_.samples.begin() + static_cast<std::ptrdiff_t>(run.first), run.size(),
                        std::numeric_limits<double>::quiet_NaN());
            ++left_out;
        }
    }
    if (left_out > 0 && left_out < runs.size()) {
        note("emg-gap", fmt::format("{} pieces between missing samples are too short to filter", left_out));
    }
}

void Conditioning::make_envelope() {
    if (signal_.form == EmgForm::envelope) {
        signal_.envelope = signal_.samples;
        for (double& value : signal_.envelope) {
            value = value < 0.0 ? 0.0 : value;
        }
        step("taken as an envelope");
        return;
    }
    if (options_.rms_window.is_set()) {
        const double window = std::round(options_.rms_window.value() * rate_.value());
        leave_out_short_pieces(static_cast<std::size_t>(window));
        signal_.envelope = map_finite_runs(signal_.samples, [&](std::span<const double> run) {
            return moving_rms(run, static_cast<std::size_t>(std::max(1.0, window)));
        });
        step(fmt::format("moving RMS over {:.4g} s", options_.rms_window.value()));
        return;
    }
    Hertz cutoff = options_.envelope_cutoff;
    if (cutoff > 0.2 * rate_) {
        cutoff = 0.2 * rate_;
        note("emg-band-lowered",
             fmt::format("{:.4g} Hz allow an envelope of {:.4g} Hz only", rate_.value(), cutoff.value()));
    }
    leave_out_short_pieces(settling_samples(butterworth_lowpass(order, cutoff, rate_), 0.05));
    signal_.envelope = linear_envelope(signal_.samples, cutoff, rate_);
    step(fmt::format("rectified, low-pass {:.4g} Hz", cutoff.value()));
}

}  // namespace

bool EmgSignal::has_frequencies() const {
    return form == EmgForm::raw && rate >= least_emg_rate;
}

SampleSpan EmgSignal::span(Seconds from, Seconds to) const {
    constexpr double rounding = 1e-6;
    const auto index = [&](Seconds time) {
        const double place = std::ceil((time - start).value() * rate.value() - rounding);
        return static_cast<std::size_t>(std::clamp(place, 0.0, static_cast<double>(samples.size())));
    };
    const std::size_t first = index(from);
    return {first, std::max(first, index(to))};
}

std::optional<EmgSignal> prepare_emg(const Channel& channel, const EmgOptions& options, Findings& findings) {
    return Conditioning(channel, options, findings).run();
}

}  // namespace jointrom
