#pragma once

/// \file
/// How the power of a signal is spread over frequency. No function here takes missing samples: pass a piece between
/// gaps (finite_runs.hpp).

#include <jointrom/core/units.hpp>

#include <cstddef>
#include <span>
#include <vector>

namespace jointrom {

/// Values at frequencies from 0 to half the sampling rate.
struct Spectrum {
    std::vector<double> frequency_hz;
    std::vector<double> values;
};

enum class Taper {
    none,  ///< all samples count alike
    hann   ///< raised cosine, periodic
};

struct WelchOptions {
    std::size_t segment = 256;  ///< samples; a shorter signal is one segment
    Taper taper = Taper::hann;
    std::size_t most_segments = static_cast<std::size_t>(-1);  ///< of a longer signal so many, spread evenly
};

/// Power spectral density by averaging over segments that overlap by half, in squared units per hertz.
///
/// Method: the mean of each segment is removed; one-sided, so that the sum times the distance of frequencies is the
/// power. Samples behind the last whole segment are left out. Segments lie farther apart where there would be more than
/// `most_segments`.
///
/// \param rate sampling rate, above 0
/// \return     empty for no samples
/// \par Accuracy 1e-9 relative of SciPy 1.10.1 welch
/// \par Reference P. D. Welch 1967, IEEE Trans Audio Electroacoust 15:70
[[nodiscard]] Spectrum welch(std::span<const double> samples, Hertz rate, WelchOptions options = {});

/// welch(), and what each of its segments adds to it.
class SegmentDensities {
  public:
    [[nodiscard]] const Spectrum& mean() const noexcept { return mean_; }
    /// The median over the segments: not moved by a few loud ones; ln 2 of the mean for noise.
    /// \pre bin < mean().values.size()
    [[nodiscard]] double median(std::size_t bin) const;

  private:
    friend SegmentDensities welch_segments(std::span<const double> samples, Hertz rate, WelchOptions options);

    Spectrum mean_;
    std::vector<double> scale_;    ///< of a squared magnitude, for each bin
    std::vector<double> squares_;  ///< squared magnitudes, bin by bin, segment by segment
};

/// \return empty for no samples
[[nodiscard]] SegmentDensities welch_segments(std::span<const double> samples, Hertz rate, WelchOptions options = {});

/// Power spectral density of all samples at once; its sum times the distance of frequencies is their variance (with n).
[[nodiscard]] Spectrum periodogram(std::span<const double> samples, Hertz rate, Taper taper = Taper::none);

/// Magnitude of the Fourier transform of `samples` with zeros appended, neither scaled nor freed of its mean.
///
/// \param length samples and zeros together, at least the number of samples
/// \par Complexity O(length log length) for any length
[[nodiscard]] Spectrum magnitude_spectrum(std::span<const double> samples, Hertz rate, std::size_t length);

/// Sum of the values times the distance between frequencies; of a density, the power.
[[nodiscard]] double total_power(const Spectrum& spectrum);

/// Mean of the frequencies weighted by the values; missing when there is no power.
[[nodiscard]] Hertz mean_frequency(const Spectrum& spectrum);

enum class MedianFrequency {
    interpolated,  ///< where the power summed up to there, straight between frequencies, is one half
    at_bin         ///< the first of the frequencies at which that sum is one half or more
};

/// Frequency that halves the power; missing when there is none.
///
/// \par Reference F. B. Stulen and C. J. De Luca 1981, IEEE Trans Biomed Eng 28:515
[[nodiscard]] Hertz median_frequency(const Spectrum& spectrum, MedianFrequency rule = MedianFrequency::interpolated);

}  // namespace jointrom
