#pragma once

/// \file
/// Values of settings as text, read strictly: what is not exactly what was expected is refused with the name of the
/// setting and an example.

#include <jointrom/core/number_text.hpp>
#include <jointrom/core/sample_span.hpp>
#include <jointrom/core/units.hpp>

#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace jointrom {

/// The failure for a value that does not fit. \param expected e.g. "a frequency in Hz, auto or off"
[[noreturn]] void refuse_setting(std::string_view name, std::string_view text, std::string_view expected);

[[nodiscard]] double number_setting(std::string_view name, std::string_view text);
[[nodiscard]] double positive_setting(std::string_view name, std::string_view text);
[[nodiscard]] std::size_t count_setting(std::string_view name, std::string_view text);
[[nodiscard]] bool switch_setting(std::string_view name, std::string_view text);

/// "START,END" in seconds, START before END.
[[nodiscard]] TimeWindow window_setting(std::string_view name, std::string_view text);
[[nodiscard]] std::string window_text(const TimeWindow& window);

/// The value of a quantity, as it can be typed again.
template <typename Tag>
[[nodiscard]] std::string quantity_text(Quantity<Tag> quantity) {
    return shortest_text(quantity.value());
}

/// Numbers between commas, at least one. \param example of what was expected
[[nodiscard]] std::vector<double> number_list_setting(std::string_view name, std::string_view text,
                                                      std::string_view example = "0,45,90");

/// "NAME=VALUE" in two, or an empty name when there is no equals sign.
[[nodiscard]] std::pair<std::string, std::string> named_value(std::string_view text);

}  // namespace jointrom
