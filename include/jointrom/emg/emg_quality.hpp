#pragma once

/// \file
/// What is known to go wrong with electrodes, and can be seen in the samples.

#include <jointrom/core/finding.hpp>
#include <jointrom/emg/emg_form.hpp>
#include <jointrom/emg/mains_hum.hpp>
#include <jointrom/recording/recording.hpp>

#include <cstddef>
#include <optional>
#include <span>

namespace jointrom {

/// Below this rate frequencies of an electromyogram mean nothing: its power reaches 400 to 500 Hz (R. Merletti 1999,
/// J Electromyogr Kinesiol 9(1):III). 1000 Hz, less 1 % by which clocks and time stamps are off.
inline constexpr Hertz least_emg_rate{990.0};

/// Samples at the end of the converter's or amplifier's range.
struct Clipping {
    double level;
    std::size_t samples;
};

/// Cut-off peaks at the highest or lowest value.
///
/// Method: peaks thin out toward the extreme value. They are cut off when five samples or more stand at it, and three
/// times as many as within half a percent of the range (two steps of the resolution at least) before it; thresholds
/// from trials with simulated activity.
/// Missing samples: skipped.
[[nodiscard]] std::optional<Clipping> find_clipping(std::span<const double> samples);

/// Share of the power of a raw electromyogram that lies below 10 Hz, where little muscle activity is.
/// \return NaN for an empty density, or one that ends below 20 Hz
[[nodiscard]] double slow_power_share(const Spectrum& density);

/// Heart beats in an electromyogram.
struct HeartBeats {
    double per_min;
    std::size_t count;
};

/// Heart beats, where the muscle is quiet enough to show them.
///
/// Method: peaks of the RMS over 40 ms, taken every 10 ms, that are narrower than 0.15 s and stand four times above its
/// median; most peaks must be so, five at least, and come every 0.4 to 1.5 s, with a median deviation below a tenth of
/// that.
/// (Thresholds: design choice, tried on simulated beats.)
/// \return nothing below 100 Hz
[[nodiscard]] std::optional<HeartBeats> find_heart_beats(std::span<const double> samples, Hertz rate);

/// Everything that is wrong with an EMG channel.
///
/// Findings: emg-clipped; of a raw channel also emg-undersampled, emg-motion-artefact (more than half of the power is
/// slow), emg-ecg, emg-unplugged (more than 80 % of the power is mains hum, as an open electrode shows it), mains-hum.
/// \param density the mean of densities_of_seconds() of the same samples; of a channel that is not raw it may be empty
/// \param hum     find_mains_hum() in them
[[nodiscard]] Findings emg_findings(const Channel& channel, EmgForm form, const std::optional<MainsHum>& hum,
                                    const Spectrum& density);

}  // namespace jointrom
