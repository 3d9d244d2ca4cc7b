#include <jointrom/batch/trial_row.hpp>
#include <jointrom/core/version.hpp>

#include <cmath>

namespace jointrom {
namespace {

Cell measured_cell(const Measured& value) {
    return std::isnan(value.value) ? Cell() : Cell(value);
}

}  // namespace

std::span<const RowColumn> subject_columns() {
    static const std::vector<RowColumn> columns =
        row_columns({"id", "file", "participant", "side", "joint", "motion", "condition", "trial", "rater"});
    return columns;
}

std::vector<Cell> subject_cells(const TrialSubject& s) {
    return {s.id, s.file, s.participant, s.side, s.joint, s.motion, s.condition, s.trial, s.rater};
}

std::span<const RowColumn> trial_columns() {
    static const std::vector<RowColumn> columns = row_columns({"id",
                                                               "file",
                                                               "participant",
                                                               "side",
                                                               "joint",
                                                               "motion",
                                                               "condition",
                                                               "trial",
                                                               "rater",
                                                               "age_years",
                                                               "sex",
                                                               "load_kg",
                                                               "status",
                                                               "code",
                                                               "reason",
                                                               "positive_direction",
                                                               "positive_deg~",
                                                               "negative_direction",
                                                               "negative_deg~",
                                                               "arc_deg~",
                                                               "repetitions",
                                                               "mean_arc_deg",
                                                               "mean_arc_sd_deg",
                                                               "peak_velocity_deg_s",
                                                               "findings",
                                                               "reading_unit",
                                                               "reading_direction",
                                                               "input_sha256",
                                                               "settings_sha256",
                                                               "version"});
    return columns;
}

std::vector<Cell> trial_cells(const TrialRow& row) {
    std::vector<Cell> cells = subject_cells(row.subject);
    cells.reserve(trial_columns().size());
    const Cell repetitions = row.done ? count_cell(row.repetitions) : Cell();
    for (Cell& cell : std::vector<Cell>{row.subject.age_years,
                                        row.subject.sex,
                                        row.subject.load_kg,
                                        std::string(row.done ? "done" : "failed"),
                                        row.code,
                                        row.reason,
                                        row.positive_direction,
                                        measured_cell(row.positive),
                                        row.negative_direction,
                                        measured_cell(row.negative),
                                        measured_cell(row.arc),
                                        repetitions,
                                        row.mean_arc_deg,
                                        row.mean_arc_sd_deg,
                                        row.peak_velocity_deg_s,
                                        count_cell(row.findings),
                                        row.reading_unit,
                                        row.reading_direction,
                                        row.input_sha256,
                                        row.settings_sha256,
                                        std::string(version())}) {
        cells.push_back(std::move(cell));
    }
    return cells;
}

}  // namespace jointrom
