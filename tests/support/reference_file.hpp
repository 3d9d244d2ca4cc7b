#pragma once

/// \file
/// Files below tests/ that hold what a test must reproduce.

#include <nlohmann/json.hpp>

#include <filesystem>
#include <string>
#include <vector>

namespace jointrom::test {

/// A path below tests/, e.g. tests_path("reference/signal/filters_outputs.json").
[[nodiscard]] std::filesystem::path tests_path(const std::string& relative);

/// A JSON file below tests/.
[[nodiscard]] nlohmann::json reference_json(const std::string& relative);

/// One column, by heading, of a plain CSV file below tests/ (comma, header row, numbers only).
[[nodiscard]] std::vector<double> reference_column(const std::string& relative, const std::string& heading);

}  // namespace jointrom::test
