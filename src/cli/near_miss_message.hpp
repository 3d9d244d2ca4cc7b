#pragma once

/// \file
/// Messages for arguments that are not understood, with the nearest name that is.

#include <CLI/CLI.hpp>

#include <span>
#include <string>
#include <string_view>

namespace jointrom::cli {

/// What was wrong with the arguments and what was probably meant.
///
/// \param app      the program's parser after a failed parse
/// \param first    the first argument, which should have been a command
/// \param commands names of the commands
[[nodiscard]] std::string usage_message(const CLI::App& app, const CLI::ParseError& error, const std::string& first,
                                        std::span<const std::string_view> commands);

}  // namespace jointrom::cli
