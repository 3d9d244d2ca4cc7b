#pragma once

/// \file
/// Bland and Altman's comparison of two measurements of the same subjects.

#include <jointrom/stats/confidence_interval.hpp>

#include <cstddef>
#include <span>

namespace jointrom {

struct AgreementOptions {
    double factor = 1.96;      ///< standard deviations from the bias to each limit; the paper of 1986 has 2
    double confidence = 0.95;  ///< of the intervals
    /// Standard error of a limit: sqrt(s^2 / n + factor^2 s^2 / (2 (n - 1))), or the paper's rounded sqrt(3 s^2 / n).
    bool rounded_standard_error = false;
};

/// A straight line through differences (or their sizes) over magnitudes.
struct MagnitudeTrend {
    double slope;
    ConfidenceInterval slope_ci;
    double intercept;
    double p;  ///< of a slope as steep, were there none
};

struct LimitsOfAgreement {
    std::size_t count;     ///< pairs used
    std::size_t left_out;  ///< pairs of which a value is missing
    double bias;           ///< mean of second minus first
    ConfidenceInterval bias_ci;
    double sd;  ///< of the differences
    double lower;
    ConfidenceInterval lower_ci;
    double upper;
    ConfidenceInterval upper_ci;
    MagnitudeTrend trend;   ///< differences over means: does the bias change with the size of what is measured?
    MagnitudeTrend spread;  ///< distances from that line over means: does the scatter?
};

/// How far `second` differs from `first`.
///
/// Method: bias -+ factor SD. The trends are least-squares lines; the spread is that of the residuals' sizes.
/// Missing samples: the pair is left out and counted.
/// \return intervals and trends are missing for fewer than three pairs, the SD and limits for fewer than two
/// \pre as many values in both
/// \par Reference J. M. Bland and D. G. Altman 1986, Lancet i:307; 1999, Stat Methods Med Res 8:135 (standard error of
///                the limits, section 2; magnitude, section 3)
[[nodiscard]] LimitsOfAgreement limits_of_agreement(std::span<const double> first, std::span<const double> second,
                                                    const AgreementOptions& options = {});

/// The same for ratios second / first: bias and limits are factors, from logarithms.
///
/// \return everything is missing when a value is not positive
[[nodiscard]] LimitsOfAgreement ratio_limits_of_agreement(std::span<const double> first, std::span<const double> second,
                                                          const AgreementOptions& options = {});

}  // namespace jointrom
