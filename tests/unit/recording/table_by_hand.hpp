#pragma once

/// \file
/// Tables made by hand, as the table reader would give them.

#include <jointrom/table/table_reader.hpp>

#include <cmath>
#include <string>
#include <utility>
#include <vector>

namespace jointrom::test {

struct HandColumn {
    std::string heading;  ///< empty: the column has none
    std::string unit;
    std::vector<double> values;
};

inline Table table_by_hand(std::vector<HandColumn> columns) {
    Table table;
    for (HandColumn& column : columns) {
        const std::size_t number = table.columns.size() + 1;
        table.description.headings.push_back(column.heading.empty() ? "column " + std::to_string(number)
                                                                    : column.heading);
        table.description.units.push_back(column.unit);
        TableColumn made;
        made.number = number;
        made.is_numeric = true;
        for (const double value : column.values) {
            made.missing += std::isnan(value) ? 1U : 0U;
        }
        made.values = std::move(column.values);
        table.description.rows = made.values.size();
        table.columns.push_back(std::move(made));
    }
    table.first_data_line = 2;
    return table;
}

/// count values f(0), f(1), ...
template <typename Function>
std::vector<double> series(std::size_t count, Function f) {
    std::vector<double> values;
    for (std::size_t i = 0; i < count; ++i) {
        values.push_back(f(static_cast<double>(i)));
    }
    return values;
}

}  // namespace jointrom::test
