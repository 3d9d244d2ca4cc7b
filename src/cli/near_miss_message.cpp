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
    return fmt::format("{}\n  See jointrom {} --help.", error.what(), command.get_name());
}

}  // namespace jointrom::cli
