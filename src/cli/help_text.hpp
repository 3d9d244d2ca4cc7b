#pragma once

/// \file
/// What the program says of itself: help, and what manual pages and completions are made from.

#include "cli/option_list.hpp"

#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace jointrom::cli {

/// A command as its user is told of it.
struct CommandText {
    std::string_view name;
    std::string_view summary;
    std::vector<std::string> examples;
    std::vector<ArgumentText> arguments;
};

/// Every command, in the order of the job.
[[nodiscard]] std::vector<CommandText> command_texts();

/// An exit status, or a variable of the environment, and what it means.
struct Meaning {
    std::string_view name;
    std::string_view text;
};

[[nodiscard]] std::span<const Meaning> exit_statuses();
[[nodiscard]] std::span<const Meaning> environment_variables();

/// Options under one heading.
struct ArgumentGroup {
    std::string heading;
    std::vector<const ArgumentText*> arguments;
};

/// Arguments without an option first, then the command's own groups, then those that many commands share.
[[nodiscard]] std::vector<ArgumentGroup> argument_groups(const CommandText& command);

/// "--age, --age-years YEARS"
[[nodiscard]] std::string head_of(const ArgumentText& argument);

/// The help of an argument with its default and whether it must be there or may be repeated.
[[nodiscard]] std::string meaning_of(const ArgumentText& argument);

/// "jointrom batch [MANIFEST|FOLDER] --into FOLDER [OPTIONS]"
[[nodiscard]] std::string usage_of(const CommandText& command);

/// \param width characters a line
[[nodiscard]] std::string command_help(const CommandText& command, std::size_t width);
[[nodiscard]] std::string program_help(std::span<const CommandText> commands, std::size_t width);

}  // namespace jointrom::cli
