#include "own_times.hpp"

#include "even_grid.hpp"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <limits>

namespace jointrom {
namespace {

constexpr double missing = std::numeric_limits<double>::quiet_NaN();
constexpr std::size_t fewest_values = 5;

std::vector<std::size_t> rows_with_values(std::span<const double> samples) {
    std::vector<std::size_t> rows;
    for (std::size_t i = 0; i < samples.size(); ++i) {
        if (!std::isnan(samples[i])) {
            rows.push_back(i);
        }
    }
    return rows;
}

std::size_t median_distance(const std::vector<std::size_t>& rows) {
    std::vector<std::size_t> distances;
    distances.reserve(rows.size() - 1);
    for (std::size_t i = 1; i < rows.size(); ++i) {
        distances.push_back(rows[i] - rows[i - 1]);
    }
    const auto middle = distances.begin() + static_cast<std::ptrdiff_t>(distances.size() / 2);
    std::ranges::nth_element(distances, middle);
    return *middle;
}

/// Whether rows of another clock may stand between these.
bool has_blanks_between(const std::vector<std::size_t>& rows) {
    constexpr std::size_t fewest = 50;
    const std::size_t all = rows.back() - rows.front() + 1;
    return rows.size() >= fewest && 50 * (all - rows.size()) >= all;
}

/// Values at `rows`, of which value i stands at place(i) of `count`.
template <typename Place>
std::vector<double> spread(std::span<const double> samples, const std::vector<std::size_t>& rows, std::size_t count,
                           Place place) {
    std::vector<double> result(count, missing);
    for (std::size_t i = 0; i < rows.size(); ++i) {
        result[place(i)] = samples[rows[i]];
    }
    return result;
}

OwnTimes every_kth_row(const TimeBase& times, std::span<const double> samples, const std::vector<std::size_t>& rows,
                       std::size_t k) {
    const std::size_t count = (rows.back() - rows.front()) / k + 1;
    const Hertz rate(times.rate().value() / static_cast<double>(k));
    return {TimeBase::regular(Seconds(times.time_s(rows.front())), rate, count),
            spread(samples, rows, count, [&](std::size_t i) { return (rows[i] - rows.front()) / k; })};
}

}  // namespace

std::optional<OwnTimes> own_times(const TimeBase& times, std::span<const double> samples, double resolution_s) {
    const std::vector<std::size_t> rows = rows_with_values(samples);
    if (rows.size() < fewest_values || rows.size() == samples.size()) {
        return std::nullopt;
    }
    const std::size_t k = median_distance(rows);
    const bool is_every_kth =
        k >= 2 && std::ranges::all_of(rows, [&](std::size_t row) { return (row - rows.front()) % k == 0; });
    if (is_every_kth && times.is_regular()) {
        return every_kth_row(times, samples, rows, k);
    }
    const bool is_between_others = k == 1 && !times.is_regular() && has_blanks_between(rows);
    if (k == 1 ? !is_between_others : !(is_every_kth || k >= 3)) {
        return std::nullopt;
    }
    std::vector<double> stamps_s;
    stamps_s.reserve(rows.size());
    for (const std::size_t row : rows) {
        stamps_s.push_back(times.time_s(row));
    }
    const double row_interval_s = sample_interval(times.rate()).value();
    if (const auto grid = fit_even_grid(stamps_s, times.is_regular() ? row_interval_s : resolution_s)) {
        return OwnTimes{TimeBase::regular(Seconds(grid->start_s), Hertz(grid->rate_hz), grid->count),
                        spread(samples, rows, grid->count,
                               [&](std::size_t i) { return grid->place.empty() ? i : grid->place[i]; })};
    }
    if (!is_every_kth) {
        return std::nullopt;
    }
    return OwnTimes{TimeBase::stamped(std::move(stamps_s)),
                    spread(samples, rows, rows.size(), [](std::size_t i) { return i; })};
}

}  // namespace jointrom
