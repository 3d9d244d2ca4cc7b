#include "cli/class_table_options.hpp"
#include "cli/command.hpp"
#include "cli/norm_options.hpp"

#include "analysis/setting_text.hpp"

#include <jointrom/batch/class_columns.hpp>
#include <jointrom/batch/class_summary.hpp>
#include <jointrom/batch/level_comparison.hpp>
#include <jointrom/batch/summary_tables.hpp>
#include <jointrom/core/failure.hpp>
#include <jointrom/core/whole_file.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <memory>
#include <span>
#include <utility>

namespace jointrom::cli {
namespace {

struct SummaryCommand {
    ClassTableOptions table;
    std::string participant;
    std::string compare;
    std::string mdc;
    std::string norm_table;
    std::string norm_source = "own class";
    NormOptions norms;
};

/// "condition=before,after"
struct LevelPair {
    std::string column;
    std::string first;
    std::string second;
};

LevelPair level_pair(const std::string& text) {
    const std::size_t equals = text.find('=');
    const std::vector<std::string> levels =
        equals == std::string::npos ? std::vector<std::string>() : comma_list(text.substr(equals + 1));
    if (levels.size() != 2 || levels[0] == levels[1]) {
        throw Failure(FailureKind::usage, "comparison-unclear",
                      fmt::format("--compare {}: expected a column and two of its texts", text),
                      "Write --compare COLUMN=FIRST,SECOND, such as --compare condition=before,after.");
    }
    return {text.substr(0, equals), levels[0], levels[1]};
}

/// Columns of a table by what they are for.
struct Columns {
    std::vector<std::string> by;
    std::vector<std::string> values;
    std::string participant;
    std::string side;
    std::string compared;
    std::vector<std::string> expanded;  ///< uncertainties of the values
    bool has_joint = false;
};

/// Expanded uncertainties of the values that are among the headings, such as arc_u95_deg of arc_deg.
std::vector<std::string> expanded_columns(const std::vector<std::string>& headings,
                                          const std::vector<std::string>& values) {
    std::vector<std::string> found;
    for (const std::string& value : values) {
        const auto heading = find_heading(headings, value.substr(0, value.rfind("_deg")) + "_u95_deg");
        if (heading && std::ranges::find(values, *heading) == values.end()) {
            found.push_back(*heading);
        }
    }
    return found;
}

/// Takes columns of numbers out of the table.
std::vector<NumberColumn> taken_columns(LongTable& table, const std::vector<std::string>& names) {
    std::vector<NumberColumn> taken;
    std::erase_if(table.numbers, [&](NumberColumn& column) {
        const bool is_named = std::ranges::find(names, column.name) != names.end();
        if (is_named) {
            taken.push_back(std::move(column));
        }
        return is_named;
    });
    return taken;
}

LongTableRequest chosen_columns(const SummaryCommand& command, const std::vector<std::string>& headings,
                                Columns& columns) {
    columns.values = value_columns(headings, command.table.value_names());
    columns.by = group_columns(headings, command.table.by_names());
    columns.participant = participant_column(headings, command.participant);
    columns.side = find_heading(headings, "side").value_or("");
    LongTableRequest request{columns.by, columns.values};
    const auto also = [&](const std::string& name) {
        if (!name.empty() && std::ranges::find(request.texts, name) == request.texts.end()) {
            request.texts.push_back(name);
        }
    };
    also(columns.participant);
    also(columns.side);
    for (const char* const name : {"joint", "motion"}) {
        also(find_heading(headings, name).value_or(""));
    }
    columns.has_joint = find_heading(headings, "joint") && find_heading(headings, "motion");
    if (columns.has_joint && (command.table.wants("norms") || !command.norm_table.empty())) {
        for (const char* const name : {"sex", "age_years"}) {
            also(find_heading(headings, name).value_or(""));
        }
        columns.expanded = expanded_columns(headings, columns.values);
        request.numbers.insert(request.numbers.end(), columns.expanded.begin(), columns.expanded.end());
    }
    if (!command.compare.empty()) {
        columns.compared = heading_named(headings, level_pair(command.compare).column, "--compare");
        also(columns.compared);
        for (const char* const name : {"condition", "rater"}) {
            also(find_heading(headings, name).value_or(""));
        }
    }
    return request;
}

bool has_both_sides(const LongTable& table, const std::string& side) {
    const TextColumn* const column = side.empty() ? nullptr : table.find_text(side);
    const auto holds = [&](const char* text) { return std::ranges::find(column->texts, text) != column->texts.end(); };
    return column != nullptr && holds("left") && holds("right");
}

void add_comparison(const std::string& name, const LongTable& table, const ComparisonOptions& options, Report& report) {
    const Comparisons comparisons = compare_levels(table, options);
    report.tables.push_back(comparison_table(name, comparisons, table, options));
    report.findings.insert(report.findings.end(), comparisons.findings.begin(), comparisons.findings.end());
}

void add_comparisons(const SummaryCommand& command, const LongTable& table, const Columns& columns, Report& report) {
    ComparisonOptions options;
    options.by = columns.by;
    options.participant = columns.participant;
    if (!command.mdc.empty()) {
        options.known_change = positive_setting("--mdc", command.mdc);
    }
    if (command.table.wants("sides") && !columns.participant.empty() && has_both_sides(table, columns.side)) {
        options.column = columns.side;
        options.first = "left";
        options.second = "right";
        options.with_independent = false;
        add_comparison("sides", table, options, report);
    }
    if (command.table.wants("change") && !command.compare.empty()) {
        LevelPair levels = level_pair(command.compare);
        options.column = columns.compared;
        options.first = std::move(levels.first);
        options.second = std::move(levels.second);
        options.with_independent = true;
        add_comparison("change", table, options, report);
    }
}

void add_norms(const SummaryCommand& command, const LongTable& table, std::span<const NumberColumn> expanded,
               const Columns& columns, Report& report) {
    const NormFilter filter = command.norms.filter();
    const NormComparisonOptions options{.by = columns.by,
                                        .participant = columns.participant,
                                        .mode = filter.mode,
                                        .sex = filter.sex,
                                        .age_years = filter.age_years,
                                        .source = filter.source};
    if (command.table.wants("norms")) {
        const NormComparisons norms = compare_with_norms(table, expanded, command.norms.table(), options);
        report.tables.push_back(norm_comparison_table(norms));
        report.findings.insert(report.findings.end(), norms.findings.begin(), norms.findings.end());
        if (!norms.rows.empty()) {
            report.remarks.emplace_back(
                "Reference values describe groups; this is a teaching measurement, not a diagnosis.");
        }
    }
    if (!command.norm_table.empty()) {
        write_whole_file(command.norm_table, class_norm_table(table, options, command.norm_source));
        report.remarks.push_back(fmt::format("Written to {}.", command.norm_table));
    }
}

/// CSV holds one table: with --compare it is the one that answers it.
void choose_table(SummaryCommand& command) {
    const bool is_csv = command.table.output.chosen_format(Format::table) == Format::csv;
    if (command.table.table.empty() && is_csv && !command.compare.empty()) {
        command.table.table = "change";
    }
}

ExitStatus run_summary(SummaryCommand command, Console& console) {
    choose_table(command);
    Columns columns;
    LongTable table =
        read_long_table(command.table.all_files(console), console.in, [&](const std::vector<std::string>& headings) {
            return chosen_columns(command, headings, columns);
        });
    const std::vector<NumberColumn> expanded = taken_columns(table, columns.expanded);
    if (!command.table.by_names()) {
        columns.by = filled_columns(table, columns.by);
    }
    Report report;
    report.schema = "jointrom-summary";
    report.title = "class summary";
    report.settings = {{"value", fmt::format("{}", fmt::join(columns.values, ","))},
                       {"by", fmt::format("{}", fmt::join(columns.by, ","))},
                       {"participant", columns.participant},
                       {"compare", command.compare},
                       {"mdc", command.mdc}};
    command.table.describe_input(table, report);

    ClassSummary summary;
    if (command.table.wants("groups", true) || command.table.wants("outliers")) {
        summary = class_summary(table, {.by = columns.by, .participant = columns.participant});
    }
    report.findings.insert(report.findings.end(), summary.findings.begin(), summary.findings.end());
    report.tables.push_back(group_table(summary, table, columns.by));
    add_comparisons(command, table, columns, report);
    if (columns.has_joint) {
        add_norms(command, table, expanded, columns, report);
    } else if (!command.norm_table.empty() || !command.norms.file.empty()) {
        throw Failure(FailureKind::usage, "joint-unknown", "the table has no columns joint and motion",
                      "Add them; reference values are by joint and direction.");
    }
    report.tables.push_back(outlier_table(summary, table, columns.by));
    report.remarks.emplace_back("Intervals are 95 %. Quartiles are Hyndman and Fan's type 7; outliers lie 3.5 robust "
                                "standard deviations or more "
                                "from the median.");
    command.table.write(std::move(report), console);
    return exit_done;
}

}  // namespace

Action attach_summary(OptionList& list) {
    auto command = std::make_shared<SummaryCommand>();
    command->table.attach(list, {"groups", "sides", "change", "norms", "outliers"});
    command->norms.attach(list, false);
    list.value("--norm-table", command->norm_table, "FILE", "write the class as a table that --norms reads");
    list.value("--norm-source", command->norm_source, "NAME", "what that table calls its source")
        .otherwise(command->norm_source);
    list.group("Summary");
    list.value("--participant", command->participant, "COLUMN", "whose a value is (participant or subject)");
    list.value("--compare", command->compare, "COLUMN=FIRST,SECOND",
               "change between two conditions, or other texts of a column");
    list.value("--mdc", command->mdc, "N", "least change of one participant that is more than error of measurement");
    return [command](Console& console) { return run_summary(*command, console); };
}

}  // namespace jointrom::cli
