#pragma once

#include <jointrom/signal/butterworth.hpp>

#include <support/catch.hpp>
#include <support/reference_file.hpp>

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>
#include <vector>

namespace jointrom::test {

constexpr double missing = std::numeric_limits<double>::quiet_NaN();

/// 256 samples at 100 Hz: a slow movement, a 12 Hz component and noise.
inline std::vector<double> filter_test_signal() {
    return reference_column("reference/signal/filter_test_100hz.csv", "x");
}

/// Largest absolute difference; a missing sample matches only a missing sample.
inline double largest_difference(const std::vector<double>& a, const std::vector<double>& b) {
    if (a.size() != b.size()) {
        return std::numeric_limits<double>::infinity();
    }
    double largest = 0.0;
    for (std::size_t i = 0; i < a.size(); ++i) {
        if (std::isnan(a[i]) != std::isnan(b[i])) {
            return std::numeric_limits<double>::infinity();
        }
        if (!std::isnan(a[i])) {
            largest = std::max(largest, std::abs(a[i] - b[i]));
        }
    }
    return largest;
}

inline std::vector<double> sine(double amplitude, double frequency_hz, double rate_hz, std::size_t count) {
    std::vector<double> x(count);
    for (std::size_t i = 0; i < count; ++i) {
        x[i] = amplitude * std::sin(2.0 * std::numbers::pi * frequency_hz * static_cast<double>(i) / rate_hz);
    }
    return x;
}

inline Sections sections_from(const nlohmann::json& rows) {
    Sections sections;
    for (const auto& row : rows) {
        sections.push_back({row[0], row[1], row[2], row[3], row[4]});
    }
    return sections;
}

}  // namespace jointrom::test
