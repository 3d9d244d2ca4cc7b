#pragma once

/// \file
/// One muscle's electromyogram, ready to be measured: from the logger's reading to conditioned signal and envelope.

#include <jointrom/core/finding.hpp>
#include <jointrom/core/sample_span.hpp>
#include <jointrom/core/units.hpp>
#include <jointrom/emg/emg_form.hpp>
#include <jointrom/recording/recording.hpp>
#include <jointrom/signal/butterworth.hpp>

#include <optional>
#include <span>
#include <string>
#include <vector>

namespace jointrom {

/// Which frequencies are kept.
struct EmgBand {
    enum class Rule { automatic, fixed, off };
    Rule rule = Rule::automatic;
    Hertz low{20.0};  ///< SENIAM: 10 to 20 Hz
    Hertz high{450.0};
};

/// Which mains frequency is looked for and filtered out.
struct MainsChoice {
    enum class Rule { automatic, fixed, off };
    Rule rule = Rule::automatic;  ///< 50 or 60 Hz, whichever stands out
    Hertz frequency{};            ///< for `fixed`
};

struct EmgOptions {
    std::optional<EmgForm> form = std::nullopt;  ///< unset: as the samples show it
    EmgBand band = {};
    MainsChoice mains = {};
    Hertz envelope_cutoff{6.0};  ///< of the linear envelope, after both passes; 3 to 10 Hz is common practice
    Seconds rms_window{};        ///< set: the envelope is the moving RMS instead; 0.05 to 0.1 s is common practice
};

/// Samples at an even rate on the recording's clock. Missing = NaN.
struct EmgSignal {
    std::string name;
    std::string unit;  ///< of the channel
    EmgForm form = EmgForm::raw;
    Seconds start;
    Hertz rate;
    std::vector<double> samples;     ///< without offset, filtered; as they were where they are rectified or smoothed
    std::vector<double> envelope;    ///< never negative
    std::vector<double> unfiltered;  ///< of a raw signal: without offset only; onsets start from it
    Sections filter;                 ///< of a raw signal: one pass of what `samples` went through both ways
    std::vector<std::string> steps;  ///< what was done, in words with numbers

    /// Whether frequencies of the signal mean anything: raw, and logged at 1000 Hz or more.
    [[nodiscard]] bool has_frequencies() const;
    /// The samples with start <= time < end.
    [[nodiscard]] SampleSpan span(Seconds from, Seconds to) const;
    [[nodiscard]] Seconds time(std::size_t i) const noexcept {
        return Seconds(start.value() + static_cast<double>(i) / rate.value());
    }
};

/// An EMG channel, conditioned.
///
/// Method. Stamped samples are put on an even grid at their median rate by straight lines. Raw: the mean is taken off;
/// a Butterworth high-pass and low-pass of second order, forward and backward, 3.01 dB down at either edge after both
/// passes; where hum was found, a notch of quality 30 at each of its lines, both ways. Then the envelope: linear, or
/// moving RMS. Rectified: straight to the envelope. An envelope is taken as it is.
///
/// The automatic band is 20 to 450 Hz. The upper edge is left out at 900 Hz and less, where it cannot be built; the
/// lower is lowered to a twentieth of the rate below 400 Hz, where a folded spectrum holds muscle activity at all
/// frequencies. The envelope's cut-off is lowered to a fifth of the rate below 30 Hz. Both are said (emg-band-lowered).
///
/// Missing samples: stay missing; pieces between them that are shorter than the filters need to settle are left out
/// (emg-gap).
///
/// \param findings emg_findings(), emg-form, emg-band-lowered, emg-gap, emg-unplugged, emg-too-short
/// \return nothing for a channel that is constant, empty or too short, with a finding that says so
/// \throws Failure usage "band-impossible" when a stated band does not fit the rate, "emg-form-impossible" when a
/// signal
///   that swings below zero is stated to be rectified or an envelope
/// \par Reference R. Merletti 1999, J Electromyogr Kinesiol 9(1):III (what to report); H. J. Hermens et al. 2000, J
///      Electromyogr Kinesiol 10:361 (SENIAM)
[[nodiscard]] std::optional<EmgSignal> prepare_emg(const Channel& channel, const EmgOptions& options,
                                                   Findings& findings);

}  // namespace jointrom
