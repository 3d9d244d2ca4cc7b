#include <jointrom/core/natural_order.hpp>

#include <algorithm>
#include <cstddef>

namespace jointrom {
namespace {

bool is_digit(char c) {
    return c >= '0' && c <= '9';
}

/// Takes the digits at the front of `text`, without leading zeros.
std::string_view take_digits(std::string_view& text) {
    const auto end = std::find_if_not(text.begin(), text.end(), is_digit);
    std::string_view digits = text.substr(0, static_cast<std::size_t>(end - text.begin()));
    text.remove_prefix(digits.size());
    digits.remove_prefix(std::min(digits.find_first_not_of('0'), digits.size()));
    return digits;
}

}  // namespace

bool natural_less(std::string_view a, std::string_view b) {
    std::string_view rest_a = a;
    std::string_view rest_b = b;
    while (!rest_a.empty() && !rest_b.empty()) {
        if (is_digit(rest_a.front()) && is_digit(rest_b.front())) {
            const std::string_view digits_a = take_digits(rest_a);
            const std::string_view digits_b = take_digits(rest_b);
            if (digits_a != digits_b) {
                return digits_a.size() != digits_b.size() ? digits_a.size() < digits_b.size() : digits_a < digits_b;
            }
        } else if (rest_a.front() != rest_b.front()) {
            return static_cast<unsigned char>(rest_a.front()) < static_cast<unsigned char>(rest_b.front());
        } else {
            rest_a.remove_prefix(1);
            rest_b.remove_prefix(1);
        }
    }
    if (rest_a.empty() != rest_b.empty()) {
        return rest_a.empty();
    }
    return a.size() != b.size() ? a.size() < b.size() : a < b;
}

}  // namespace jointrom
