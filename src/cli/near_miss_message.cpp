#include "cli/near_miss_message.hpp"

#include <jointrom/core/near_miss.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <vector>

namespace jointrom::cli {
namespace {

std::string suggestion(std::string_view typed, std::span<const std::string_view> known, std::string_view prefix) {
    const auto near = nearest(typed, known);
    return near ? fmt::format("; did you mean {}{}?", prefix, *near) : std::string();
}

std::string unknown_option(const CLI::App& command, const std::string& typed) {
    std::vector<std::string_view> names;
    for (const CLI::Option* option : command.get_options()) {
        for (const std::string& name : option->get_lnames()) {
            names.push_back(name);
        }
    }
    const std::size_t dashes = typed.find_first_not_of('-');
    const std::string name = typed.substr(dashes, typed.find('=') - dashes);
    return fmt::format("{} has no option {}{}\n  See jointrom {} --help.", command.get_name(),
                       typed.substr(0, typed.find('=')), suggestion(name, names, "--"), command.get_name());
}

/// What stands behind an option or in place of an argument, such as "--into FOLDER" or "FILE".
std::string wanted(const CLI::App& command, const std::string& name) {
    const CLI::Option* const option = command.get_option_no_throw(name);
    if (option == nullptr) {
        return name;
    }
    return option->get_positional() ? option->get_type_name() : name + " " + option->get_type_name();
}

/// CLI11's message in the program's own words, where it is of a common kind.
std::string parse_message(const CLI::App& command, const CLI::ParseError& error) {
    const std::string text = error.what();
    if (dynamic_cast<const CLI::RequiredError*>(&error) != nullptr && text.ends_with(" is required")) {
        return fmt::format("{} needs {}", command.get_name(), wanted(command, text.substr(0, text.find(' '))));
    }
    if (dynamic_cast<const CLI::ArgumentMismatch*>(&error) != nullptr && text.starts_with("--")) {
        return fmt::format("there is no value behind {}", wanted(command, text.substr(0, text.find(':'))));
    }
    if (dynamic_cast<const CLI::ExtrasError*>(&error) != nullptr) {
        return fmt::format("{} does not take '{}' as well", command.get_name(), command.remaining(true).front());
    }
    return text;
}

}  // namespace

std::string usage_message(const CLI::App& app, const CLI::ParseError& error, const std::string& first,
                          std::span<const std::string_view> commands) {
    const auto parsed = app.get_subcommands();
    if (parsed.empty()) {
        if (!first.starts_with('-') && std::ranges::find(commands, first) == commands.end()) {
            return fmt::format("there is no command {}{}\n  jointrom --help lists the commands.", first,
                               suggestion(first, commands, ""));
        }
        return fmt::format("{}\n  jointrom --help lists the commands.", error.what());
    }
    const CLI::App& command = *parsed.front();
    for (const std::string& argument : app.remaining(true)) {
        if (argument.size() > 1 && argument.starts_with('-')) {
            return unknown_option(command, argument);
        }
    }
    return fmt::format("{}\n  See jointrom {} --help.", parse_message(command, error), command.get_name());
}

}  // namespace jointrom::cli
