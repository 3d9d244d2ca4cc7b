#include "cli/shell_files.hpp"

#include <jointrom/core/version.hpp>

#include <fmt/format.h>

#include <algorithm>

namespace jointrom::cli {
namespace {

/// Text with nothing in it that troff would take for a request.
std::string escaped(std::string_view text) {
    std::string result;
    for (const char c : text) {
        result += c == '\\' ? "\\e" : c == '-' ? "\\-" : c == '\'' ? "\\(aq" : c == '`' ? "\\(ga" : std::string(1, c);
    }
    return result.starts_with('.') ? "\\&" + result : result;
}

std::string upper(std::string_view text) {
    std::string result(text);
    std::ranges::transform(result, result.begin(),
                           [](char c) { return c >= 'a' && c <= 'z' ? static_cast<char>(c - 'a' + 'A') : c; });
    return result;
}

/// No date: the same sources give the same bytes.
std::string title(std::string_view name, std::string_view summary) {
    return fmt::format(".TH {} 1 \"\" \"jointrom {}\" \"User Commands\"\n.SH NAME\n{} \\- {}\n", escaped(upper(name)),
                       version(), escaped(name), escaped(summary));
}

std::string entry(const std::string& head, std::string_view text) {
    return fmt::format(".TP\n{}\n{}\n", head, escaped(text));
}

std::string bold(std::string_view text) {
    return "\\fB" + escaped(text) + "\\fR";
}

std::string head_in_bold(const ArgumentText& argument) {
    std::string head;
    for (const std::string& name : argument.names) {
        head += (head.empty() ? "" : ", ") + (argument.is_option ? bold(name) : "\\fI" + escaped(name) + "\\fR");
    }
    return argument.is_option && !argument.type.empty() ? head + " \\fI" + escaped(argument.type) + "\\fR" : head;
}

std::string meanings(std::string_view heading, std::span<const Meaning> list) {
    std::string text = fmt::format(".SH {}\n", heading);
    for (const Meaning& meaning : list) {
        text += entry(bold(meaning.name), meaning.text);
    }
    return text;
}

std::string examples(std::span<const std::string> lines) {
    std::string text = ".SH EXAMPLES\n.EX\n";
    for (const std::string& line : lines) {
        text += escaped(line) + "\n";
    }
    return text + ".EE\n";
}

}  // namespace

std::string command_man_page(const CommandText& command) {
    std::string text = title(fmt::format("jointrom-{}", command.name), command.summary);
    const std::string usage = usage_of(command);
    const std::string start = fmt::format("jointrom {}", command.name);
    text += fmt::format(".SH SYNOPSIS\n{}{}\n", bold(start), escaped(std::string_view(usage).substr(start.size())));
    text += examples(command.examples);
    text += ".SH OPTIONS\n";
    for (const ArgumentGroup& group : argument_groups(command)) {
        text += group.heading.empty() ? "" : fmt::format(".SS {}\n", escaped(group.heading));
        for (const ArgumentText* const argument : group.arguments) {
            text += entry(head_in_bold(*argument), meaning_of(*argument) + ".");
        }
    }
    return text + meanings("EXIT STATUS", exit_statuses()) + meanings("ENVIRONMENT", environment_variables()) +
           ".SH SEE ALSO\n.BR jointrom (1)\n";
}

std::string program_man_page(std::span<const CommandText> commands) {
    std::string text = title("jointrom", "joint angles and range of motion from electrogoniometer recordings");
    text += ".SH SYNOPSIS\n.B jointrom\n.I COMMAND\n[\\fIARGUMENTS\\fR]\n.br\n.B jointrom\n.I COMMAND\n.B \\-\\-help\n";
    text +=
        ".SH DESCRIPTION\n"
        "Turns the CSV files of a data logger into joint angles that can be trusted, and measures them: still\n"
        "postures, range of motion, turning points, phases, repetitions, muscle activity and the load on the joint,\n"
        "each with its uncertainty.\n"
        "It judges them against normal ranges and sums up a class.\n"
        ".PP\n"
        "Results go to standard output, notes and warnings to standard error.\n"
        "What was assumed is said first; each finding has a code that never changes.\n"
        "Angles are degrees.\n"
        "A teaching measurement, not a diagnosis.\n";
    text += ".SH COMMANDS\n";
    for (const CommandText& command : commands) {
        text += entry(bold(command.name), std::string(command.summary) + ".");
    }
    std::vector<std::string> first_examples;
    for (const CommandText& command : commands) {
        first_examples.push_back(command.examples.front());
    }
    text += examples(first_examples) + meanings("EXIT STATUS", exit_statuses()) +
            meanings("ENVIRONMENT", environment_variables()) + ".SH SEE ALSO\n";
    for (const CommandText& command : commands) {
        const bool is_last = &command == &commands.back();
        text += fmt::format(".BR jointrom\\-{} (1){}\n", escaped(command.name), is_last ? "" : ",");
    }
    return text;
}

}  // namespace jointrom::cli
