#pragma once

/// \file
/// The JSON form of a report, for those who add to it before it becomes text.

#include <jointrom/report/result_table.hpp>

#include <nlohmann/json.hpp>

#include <string>

namespace jointrom {

[[nodiscard]] nlohmann::ordered_json json_envelope(const Report& report);

/// A number rounded as it is printed elsewhere, or null.
[[nodiscard]] nlohmann::ordered_json json_number(double value, int decimals);

/// Text that is valid UTF-8 whatever the names in it were.
[[nodiscard]] std::string json_text(const nlohmann::ordered_json& root);

}  // namespace jointrom
