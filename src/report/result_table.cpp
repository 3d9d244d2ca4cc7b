#include <jointrom/report/result_table.hpp>

#include <algorithm>
#include <cassert>
#include <utility>

namespace jointrom {

Measured measured(double value, const Budget& budget) {
    return {value, budget.standard_uncertainty(), budget.expanded_uncertainty()};
}

Cell count_cell(std::size_t count) {
    return static_cast<std::int64_t>(count);
}

/// A column with a name of its own, which does not move.
struct ResultTable::NamedColumn {
    explicit NamedColumn(std::string given) : name(std::move(given)), kind{name, 0, name, ""} {}

    std::string name;
    ColumnKind kind;
};

ResultTable::ResultTable(std::string name, std::initializer_list<std::string_view> columns)
    : ResultTable(std::move(name), std::vector<std::string_view>(columns)) {}

ResultTable::ResultTable(std::string name, const std::vector<std::string_view>& columns)
    : ResultTable(std::move(name), std::span<const std::string>(), columns) {}

ResultTable::ResultTable(std::string name, std::span<const std::string> named_by_data,
                         const std::vector<std::string_view>& columns)
    : name_(std::move(name)) {
    for (const std::string& heading : named_by_data) {
        const bool taken = std::ranges::find(columns, std::string_view(heading)) != columns.end();
        named_by_data_.push_back(std::make_shared<const NamedColumn>(taken ? "group_" + heading : heading));
        columns_.push_back(&named_by_data_.back()->kind);
    }
    for (const std::string_view key : columns) {
        columns_.push_back(&column_kind(key));
    }
}

void ResultTable::add_row(std::vector<Cell> cells) {
    assert(cells.size() == columns_.size());
    rows_.push_back(std::move(cells));
}

}  // namespace jointrom
