#include "batch/class_tables.hpp"

#include <jointrom/batch/class_columns.hpp>
#include <jointrom/batch/class_summary.hpp>
#include <jointrom/batch/level_comparison.hpp>
#include <jointrom/batch/summary_tables.hpp>
#include <jointrom/report/render.hpp>

#include <algorithm>
#include <optional>
#include <sstream>

namespace jointrom {
namespace {

/// Rows of the recordings that were measured, as they stand in trials.csv.
std::string trials_text(std::span<const TrialRow> rows) {
    std::string text = csv_header(trial_columns());
    for (const TrialRow& row : rows) {
        if (row.done) {
            append_csv_cells(trial_columns(), trial_cells(row), text);
            text += '\n';
        }
    }
    return text;
}

void write(const ResultTable& table, std::string_view name, ResultsFolder& folder) {
    Report report;
    report.tables = {table};
    folder.append(name, csv_report(report));
}

void take(Findings& all, const Findings& some) {
    all.insert(all.end(), some.begin(), some.end());
}

}  // namespace

Findings write_class_summary(std::span<const TrialRow> rows, ResultsFolder& folder) {
    if (std::ranges::none_of(rows, &TrialRow::done)) {
        return {};
    }
    std::istringstream trials(trials_text(rows));
    const std::string from_stream = "-";
    std::vector<std::string> by;
    const LongTable table = read_long_table({&from_stream, 1}, trials, [&](const std::vector<std::string>& headings) {
        by = group_columns(headings, std::nullopt);
        LongTableRequest request{by, value_columns(headings, {})};
        request.texts.emplace_back("participant");
        return request;
    });
    by = filled_columns(table, by);
    const TextColumn* const people = table.find_text("participant");
    const std::string participant = people != nullptr && people->named() > 0 ? "participant" : "";
    const ClassSummary summary = class_summary(table, {.by = by, .participant = participant});
    Findings findings = summary.findings;
    write(group_table(summary, table, by), "summary.csv", folder);
    write(outlier_table(summary, table, by), "summary_outliers.csv", folder);
    const TextColumn* const side = table.find_text("side");
    if (!participant.empty() && side != nullptr && side->named() == 2) {
        const ComparisonOptions options{.by = by,
                                        .participant = participant,
                                        .column = "side",
                                        .first = "left",
                                        .second = "right",
                                        .with_independent = false};
        const Comparisons sides = compare_levels(table, options);
        take(findings, sides.findings);
        write(comparison_table("sides", sides, table, options), "summary_sides.csv", folder);
    }
    return findings;
}

}  // namespace jointrom
