#pragma once

/// \file
/// Manual pages and completions, made from what the commands say of themselves.

#include "cli/help_text.hpp"

#include <span>
#include <string>

namespace jointrom::cli {

/// The manual page of one command (section 1), in the macros of man(7).
[[nodiscard]] std::string command_man_page(const CommandText& command);
/// The manual page of the program: its commands, exit statuses and environment.
[[nodiscard]] std::string program_man_page(std::span<const CommandText> commands);

/// Commands, options, the words that an option may be, and names of files.
[[nodiscard]] std::string bash_completion(std::span<const CommandText> commands);
[[nodiscard]] std::string zsh_completion(std::span<const CommandText> commands);
[[nodiscard]] std::string fish_completion(std::span<const CommandText> commands);

}  // namespace jointrom::cli
