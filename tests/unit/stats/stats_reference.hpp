#pragma once

#include <support/catch.hpp>
#include <support/reference_file.hpp>

#include <jointrom/stats/two_way_anova.hpp>

#include <limits>
#include <vector>

namespace jointrom::test {

constexpr double missing = std::numeric_limits<double>::quiet_NaN();

/// A JSON array of rows.
inline ScoreTable score_table(const nlohmann::json& rows) {
    ScoreTable table{.columns = rows.front().size(), .values = {}};
    for (const auto& row : rows) {
        table.add_row(row.get<std::vector<double>>());
    }
    return table;
}

inline ScoreTable paired_table(const std::vector<double>& first, const std::vector<double>& second) {
    ScoreTable table{.columns = 2, .values = {}};
    for (std::size_t i = 0; i < first.size(); ++i) {
        table.values.push_back(first[i]);
        table.values.push_back(second[i]);
    }
    return table;
}

}  // namespace jointrom::test
