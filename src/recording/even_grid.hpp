#pragma once

/// \file
/// Whether time stamps stand on an even grid, and on which.

#include <cstddef>
#include <optional>
#include <span>
#include <vector>

namespace jointrom {

/// Times start_s + k / rate_hz, k = 0 .. count - 1.
struct EvenGrid {
    double start_s = 0.0;
    double rate_hz = 0.0;
    std::size_t count = 0;
    std::vector<std::size_t> place;  ///< k of each stamp; empty when stamp i stands at k = i
};

/// The even grid on which stamps stand, but for their rounding.
///
/// Method: stamps belong to a grid when none is further from its place than the stamps are coarse, or than 5 % of an
/// interval (common practice, no source: at 5 % the error in time is below what any filter for joint angles keeps).
/// Two grids are tried: one place for every stamp, rate (n - 1) / (last - first); and one where steps longer than 1.5
/// times the median step leave places empty. Where a twentieth of the stamps or more repeat the one before, the clock
/// is taken to tick more slowly than samples were taken; the rate then comes from its first and last tick. If rounding
/// leaves the rate open between numbers, a whole number of hertz is preferred.
/// \param time_s       not falling
/// \param resolution_s smallest step that the stamps can show, 0 when unknown
/// \return nothing when the stamps are irregular, fewer than two, or so far apart that most places would be empty
[[nodiscard]] std::optional<EvenGrid> fit_even_grid(std::span<const double> time_s, double resolution_s);

/// The power of ten of which all of `stamps` are multiples, from 1 down to 1e-6; 0 when there is none.
[[nodiscard]] double decimal_resolution(std::span<const double> stamps);

}  // namespace jointrom
