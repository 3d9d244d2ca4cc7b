#include <jointrom/batch/answer_sheet.hpp>
#include <jointrom/core/failure.hpp>
#include <jointrom/core/number_text.hpp>

#include <algorithm>
#include <array>

namespace jointrom {
namespace {

std::string cell(const RecordReader& table, std::optional<std::size_t> column) {
    return column ? std::string(table.text(*column)) : std::string();
}

/// Columns that say what a row is about, and numbers that are no measurement.
constexpr auto descriptive = std::to_array<std::string_view>({"age_years", "findings", "load_kg", "trial"});

bool is_quantity(std::string_view column) {
    constexpr auto endings =
        std::to_array<std::string_view>({"_deg", "_deg_s", "_s", "_nm", "_w", "_j", "_n", "_pct", "_mv", "_hz"});
    return std::ranges::find(descriptive, column) == descriptive.end() &&
           (column == "repetitions" ||
            std::ranges::any_of(endings, [&](std::string_view ending) { return column.ends_with(ending); }));
}

}  // namespace

std::vector<Answer> read_answers(RecordReader& table) {
    const std::size_t participant = table.column("participant");
    const std::size_t quantity = table.column("quantity");
    const std::size_t value = table.column("value");
    const auto side = table.find_column("side");
    const auto joint = table.find_column("joint");
    const auto motion = table.find_column("motion");
    const auto trial = table.find_column("trial");
    const auto unit = table.find_column("unit");
    std::vector<Answer> answers;
    while (table.next()) {
        answers.push_back({.participant = std::string(table.text(participant)),
                           .side = cell(table, side),
                           .joint = cell(table, joint),
                           .motion = cell(table, motion),
                           .trial = cell(table, trial),
                           .quantity = std::string(table.text(quantity)),
                           .text = std::string(table.text(value)),
                           .unit = cell(table, unit),
                           .place = table.place(value)});
    }
    if (answers.empty()) {
        throw Failure(FailureKind::unreadable_data, "answers-empty", "the answer sheet holds no answers",
                      "Write one row for each reading: participant, quantity, value.", table.place(0));
    }
    return answers;
}

std::vector<ComputedTrial> read_computed(RecordReader& table) {
    const std::size_t participant = table.column("participant");
    const auto find = [&](std::string_view name) { return table.find_column(name); };
    const auto status = find("status");
    const auto side = find("side");
    const auto trial = find("trial");
    const auto joint = find("joint");
    const auto motion = find("motion");
    const auto positive = find("positive_direction");
    const auto negative = find("negative_direction");
    std::vector<ComputedTrial> rows;
    while (table.next()) {
        const std::string state = cell(table, status);
        if (!state.empty() && state != "done") {
            continue;
        }
        ComputedTrial row{.participant = std::string(table.text(participant)),
                          .side = cell(table, side),
                          .trial = cell(table, trial),
                          .joint = cell(table, joint),
                          .motion = cell(table, motion),
                          .positive_direction = cell(table, positive),
                          .negative_direction = cell(table, negative),
                          .values = {}};
        for (std::size_t c = 0; c < table.columns().size(); ++c) {
            const std::string& name = table.columns()[c];
            if (!is_quantity(name)) {
                continue;
            }
            if (const auto value = parse_number(table.text(c))) {
                row.values.emplace(name, *value);
            }
        }
        rows.push_back(std::move(row));
    }
    if (rows.empty()) {
        throw Failure(FailureKind::unreadable_data, "results-empty", "the results hold no trial that is done",
                      "Give the trials.csv that `batch` wrote.", table.place(0));
    }
    return rows;
}

}  // namespace jointrom
