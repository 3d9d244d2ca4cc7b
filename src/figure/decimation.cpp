#include <jointrom/figure/decimation.hpp>

#include <algorithm>
#include <cassert>
#include <cmath>

namespace jointrom {
namespace {

/// Adds the index of a sample unless it was the last one added.
void add(std::vector<std::size_t>& kept, std::size_t index) {
    if (kept.empty() || kept.back() != index) {
        kept.push_back(index);
    }
}

/// First, last, least and greatest of the finite samples in a column.
struct Column {
    std::size_t first = 0;
    std::size_t last = 0;
    std::size_t least = 0;
    std::size_t greatest = 0;
    bool is_empty = true;
};

Column column_of(std::span<const double> values, std::size_t from, std::size_t to) {
    Column column;
    for (std::size_t i = from; i < to; ++i) {
        if (!std::isfinite(values[i])) {
            continue;
        }
        if (column.is_empty) {
            column = {i, i, i, i, false};
            continue;
        }
        column.last = i;
        if (values[i] < values[column.least]) {
            column.least = i;
        } else if (values[i] > values[column.greatest]) {
            column.greatest = i;
        }
    }
    return column;
}

std::vector<std::size_t> all_samples(std::span<const double> values) {
    std::vector<std::size_t> kept;
    kept.reserve(values.size());
    for (std::size_t i = 0; i < values.size(); ++i) {
        const bool is_break = !std::isfinite(values[i]);
        if (!is_break || (i > 0 && std::isfinite(values[i - 1]))) {
            kept.push_back(i);
        }
    }
    return kept;
}

}  // namespace

std::vector<std::size_t> drawn_samples(std::span<const double> values, std::size_t columns) {
    assert(columns >= 1);
    const std::size_t n = values.size();
    if (n <= 4 * columns) {
        return all_samples(values);
    }
    std::vector<std::size_t> kept;
    kept.reserve(5 * columns);
    const std::size_t column_width = n / columns;
    std::size_t last_drawn = 0;
    for (std::size_t k = 0; k < columns; ++k) {
        // The part after the remainder: k * n may be larger than any index.
        const auto edge = [&](std::size_t at) { return at * column_width + at * (n % columns) / columns; };
        const Column column = column_of(values, edge(k), edge(k + 1));
        if (column.is_empty) {
            continue;
        }
        if (!kept.empty() && column.first - last_drawn > column_width) {
            kept.push_back(last_drawn + 1);
        }
        kept.push_back(column.first);
        add(kept, std::min(column.least, column.greatest));
        add(kept, std::max(column.least, column.greatest));
        add(kept, column.last);
        last_drawn = column.last;
    }
    return kept;
}

std::vector<std::size_t> drawn_points(std::span<const double> x_px, std::span<const double> y_px, double tolerance_px) {
    std::vector<std::size_t> kept;
    const std::size_t n = x_px.size();
    bool after_break = true;
    for (std::size_t i = 0; i < n; ++i) {
        if (!std::isfinite(x_px[i]) || !std::isfinite(y_px[i])) {
            if (!after_break) {
                kept.push_back(i);
            }
            after_break = true;
            continue;
        }
        const bool is_far =
            after_break || std::hypot(x_px[i] - x_px[kept.back()], y_px[i] - y_px[kept.back()]) >= tolerance_px;
        if (is_far || i + 1 == n) {
            kept.push_back(i);
        }
        after_break = false;
    }
    return kept;
}

}  // namespace jointrom
