#include "cli/class_table_options.hpp"
#include "cli/command.hpp"

#include <jointrom/batch/agreement_tables.hpp>
#include <jointrom/batch/class_columns.hpp>
#include <jointrom/core/failure.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <memory>
#include <utility>

namespace jointrom::cli {
namespace {

struct AgreementCommand {
    ClassTableOptions table;
    std::string subject;
    std::string repeat;
    std::string device;
    std::vector<std::string> columns;
};

/// Columns of a long table by what they are for; those of `repeats` may tell measurements apart.
struct Columns {
    std::vector<std::string> by;
    std::vector<std::string> values;
    std::vector<std::string> subject;
    std::vector<std::string> repeats;
    std::string device;
};

std::vector<std::string> subject_columns(const std::vector<std::string>& headings, const std::string& named) {
    std::vector<std::string> subject;
    for (const std::string& name : comma_list(named)) {
        subject.push_back(heading_named(headings, name, "--subject"));
    }
    if (subject.empty()) {
        subject.push_back(participant_column(headings, ""));
    }
    if (subject.front().empty()) {
        throw Failure(FailureKind::usage, "subject-unknown",
                      fmt::format("there is no column participant or subject among {}", fmt::join(headings, ", ")),
                      "Say who was measured with --subject COLUMN, or name the measurements of a wide table with "
                      "--columns A,B,C.");
    }
    return subject;
}

LongTableRequest long_columns(const AgreementCommand& command, const std::vector<std::string>& headings,
                              Columns& columns) {
    columns.subject = subject_columns(headings, command.subject);
    columns.values = value_columns(headings, command.table.value_names());
    columns.device = command.device.empty() ? std::string() : heading_named(headings, command.device, "--device");
    columns.repeats.clear();
    if (!command.repeat.empty()) {
        columns.repeats.push_back(heading_named(headings, command.repeat, "--repeat"));
    } else {
        for (const char* const name : {"trial", "rater", "condition"}) {
            if (const auto heading = find_heading(headings, name); heading && *heading != columns.device) {
                columns.repeats.push_back(*heading);
            }
        }
    }
    if (columns.repeats.empty()) {
        throw Failure(FailureKind::usage, "repeat-unknown",
                      fmt::format("there is no column trial, rater or condition among {}", fmt::join(headings, ", ")),
                      "Name the column that tells the measurements of one subject apart with --repeat COLUMN.");
    }
    columns.by = group_columns(headings, command.table.by_names());
    LongTableRequest request{columns.by, columns.values};
    const auto also = [&](const std::string& name) {
        if (!name.empty() && std::ranges::find(request.texts, name) == request.texts.end()) {
            request.texts.push_back(name);
        }
    };
    for (const auto* const names : {&columns.subject, &columns.repeats}) {
        std::ranges::for_each(*names, also);
    }
    also(columns.device);
    return request;
}

/// The first of the columns in question that holds two texts or more.
std::string repeat_column(const LongTable& table, const std::vector<std::string>& candidates) {
    const auto found =
        std::ranges::find_if(candidates, [&](const std::string& name) { return table.find_text(name)->named() > 1; });
    return found == candidates.end() ? candidates.front() : *found;
}

Report long_report(const AgreementCommand& command, Console& console) {
    Columns columns;
    const LongTable table =
        read_long_table(command.table.all_files(console), console.in, [&](const std::vector<std::string>& headings) {
            return long_columns(command, headings, columns);
        });
    RepeatedOptions options{.by = columns.by,
                            .subject = columns.subject,
                            .repeat = repeat_column(table, columns.repeats),
                            .device = columns.device};
    if (!command.table.by_names()) {
        options.by = filled_columns(table, options.by);
    }
    std::erase_if(options.by, [&](const std::string& name) {
        return name == options.repeat || name == options.device ||
               std::ranges::find(options.subject, name) != options.subject.end();
    });
    Report report;
    report.settings = {{"value", fmt::format("{}", fmt::join(columns.values, ","))},
                       {"by", fmt::format("{}", fmt::join(options.by, ","))},
                       {"subject", fmt::format("{}", fmt::join(options.subject, ","))},
                       {"repeat", options.repeat},
                       {"device", options.device}};
    report.title = fmt::format("agreement of repeated measurements: {} of each {}, told apart by {}",
                               fmt::join(columns.values, ", "), fmt::join(options.subject, " and "), options.repeat) +
                   (options.device.empty() ? "" : fmt::format(" and {}", options.device));
    command.table.describe_input(table, report);
    AgreementTables tables = agreement_tables(repeated_scores(table, options), options.by);
    report.tables = {std::move(tables.correlations), std::move(tables.errors), std::move(tables.differences),
                     std::move(tables.devices), std::move(tables.reliability)};
    report.findings.insert(report.findings.end(), tables.findings.begin(), tables.findings.end());
    return report;
}

/// "A,B,C" or "NAME=A,B,C", resolved against the headings.
std::vector<WideColumns> wide_columns(const std::vector<std::string>& texts, const std::vector<std::string>& headings) {
    std::vector<WideColumns> devices;
    for (const std::string& text : texts) {
        const std::size_t equals = text.find('=');
        WideColumns device{equals == std::string::npos ? text : text.substr(0, equals), {}};
        for (const std::string& name : comma_list(equals == std::string::npos ? text : text.substr(equals + 1))) {
            device.columns.push_back(heading_named(headings, name, "--columns"));
        }
        if (device.columns.empty() || (!devices.empty() && device.columns.size() != devices[0].columns.size())) {
            throw Failure(FailureKind::usage, "columns-unclear",
                          fmt::format("--columns {}: expected the names of columns, as many for each device", text),
                          "Write --columns A,B,C, or for several devices --columns X=A,B,C --columns Y=D,E,F.");
        }
        devices.push_back(std::move(device));
    }
    return devices;
}

Report wide_report(const AgreementCommand& command, Console& console) {
    std::vector<WideColumns> devices;
    std::string subject;
    const LongTable table =
        read_long_table(command.table.all_files(console), console.in, [&](const std::vector<std::string>& headings) {
            devices = wide_columns(command.columns, headings);
            subject = participant_column(headings, command.subject);
            LongTableRequest request;
            if (!subject.empty()) {
                request.texts.push_back(subject);
            }
            for (const WideColumns& device : devices) {
                request.numbers.insert(request.numbers.end(), device.columns.begin(), device.columns.end());
            }
            return request;
        });
    Report report;
    report.settings = {{"columns", fmt::format("{}", fmt::join(command.columns, " "))}, {"subject", subject}};
    report.title = fmt::format("agreement of repeated measurements: {}", fmt::join(command.columns, "; "));
    command.table.describe_input(table, report);
    const std::vector<RepeatedScores> scores{wide_scores(table, devices, subject)};
    AgreementTables tables = agreement_tables(scores, {});
    report.tables = {std::move(tables.correlations), std::move(tables.errors), std::move(tables.differences),
                     std::move(tables.devices), std::move(tables.reliability)};
    report.findings.insert(report.findings.end(), tables.findings.begin(), tables.findings.end());
    return report;
}

ExitStatus run_agreement(const AgreementCommand& command, Console& console) {
    Report report = command.columns.empty() ? long_report(command, console) : wide_report(command, console);
    report.schema = "jointrom-agreement";
    report.remarks.emplace_back("Intervals are 95 %. Limits of agreement: bias -+ 1.96 SD of the differences, second "
                                "minus first.");
    command.table.write(std::move(report), console);
    return exit_done;
}

}  // namespace

Action attach_agreement(OptionList& list) {
    auto command = std::make_shared<AgreementCommand>();
    command->table.attach(list, {"icc", "errors", "differences", "devices", "reliability"});
    list.group("Agreement");
    list.value("--subject", command->subject, "COLUMN,...",
               "who or what was measured repeatedly (participant or subject)");
    list.value("--repeat", command->repeat, "COLUMN",
               "what tells the measurements of one subject apart (the first of trial, rater, condition that varies)");
    list.value("--device", command->device, "COLUMN",
               "devices or raters of whom each measured every subject several times");
    list.values("--columns", command->columns, "[NAME=]A,B,...",
                "a row for each subject: its measurements; once for each device");
    return [command](Console& console) { return run_agreement(*command, console); };
}

}  // namespace jointrom::cli
