#include <jointrom/core/number_text.hpp>

#include <fast_float/fast_float.h>
#include <fmt/format.h>

#include <array>
#include <cassert>
#include <charconv>
#include <cmath>

namespace jointrom {

std::optional<double> parse_number(std::string_view text) {
    if (text.starts_with('+')) {
        text.remove_prefix(1);
        if (text.starts_with('-') || text.starts_with('+')) {
            return std::nullopt;
        }
    }
    double value = 0.0;
    const char* const end = text.data() + text.size();
    const auto [stop, status] = fast_float::from_chars(text.data(), end, value);
    if (status != std::errc() || stop != end || !std::isfinite(value)) {
        return std::nullopt;
    }
    return value;
}

std::string fixed_text(double value, int decimals) {
    if (std::isnan(value)) {
        return {};
    }
    constexpr int most_decimals = 6;
    if (decimals > most_decimals && std::abs(value) < 1e-3 && value != 0.0) {
        const int figures = decimals + static_cast<int>(std::floor(std::log10(std::abs(value)))) + 1;
        return figures > 0 ? fmt::format("{:.{}e}", value, figures - 1) : "0";
    }
    std::array<char, 512> digits;  // the largest double has 309 before the point
    const auto [end, status] =
        std::to_chars(digits.data(), digits.data() + digits.size(), value, std::chars_format::fixed, decimals);
    assert(status == std::errc());
    std::string text(digits.data(), end);
    if (text.starts_with('-') && text.find_first_not_of("-0.") == std::string::npos) {
        text.erase(0, 1);
    }
    return text;
}

std::string shortest_text(double value) {
    if (std::isnan(value)) {
        return {};
    }
    return fmt::format("{}", value == 0.0 ? 0.0 : value);
}

}  // namespace jointrom
