#include "stated_columns.hpp"

#include "time_unit.hpp"

#include <jointrom/core/failure.hpp>
#include <jointrom/core/near_miss.hpp>
#include <jointrom/recording/column_name.hpp>
#include <jointrom/table/heading.hpp>

#include <fmt/format.h>

namespace jointrom {
namespace {

std::size_t column_of_numbers(const Table& table, const std::string& name, std::string_view option) {
    const std::size_t index = find_column(table, name, option);
    const TableColumn& column = table.columns[index];
    const Place place{.file = {}, .line = table.first_data_line, .column = column.number};
    if (!column.is_numeric) {
        throw Failure(FailureKind::usage, "column-text",
                      fmt::format("{}: '{}' holds text (\"{}\"), not numbers", option, column_name(table, index),
                                  column.first_text),
                      "Name a column of numbers; `inspect` lists them.", place);
    }
    if (column.missing == column.values.size()) {
        throw Failure(FailureKind::unreadable_data, "column-empty",
                      fmt::format("{}: '{}' has no values", option, column_name(table, index)),
                      "Name another column; `inspect` lists them.", place);
    }
    return index;
}

/// Each name for one column, each column for one thing.
void refuse_twice(const Table& table, const StatedRoles& stated, const ReadingOptions& options) {
    const auto refuse = [&](std::size_t column, const std::string& reason) {
        throw Failure(FailureKind::usage, "emg-twice", "--emg: " + reason,
                      "Give every muscle a name and a column of its own; `inspect` lists the columns.",
                      {.file = {}, .line = table.first_data_line, .column = table.columns[column].number});
    };
    for (std::size_t i = 0; i < stated.emg.size(); ++i) {
        const std::string& name = options.emg_columns[i].name;
        if (stated.angle == stated.emg[i] || stated.time == stated.emg[i]) {
            refuse(stated.emg[i],
                   fmt::format("'{}' is stated to hold the {} and the muscle '{}'", column_name(table, stated.emg[i]),
                               stated.angle == stated.emg[i] ? "angle" : "time", name));
        }
        for (std::size_t k = 0; k < i; ++k) {
            const std::string& other = options.emg_columns[k].name;
            if (stated.emg[k] == stated.emg[i]) {
                refuse(stated.emg[i], fmt::format("'{}' has two names, '{}' and '{}'",
                                                  column_name(table, stated.emg[i]), other, name));
            }
            if (edit_distance(other, name) == 0) {
                refuse(stated.emg[i], fmt::format("two columns are called '{}'", name));
            }
        }
    }
}

/// Columns of times by their content, heading or unit are no muscles, unless another column is stated to hold the
/// times.
void refuse_times(const Table& table, const StatedRoles& stated, const ReadingOptions& options) {
    for (std::size_t i = 0; i < stated.emg.size() && !stated.time; ++i) {
        const std::size_t column = stated.emg[i];
        const std::string& unit = table.description.units[column];
        if (table.columns[column].is_time || table.time_column == column || time_unit_named(unit) ||
            (unit.empty() && names_time(column_name(table, column)))) {
            throw Failure(FailureKind::usage, "emg-time",
                          fmt::format("--emg: '{}' holds the times and cannot be the muscle '{}'",
                                      column_name(table, column), options.emg_columns[i].name),
                          "Name the muscle's own column; `inspect` lists the columns.",
                          {.file = {}, .line = table.first_data_line, .column = table.columns[column].number});
        }
    }
}

}  // namespace

StatedRoles stated_roles(const Table& table, const ReadingOptions& options) {
    StatedRoles stated;
    if (!options.time_column.empty()) {
        stated.time = column_of_numbers(table, options.time_column, "--time");
    }
    if (!options.angle_column.empty()) {
        stated.angle = column_of_numbers(table, options.angle_column, "--angle");
    }
    for (const auto& [name, column] : options.emg_columns) {
        stated.emg.push_back(column_of_numbers(table, column, "--emg"));
    }
    refuse_twice(table, stated, options);
    refuse_times(table, stated, options);
    return stated;
}

}  // namespace jointrom
