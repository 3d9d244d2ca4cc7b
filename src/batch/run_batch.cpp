#include "batch/ordered_work.hpp"

#include <jointrom/batch/class_checks.hpp>
#include <jointrom/batch/class_statistics.hpp>
#include <jointrom/batch/run_batch.hpp>
#include <jointrom/report/render.hpp>

#include <fmt/format.h>

#include <set>

namespace jointrom {
namespace {

enum Table : std::size_t { trials, repetitions, phases, activity, findings, table_count };

constexpr std::array<std::string_view, table_count> csv_names = {"trials.csv", "repetitions.csv", "phases.csv",
                                                                 "activity.csv", "findings.csv"};
constexpr std::array<std::string_view, table_count> json_names = {
    "trials.ndjson", "repetitions.ndjson", "phases.ndjson", "activity.ndjson", "findings.ndjson"};

/// What one recording adds to each table, as CSV and as NDJSON.
struct Pieces {
    TrialRow row;
    std::vector<std::string> finding_codes;
    std::array<std::string, table_count> csv, ndjson;
    bool taken_over = false;
};

std::vector<RowColumn> with_subject(std::span<const RowColumn> columns) {
    std::vector<RowColumn> all(subject_columns().begin(), subject_columns().end());
    all.insert(all.end(), columns.begin(), columns.end());
    return all;
}

std::array<std::string, table_count> headers() {
    return {csv_header(trial_columns()), csv_header(with_subject(repetition_columns())),
            csv_header(with_subject(phase_columns())), csv_header(with_subject(activity_columns())),
            csv_header(with_subject(finding_columns()))};
}

class Rendering {
  public:
    Rendering(const TrialSubject& subject, bool ndjson) : ndjson_(ndjson) {
        const std::vector<Cell> cells = subject_cells(subject);
        append_csv_cells(subject_columns(), cells, csv_subject_);
        if (ndjson_) {
            append_json_cells(subject_columns(), cells, json_subject_);
        }
    }

    void add_rows(std::span<const RowColumn> columns, std::span<const std::vector<Cell>> rows, Table table,
                  Pieces& pieces) const {
        for (const std::vector<Cell>& row : rows) {
            pieces.csv[table] += csv_subject_ + ',';
            append_csv_cells(columns, row, pieces.csv[table]);
            pieces.csv[table] += '\n';
            if (ndjson_) {
                pieces.ndjson[table] += '{' + json_subject_ + ',';
                append_json_cells(columns, row, pieces.ndjson[table]);
                pieces.ndjson[table] += "}\n";
            }
        }
    }

    void add_trial(Pieces& pieces) const {
        const std::vector<Cell> cells = trial_cells(pieces.row);
        append_csv_cells(trial_columns(), cells, pieces.csv[trials]);
        pieces.csv[trials] += '\n';
        if (ndjson_) {
            pieces.ndjson[trials] = "{";
            append_json_cells(trial_columns(), cells, pieces.ndjson[trials]);
            pieces.ndjson[trials] += "}\n";
        }
    }

  private:
    bool ndjson_;
    std::string csv_subject_, json_subject_;
};

Pieces pieces_of(const BatchPlan& plan, const EarlierResults& earlier, const TrialTask& task, bool ndjson) {
    std::optional<TrialOutcome> known = earlier.find(task);
    const bool taken_over = known.has_value();
    TrialOutcome outcome = taken_over ? std::move(*known) : measure_trial(plan, task);
    Pieces pieces;
    pieces.taken_over = taken_over;
    pieces.row = std::move(outcome.row);
    const Rendering rendering(pieces.row.subject, ndjson);
    rendering.add_trial(pieces);
    rendering.add_rows(repetition_columns(), outcome.repetitions, repetitions, pieces);
    rendering.add_rows(phase_columns(), outcome.phases, phases, pieces);
    rendering.add_rows(activity_columns(), outcome.activity, activity, pieces);
    rendering.add_rows(finding_columns(), outcome.findings, findings, pieces);
    for (const std::vector<Cell>& row : outcome.findings) {
        pieces.finding_codes.push_back(std::get<std::string>(row[1]));
    }
    return pieces;
}

void write(const std::optional<ResultTable>& table, std::string_view name, ResultsFolder& folder) {
    if (table) {
        Report report;
        report.tables = {*table};
        folder.append(name, csv_report(report));
    }
}

/// \return what the statistics have to say
Findings write_class_summary(std::span<const TrialRow> rows, ResultsFolder& folder) {
    const ClassStatistics statistics = class_statistics(rows);
    write(statistics.groups, "summary.csv", folder);
    write(statistics.outliers, "summary_outliers.csv", folder);
    write(statistics.sides, "summary_sides.csv", folder);
    return statistics.findings;
}

void write_class_findings(const Findings& class_findings, ResultsFolder& folder) {
    static const std::vector<RowColumn> columns = row_columns({"severity", "code", "text"});
    std::string text = csv_header(columns);
    for (const Finding& finding : class_findings) {
        const std::vector<Cell> cells{std::string(name_of(finding.severity())), std::string(finding.code()),
                                      finding.text};
        append_csv_cells(columns, cells, text);
        text += '\n';
    }
    folder.append("class_findings.csv", text);
}

}  // namespace

BatchResult run_batch(const BatchPlan& plan, const EarlierResults& earlier, ResultsFolder& folder,
                      const BatchOptions& options, const std::atomic<bool>& stop) {
    BatchResult result;
    result.rows.reserve(plan.tasks.size());
    const auto head = headers();
    for (std::size_t table = 0; table < table_count; ++table) {
        folder.append(csv_names[table], head[table]);
        if (options.ndjson) {
            folder.append(json_names[table], "");
        }
    }
    const auto work = [&](std::size_t i) { return pieces_of(plan, earlier, plan.tasks[i], options.ndjson); };
    const auto deliver = [&](std::size_t, Pieces&& pieces) {
        for (std::size_t table = 0; table < table_count; ++table) {
            folder.append(csv_names[table], pieces.csv[table]);
            if (options.ndjson) {
                folder.append(json_names[table], pieces.ndjson[table]);
            }
        }
        for (const std::string& code : std::set(pieces.finding_codes.begin(), pieces.finding_codes.end())) {
            ++result.finding_counts[code];
        }
        result.failed += pieces.row.done ? 0 : 1;
        result.taken_over += pieces.taken_over ? 1 : 0;
        result.rows.push_back(std::move(pieces.row));
        if (options.progress) {
            options.progress({result.rows.size(), result.failed, plan.tasks.size()});
        }
    };
    (void)OrderedWork<Pieces, decltype(work), decltype(deliver)>(plan.tasks.size(), work, deliver, stop)
        .run(options.threads);
    result.findings = plan.findings;
    for (Finding& finding : class_findings(result.rows, plan.tasks)) {
        result.findings.push_back(std::move(finding));
    }
    for (Finding& finding : write_class_summary(result.rows, folder)) {
        result.findings.push_back(std::move(finding));
    }
    write_class_findings(result.findings, folder);
    return result;
}

Report batch_report(const BatchPlan& plan, const BatchResult& result, const InputFile& source) {
    Report report;
    report.schema = "jointrom-batch";
    report.title = fmt::format("{} of {} recordings measured", result.rows.size() - result.failed, plan.tasks.size());
    const bool hides_names = !plan.hidden.empty();
    if (!hides_names) {
        report.inputs = {source};
    }
    for (const SettingKind& kind : setting_catalogue()) {
        std::string text = kind.text(plan.settings);
        if (hides_names && !text.empty()) {
            text = kind.value == "FILE" ? "withheld" : without_names(text, plan.hidden);
        }
        report.settings.emplace_back(kind.key(), std::move(text));
    }
    ResultTable counts("recordings", {"quantity", "count"});
    const auto add = [&](const char* quantity, std::size_t count) {
        counts.add_row({std::string(quantity), count_cell(count)});
    };
    add("in the class", plan.class_size);
    add("in this part", plan.tasks.size());
    add("done", result.rows.size() - result.failed);
    add("failed", result.failed);
    add("not reached", plan.tasks.size() - result.rows.size());
    ResultTable failed("failed", {"id", "file", "code", "reason"});
    for (const TrialRow& row : result.rows) {
        if (!row.done) {
            failed.add_row({row.subject.id, row.subject.file, row.code, row.reason});
        }
    }
    ResultTable by_code("findings", {"code", "severity", "count"});
    for (const auto& [code, count] : result.finding_counts) {
        by_code.add_row({code, std::string(name_of(finding_kind(code).severity)), count_cell(count)});
    }
    report.tables = {counts, failed, by_code};
    report.findings = result.findings;
    return report;
}

}  // namespace jointrom
