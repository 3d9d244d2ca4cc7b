#include <jointrom/batch/outcome_tables.hpp>

#include <jointrom/core/number_text.hpp>
#include <jointrom/report/render.hpp>
#include <jointrom/table/record_reader.hpp>

#include <algorithm>
#include <array>
#include <limits>

namespace jointrom {
namespace {

constexpr char cell_end = '\x1F';
constexpr char row_end = '\x1E';
constexpr double none = std::numeric_limits<double>::quiet_NaN();

/// Columns whose cells are texts even where they look like numbers.
constexpr auto text_columns = std::to_array<std::string_view>({"id",
                                                               "file",
                                                               "participant",
                                                               "side",
                                                               "joint",
                                                               "motion",
                                                               "condition",
                                                               "trial",
                                                               "rater",
                                                               "sex",
                                                               "status",
                                                               "code",
                                                               "reason",
                                                               "positive_direction",
                                                               "negative_direction",
                                                               "reading_unit",
                                                               "reading_direction",
                                                               "input_sha256",
                                                               "settings_sha256",
                                                               "version",
                                                               "phase",
                                                               "direction",
                                                               "severity",
                                                               "muscle",
                                                               "contraction",
                                                               "activity_unit",
                                                               "text"});

double number_of(std::string_view text) {
    return parse_number(text).value_or(none);
}

/// Takes the cells of a row one after another.
class CellsOfRow {
  public:
    explicit CellsOfRow(std::string_view text) : rest_(text) {}

    std::string_view next() {
        const std::size_t end = std::min(rest_.find(cell_end), rest_.size());
        const std::string_view cell = rest_.substr(0, end);
        rest_.remove_prefix(std::min(end + 1, rest_.size()));
        return cell;
    }

    Cell next(const RowColumn& column) {
        const std::string_view text = next();
        if (column.measured) {
            const std::string_view u = next(), u95 = next();
            return text.empty() ? Cell() : Cell(Measured{number_of(text), number_of(u), number_of(u95)});
        }
        if (std::ranges::find(text_columns, column.kind->key) != text_columns.end()) {
            return std::string(text);
        }
        return text.empty() ? Cell() : Cell(number_of(text));
    }

  private:
    std::string_view rest_;
};

std::vector<std::vector<Cell>> rows_of(std::string_view text, std::span<const RowColumn> columns) {
    std::vector<std::vector<Cell>> rows;
    while (!text.empty()) {
        const std::size_t end = std::min(text.find(row_end), text.size());
        CellsOfRow cells(text.substr(0, end));
        std::vector<Cell>& row = rows.emplace_back();
        for (const RowColumn& column : columns) {
            row.push_back(cells.next(column));
        }
        text.remove_prefix(std::min(end + 1, text.size()));
    }
    return rows;
}

/// Cells of trials.csv by the name of their column.
class NamedCells {
  public:
    explicit NamedCells(std::string_view text) {
        CellsOfRow cells(text);
        for (const std::string& name : column_names(trial_columns())) {
            cells_.emplace(name, cells.next());
        }
    }
    [[nodiscard]] std::string text(const char* name) const { return std::string(cells_.at(name)); }
    [[nodiscard]] double number(const std::string& name) const { return number_of(cells_.at(name)); }
    [[nodiscard]] Measured measured(const std::string& stem) const {
        return {number(stem + "_deg"), number(stem + "_u_deg"), number(stem + "_u95_deg")};
    }
    [[nodiscard]] std::size_t count(const std::string& name) const {
        const double value = number(name);
        return value >= 0.0 ? static_cast<std::size_t>(value) : 0;
    }

  private:
    std::unordered_map<std::string, std::string_view> cells_;
};

TrialSubject subject_in(const NamedCells& cells) {
    return {.id = cells.text("id"),
            .file = cells.text("file"),
            .participant = cells.text("participant"),
            .side = cells.text("side"),
            .joint = cells.text("joint"),
            .motion = cells.text("motion"),
            .condition = cells.text("condition"),
            .trial = cells.text("trial"),
            .rater = cells.text("rater"),
            .age_years = cells.number("age_years"),
            .sex = cells.text("sex"),
            .load_kg = cells.number("load_kg")};
}

TrialRow trial_row(const NamedCells& cells) {
    TrialRow row;
    row.subject = subject_in(cells);
    row.done = cells.text("status") == "done";
    row.code = cells.text("code");
    row.reason = cells.text("reason");
    row.positive_direction = cells.text("positive_direction");
    row.negative_direction = cells.text("negative_direction");
    row.positive = cells.measured("positive");
    row.negative = cells.measured("negative");
    row.arc = cells.measured("arc");
    row.repetitions = cells.count("repetitions");
    row.mean_arc_deg = cells.number("mean_arc_deg");
    row.mean_arc_sd_deg = cells.number("mean_arc_sd_deg");
    row.peak_velocity_deg_s = cells.number("peak_velocity_deg_s");
    row.findings = cells.count("findings");
    row.reading_unit = cells.text("reading_unit");
    row.reading_direction = cells.text("reading_direction");
    row.input_sha256 = cells.text("input_sha256");
    row.settings_sha256 = cells.text("settings_sha256");
    return row;
}

}  // namespace

OutcomeTables::OutcomeTables(const std::filesystem::path& folder) {
    read(folder / "trials.csv", trial_columns(), &Rows::trial);
    read(folder / "repetitions.csv", repetition_columns(), &Rows::repetitions);
    read(folder / "phases.csv", phase_columns(), &Rows::phases);
    read(folder / "activity.csv", activity_columns(), &Rows::activity);
    read(folder / "findings.csv", finding_columns(), &Rows::findings);
}

void OutcomeTables::read(const std::filesystem::path& file, std::span<const RowColumn> columns,
                         std::string Rows::*rows) {
    RecordReader reader(file);
    const std::size_t id = reader.column("id");
    std::vector<std::size_t> wanted;
    for (const std::string& name : column_names(columns)) {
        wanted.push_back(reader.column(name));
    }
    while (reader.next()) {
        const std::string key(reader.text(id));
        if (rows == &Rows::trial && rows_.try_emplace(key).second) {
            ids_.push_back(key);
        }
        const auto known = rows_.find(key);
        if (known == rows_.end()) {
            continue;  // of a recording that the table of trials does not have
        }
        std::string& text = known->second.*rows;
        for (const std::size_t column : wanted) {
            text += reader.text(column);
            text += cell_end;
        }
        text += row_end;
    }
}

std::string OutcomeTables::version(const std::string& id) const {
    return NamedCells(rows_.at(id).trial).text("version");
}

TrialRow OutcomeTables::row(const std::string& id) const {
    return trial_row(NamedCells(rows_.at(id).trial));
}

TrialOutcome OutcomeTables::outcome(const std::string& id) const {
    const Rows& rows = rows_.at(id);
    return {.row = row(id),
            .repetitions = rows_of(rows.repetitions, repetition_columns()),
            .phases = rows_of(rows.phases, phase_columns()),
            .activity = rows_of(rows.activity, activity_columns()),
            .findings = rows_of(rows.findings, finding_columns())};
}

}  // namespace jointrom
