#include "cli/help_text.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <array>

namespace jointrom::cli {
namespace {

constexpr auto statuses = std::to_array<Meaning>(
    {{"0", "done, possibly with findings"},
     {"1", "done, but something asked for is not met: a value outside its range, a recording of a class that failed"},
     {"2", "the request makes no sense as it stands"},
     {"65", "the data cannot be used"},
     {"66", "there is no such file"},
     {"73", "the output cannot be created"},
     {"74", "the output cannot be written to its end"},
     {"130", "interrupted; what was done until then is written"}});

constexpr auto variables = std::to_array<Meaning>(
    {{"COLUMNS", "characters a line: wider tables are printed in parts, one below the other; otherwise the terminal's "
                 "width, and no limit where the result goes to a file or another program"},
     {"NO_COLOR", "when it is there and not empty, errors and warnings have no colour on a terminal either"}});

/// Headings that many commands share, in the order in which they come last.
constexpr auto shared_headings = std::to_array<std::string_view>(
    {"Reading the file", "The joint", "From reading to angle", "Postures held still", "Phases of movement",
     "Turning points", "Muscle activity", "Reference values", "Settings", "Output"});

/// 0 for what is a command's own.
std::ptrdiff_t rank_of(const ArgumentGroup& group) {
    const auto found = std::ranges::find(shared_headings, std::string_view(group.heading));
    return found == shared_headings.end() ? 0 : found - shared_headings.begin() + 1;
}

/// Words in lines, each but the first behind `indent` blanks.
std::string wrapped(std::string_view text, std::size_t indent, std::size_t width) {
    std::string result;
    std::size_t column = indent;
    while (!text.empty()) {
        const std::size_t end = std::min(text.find(' '), text.size());
        const std::string_view word = text.substr(0, end);
        if (column > indent && column + 1 + word.size() > width) {
            result += '\n' + std::string(indent, ' ');
            column = indent;
        }
        result += column > indent ? " " : "";
        result += word;
        column += word.size() + (column > indent ? 1 : 0);
        text.remove_prefix(std::min(end + 1, text.size()));
    }
    return result + '\n';
}

/// "  head   text", the text in a column of its own.
std::string entry(const std::string& head, std::string_view text, std::size_t indent, std::size_t width) {
    const bool fits = head.size() + 4 <= indent;
    const std::string gap = fits ? std::string(indent - head.size() - 2, ' ') : "\n" + std::string(indent, ' ');
    return "  " + head + gap + wrapped(text, indent, std::max(width, indent + 20));
}

}  // namespace

std::span<const Meaning> exit_statuses() {
    return statuses;
}

std::span<const Meaning> environment_variables() {
    return variables;
}

std::vector<ArgumentGroup> argument_groups(const CommandText& command) {
    std::vector<ArgumentGroup> groups;
    for (const ArgumentText& argument : command.arguments) {
        auto found = std::ranges::find(groups, argument.group, &ArgumentGroup::heading);
        if (found == groups.end()) {
            found = groups.insert(groups.end(), {argument.group, {}});
        }
        found->arguments.push_back(&argument);
    }
    std::ranges::stable_sort(groups, {}, rank_of);
    std::ranges::stable_partition(groups, [](const ArgumentGroup& group) { return group.heading.empty(); });
    return groups;
}

std::string head_of(const ArgumentText& argument) {
    const std::string names = fmt::format("{}", fmt::join(argument.names, ", "));
    return argument.is_option && !argument.type.empty() ? names + " " + argument.type : names;
}

std::string meaning_of(const ArgumentText& argument) {
    std::vector<std::string> notes;
    if (argument.is_option && argument.is_required) {
        notes.emplace_back("required");
    }
    if (argument.is_option && argument.may_repeat) {
        notes.emplace_back("repeatable");
    }
    if (!argument.otherwise.empty()) {
        notes.push_back("default " + argument.otherwise);
    }
    return notes.empty() ? argument.help : fmt::format("{} ({})", argument.help, fmt::join(notes, ", "));
}

std::string usage_of(const CommandText& command) {
    std::string text = fmt::format("jointrom {}", command.name);
    for (const ArgumentText& argument : command.arguments) {
        if (!argument.is_option) {
            const std::string name = argument.type + (argument.may_repeat ? "..." : "");
            text += argument.is_required ? " " + name : " [" + name + "]";
        }
    }
    for (const ArgumentText& argument : command.arguments) {
        if (argument.is_option && argument.is_required) {
            text += fmt::format(" {} {}", argument.names.front(), argument.type);
        }
    }
    return text + " [OPTIONS]";
}

std::string command_help(const CommandText& command, std::size_t width) {
    std::string text = fmt::format("{}: {}\n\nExamples:\n", command.name, command.summary);
    for (const std::string& example : command.examples) {
        text += "  " + example + "\n";
    }
    text += fmt::format("\nUsage: {}\n", usage_of(command));
    for (const ArgumentGroup& group : argument_groups(command)) {
        text += group.heading.empty() ? "\n" : fmt::format("\n{}:\n", group.heading);
        for (const ArgumentText* const argument : group.arguments) {
            text += entry(head_of(*argument), meaning_of(*argument), 28, width);
        }
    }
    return text;
}

std::string program_help(std::span<const CommandText> commands, std::size_t width) {
    std::string text = "Joint angles and range of motion from electrogoniometer recordings.\n\n"
                       "Usage: jointrom COMMAND [ARGUMENTS]\n\nCommands:\n";
    for (const CommandText& command : commands) {
        text += entry(std::string(command.name), command.summary, 16, width);
    }
    text += "\nOptions:\n";
    text += entry("-h, --help", "print this help; of a command: examples and options", 16, width);
    text += entry("--version", "print the version", 16, width);
    return text + "\njointrom COMMAND --help shows examples and options.\n";
}

}  // namespace jointrom::cli
