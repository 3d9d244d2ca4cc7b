#pragma once

/// \file
/// Values of settings as text, read strictly: what is not exactly what was expected is refused with the name of the
/// setting and an example.

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

/// Numbers between commas, at least one.
[[nodiscard]] std::vector<double> number_list_setting(std::string_view name, std::string_view text);

/// "NAME=VALUE" in two, or an empty name when there is no equals sign.
[[nodiscard]] std::pair<std::string, std::string> named_value(std::string_view text);

}  // namespace jointrom
