#include <jointrom/report/result_table.hpp>

#include <cassert>
#include <utility>

namespace jointrom {

Measured measured(double value, const Budget& budget) {
    return {value, budget.standard_uncertainty(), budget.expanded_uncertainty()};
}

Cell count_cell(std::size_t count) {
    return static_cast<std::int64_t>(count);
}

ResultTable::ResultTable(std::string name, std::initializer_list<std::string_view> columns)
    : ResultTable(std::move(name), std::vector<std::string_view>(columns)) {}

ResultTable::ResultTable(std::string name, const std::vector<std::string_view>& columns) : name_(std::move(name)) {
    for (const std::string_view key : columns) {
        columns_.push_back(&column_kind(key));
    }
}

void ResultTable::add_row(std::vector<Cell> cells) {
    assert(cells.size() == columns_.size());
    rows_.push_back(std::move(cells));
}

}  // namespace jointrom
