#include <jointrom/batch/class_columns.hpp>
#include <jointrom/batch/class_statistics.hpp>
#include <jointrom/batch/class_summary.hpp>
#include <jointrom/batch/level_comparison.hpp>
#include <jointrom/batch/summary_tables.hpp>
#include <jointrom/report/table_rows.hpp>

#include <algorithm>
#include <optional>
#include <sstream>

namespace jointrom {

std::string measured_trials_csv(std::span<const TrialRow> rows) {
    std::string text = csv_header(trial_columns());
    for (const TrialRow& row : rows) {
        if (row.done) {
            append_csv_cells(trial_columns(), trial_cells(row), text);
            text += '\n';
        }
    }
    return text;
}

TrialTable trial_table(std::span<const TrialRow> rows, std::vector<std::string> numbers) {
    std::istringstream trials(measured_trials_csv(rows));
    const std::string from_stream = "-";
    TrialTable result;
    result.table = read_long_table({&from_stream, 1}, trials, [&](const std::vector<std::string>& headings) {
        result.by = group_columns(headings, std::nullopt);
        LongTableRequest request{result.by, numbers.empty() ? value_columns(headings, {}) : numbers};
        request.texts.insert(request.texts.end(), {"participant", "sex", "age_years"});
        return request;
    });
    result.by = filled_columns(result.table, result.by);
    result.participant = result.table.find_text("participant")->named() > 0 ? "participant" : "";
    return result;
}

ClassStatistics class_statistics(std::span<const TrialRow> rows) {
    ClassStatistics result;
    if (std::ranges::none_of(rows, &TrialRow::done)) {
        return result;
    }
    const auto [table, by, participant] = trial_table(rows);
    const ClassSummary summary = class_summary(table, {.by = by, .participant = participant});
    result.findings = summary.findings;
    result.groups = group_table(summary, table, by);
    result.outliers = outlier_table(summary, table, by);
    const TextColumn* const side = table.find_text("side");
    if (!participant.empty() && side != nullptr && side->named() == 2) {
        const ComparisonOptions options{.by = by,
                                        .participant = participant,
                                        .column = "side",
                                        .first = "left",
                                        .second = "right",
                                        .with_independent = false};
        const Comparisons sides = compare_levels(table, options);
        result.findings.insert(result.findings.end(), sides.findings.begin(), sides.findings.end());
        result.sides = comparison_table("sides", sides, table, options);
    }
    return result;
}

}  // namespace jointrom
