#include "cli/command.hpp"

#include "cli/help_text.hpp"
#include "cli/near_miss_message.hpp"

#include <jointrom/core/failure.hpp>
#include <jointrom/core/version.hpp>

#include <CLI/CLI.hpp>
#include <fmt/ostream.h>

#include <array>
#include <new>
#include <ostream>
#include <string>
#include <utility>
#include <vector>

namespace jointrom::cli {
namespace {

/// In the order of the job.
constexpr auto command_table = std::to_array<Command>({
    {"inspect", "what a file holds: columns, units, rates, gaps, quality",
     "jointrom inspect P03_left_elbow.csv\n"
     "jointrom inspect export.txt --rate-hz 1000 --missing 666",
     attach_inspect},
    {"calibrate", "known angles against readings: a calibration file with its uncertainty",
     "jointrom calibrate --point 0=0.512 --point 90=2.867 --unit V --save sensor.json\n"
     "jointrom calibrate --point 0=cal.csv@2,4 --point 90=cal.csv@8,10 --control 45=cal.csv@5,7 --tolerance-deg 2",
     attach_calibrate},
    {"angles", "the anatomical joint angle over time, with velocity and acceleration",
     "jointrom angles P03_left_elbow.csv --output angles.csv\n"
     "jointrom angles P01_right_elbow_volts.csv --calibration sensor.json --joint elbow --side left --neutral-s 0,2",
     attach_angles},
    {"static", "postures that were held still",
     "jointrom static P05_right_elbow_static.csv\n"
     "jointrom static P05_right_elbow_static.csv --expected-deg 0,30,60,90,120",
     attach_static},
    {"range", "range of motion in both directions, with its uncertainty",
     "jointrom range P03_left_elbow.csv\n"
     "jointrom range P03_left_elbow.csv --joint elbow --explain --format json",
     attach_range},
    {"peaks", "turning points of the movement",
     "jointrom peaks P03_left_elbow.csv\n"
     "jointrom peaks P03_left_elbow.csv --prominence-deg 20 --format csv",
     attach_peaks},
    {"phases", "rest, raising, holding and lowering, with times and speeds",
     "jointrom phases P03_left_elbow.csv\n"
     "jointrom phases P03_left_elbow.csv --output phases.csv",
     attach_phases},
    {"repetitions", "a row for each repetition, or their mean curve",
     "jointrom repetitions P03_left_elbow.csv\n"
     "jointrom repetitions P03_left_elbow.csv --curve --output curve.csv",
     attach_repetitions},
    {"activity", "which muscle works in which phase, when and how hard",
     "jointrom activity P01_right_elbow.csv --mvc P01_right_elbow_mvc.csv --resists flexion\n"
     "jointrom activity P06_right_elbow_hold.csv --frequencies --by burst --output bursts.csv",
     attach_activity},
    {"load", "moment, power and work of the muscles about the joint, by phase",
     "jointrom load P03_left_elbow.csv --body-mass-kg 64 --height-m 1.70 --load-kg 2 --load-at-m 0.32\n"
     "jointrom load P05_right_knee.csv --posture sitting --segment-kg 3.9 --segment-at-m 0.26 --explain\n"
     "jointrom load --joint elbow --at-deg 90 --segment-kg 2.5 --segment-at-m 0.16 --load-kg 4 --load-at-m 0.38",
     attach_load},
    {"norms", "reference values of joint motion, their sources and gaps",
     "jointrom norms --joint elbow --motion flexion --sex F --age 30\n"
     "jointrom norms compare elbow flexion\n"
     "jointrom norms gaps --joint wrist --mode active",
     attach_norms},
    {"check", "a value, a recording or a class against normal ranges, left against right",
     "jointrom check --value-deg 141 --u-deg 2 --joint elbow --motion flexion --sex F --age 30 --mode passive\n"
     "jointrom check P03_left_elbow.csv --sex F --age 20 --against passive --tasks",
     attach_check},
    {"batch", "the recordings of a class, as tables",
     "jointrom batch . --pattern '{participant}_{side}_elbow.csv' --into results\n"
     "jointrom batch . --pattern '{participant}_{side}_elbow.csv' --into coded --pseudonymise key.csv",
     attach_batch},
    {"summary", "result tables of a class: statistics by group, side differences, change, outliers",
     "jointrom summary class_trials.csv\n"
     "jointrom summary class_trials.csv --by side --compare condition=before,after",
     attach_summary},
    {"agreement", "repeated measurements: intraclass correlation, error of measurement, limits of agreement",
     "jointrom agreement class_trials.csv\n"
     "jointrom agreement class_trials.csv --value positive_deg --repeat condition --table errors",
     attach_agreement},
    {"grade", "students' own readings against the computed values",
     "jointrom grade answers.csv --results class/trials.csv\n"
     "jointrom grade answers.csv --results class/trials.csv --tolerance-deg 3 --by participant --format csv",
     attach_grade},
    {"plot", "a recording, a class or a calibration as a figure (SVG)",
     "jointrom plot P01_right_elbow.csv --output elbow.svg\n"
     "jointrom plot class_trials.csv --figure class --output class.svg",
     attach_plot},
    {"report", "one recording or a class as a web page in one file, for reading and printing",
     "jointrom report P03_left_elbow.csv\n"
     "jointrom report P03_left_elbow.csv --sex F --age 20 --against passive --output elbow.html\n"
     "jointrom report results --output class.html",
     attach_report},
    {"simulate", "recordings whose truth is known",
     "jointrom simulate --joint knee --repetitions 3 --noise-deg 0.5 --seed 7 --output knee.csv\n"
     "jointrom simulate --students 12 --side both --emg Biceps=0.4,0.25,0.15,0.006 --into class",
     attach_simulate},
    {"schema", "the JSON Schema of each result and of each file that is read or written",
     "jointrom schema\n"
     "jointrom schema range --output range.schema.json",
     attach_schema},
});

ExitStatus status_of(FailureKind kind) {
    switch (kind) {
    case FailureKind::usage:
        return exit_usage;
    case FailureKind::unreadable_data:
        return exit_data;
    case FailureKind::missing_file:
        return exit_missing_file;
    case FailureKind::cannot_create:
        return exit_cannot_create;
    case FailureKind::cannot_write:
        break;
    }
    return exit_cannot_write;
}

std::vector<std::string> lines_of(std::string_view text) {
    std::vector<std::string> lines;
    while (!text.empty()) {
        const std::size_t end = std::min(text.find('\n'), text.size());
        lines.emplace_back(text.substr(0, end));
        text.remove_prefix(std::min(end + 1, text.size()));
    }
    return lines;
}

CommandText text_of(const Command& command, const OptionList& list) {
    return {command.name, command.summary, lines_of(command.examples), list.texts()};
}

std::vector<std::string_view> command_names() {
    std::vector<std::string_view> names{"help"};
    for (const Command& command : command_table) {
        names.push_back(command.name);
    }
    return names;
}

void report_failure(const Console& console, const Failure& failure) {
    const std::string place = failure.place().text();
    fmt::print(console.err, "jointrom: {}: {}{}{}\n", severity_text("error", console), place, place.empty() ? "" : ": ",
               failure.what());
    if (!failure.advice().empty()) {
        fmt::print(console.err, "  {}\n", failure.advice());
    }
}

ExitStatus run_action(const Action& action, Console& console) {
    try {
        const ExitStatus status = action(console);
        console.out.flush();
        if (!console.out) {
            throw Failure(FailureKind::cannot_write, "cannot-write", "cannot write to standard output");
        }
        return status;
    } catch (const Failure& failure) {
        report_failure(console, failure);
        return status_of(failure.kind());
    } catch (const std::bad_alloc&) {
        report_failure(console, Failure(FailureKind::unreadable_data, "out-of-memory",
                                        "the input needs more memory than there is"));
        return exit_data;
    }
}

/// "jointrom help range" is another way to say "jointrom range --help".
std::vector<std::string> arguments_of(int argc, const char* const* argv) {
    std::vector<std::string> arguments(argv + 1, argv + argc);
    if (!arguments.empty() && arguments.front() == "help") {
        arguments.erase(arguments.begin());
        arguments.emplace_back("--help");
    }
    return arguments;
}

}  // namespace

std::string severity_text(std::string_view severity, const Console& console) {
    if (!console.has_colours || severity == "note") {
        return std::string(severity);
    }
    return fmt::format("\x1b[1;{}m{}\x1b[0m", severity == "error" ? 31 : 33, severity);
}

std::vector<CommandText> command_texts() {
    std::vector<CommandText> texts;
    for (const Command& command : command_table) {
        CLI::App app;
        OptionList list(app);
        (void)command.attach(list);
        texts.push_back(text_of(command, list));
    }
    return texts;
}

int run(int argc, const char* const* argv, Console& console) {
    std::vector<std::string> arguments = arguments_of(argc, argv);
    const std::string asked = arguments.empty() ? std::string() : arguments.front();
    CLI::App app("", "jointrom");
    app.set_version_flag("--version", "jointrom " + std::string(version()));
    app.set_help_flag("-h,--help");
    app.require_subcommand(0, 1);
    std::vector<std::pair<const CLI::App*, Action>> attached;
    std::string help;
    const std::size_t help_width = console.width == 0 ? 110 : console.width;
    for (const Command& command : command_table) {
        CLI::App* const subcommand = app.add_subcommand(std::string(command.name));
        OptionList list(*subcommand);
        attached.emplace_back(subcommand, command.attach(list));
        if (asked == command.name) {
            help = command_help(text_of(command, list), help_width);
        }
    }
    if (help.empty()) {
        help = program_help(command_texts(), help_width);
    }

    std::reverse(arguments.begin(), arguments.end());  // CLI11 takes them from the back
    try {
        app.parse(std::move(arguments));
    } catch (const CLI::CallForHelp&) {
        console.out << help;
        return exit_done;
    } catch (const CLI::ParseError& error) {
        if (error.get_exit_code() == 0) {
            app.exit(error, console.out, console.err);
            return exit_done;
        }
        fmt::print(console.err, "jointrom: {}: {}\n", severity_text("error", console),
                   usage_message(app, error, asked, command_names()));
        return exit_usage;
    }
    for (const auto& [subcommand, action] : attached) {
        if (subcommand->parsed()) {
            return run_action(action, console);
        }
    }
    console.err << help;
    return exit_usage;
}

}  // namespace jointrom::cli
