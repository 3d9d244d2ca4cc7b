#include <jointrom/core/number_text.hpp>

#include <fast_float/fast_float.h>
#include <fmt/format.h>

#include <array>
#include <cassert>
#include <charconv>
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <utility>

namespace jointrom {
namespace {

/// The text by way of an integer, which is fast; nothing where the product with a power of ten might round to
/// another text than the value itself: large values, and those about halfway between two texts.
std::optional<std::string> fixed_by_integer(double value, int decimals) {
    constexpr std::array powers{1.0, 1e1, 1e2, 1e3, 1e4, 1e5, 1e6};
    constexpr double most = 1e12;          // the product is right within 1e-4 below
    constexpr double near_halfway = 1e-3;  // ten times that
    if (decimals < 0 || decimals >= static_cast<int>(powers.size())) {
        return std::nullopt;
    }
    const double scaled = std::abs(value) * powers[static_cast<std::size_t>(decimals)];
    if (!(scaled < most)) {
        return std::nullopt;
    }
    auto digits = static_cast<std::uint64_t>(scaled);
    const double rest = scaled - static_cast<double>(digits);
    if (std::abs(rest - 0.5) < near_halfway) {
        return std::nullopt;
    }
    digits += rest > 0.5 ? 1U : 0U;
    const bool is_negative = value < 0.0 && digits > 0;
    std::array<char, 24> text;
    std::size_t first = text.size();
    for (int i = 0; i <= decimals || digits > 0; ++i) {
        if (i == decimals && decimals > 0) {
            text[--first] = '.';
        }
        text[--first] = static_cast<char>('0' + digits % 10);
        digits /= 10;
    }
    if (is_negative) {
        text[--first] = '-';
    }
    return std::string(text.begin() + first, text.end());
}

}  // namespace

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
    if (auto text = fixed_by_integer(value, decimals)) {
        return std::move(*text);
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
