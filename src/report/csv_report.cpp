#include "table/formula_guard.hpp"

#include <jointrom/report/render.hpp>
#include <jointrom/report/table_rows.hpp>

#include <algorithm>
#include <vector>

namespace jointrom {

std::string csv_text(std::string_view text) {
    const bool formula = looks_like_formula(text);
    const bool needs_quotes =
        std::ranges::any_of(text, [](char c) { return c == ',' || c == '"' || c == '\r' || c == '\n'; });
    if (!formula && !needs_quotes) {
        return std::string(text);
    }
    std::string result(formula ? "'" : "");
    for (const char c : text) {
        result += c;
        if (c == '"') {
            result += c;
        }
    }
    return needs_quotes ? '"' + result + '"' : result;
}

std::string csv_report(const Report& report) {
    const ResultTable& table = report.tables.front();
    std::vector<RowColumn> columns;
    for (std::size_t c = 0; c < table.columns().size(); ++c) {
        columns.push_back({table.columns()[c], table.column_holds<Measured>(c)});
    }
    std::string text = csv_header(columns);
    for (const std::vector<Cell>& row : table.rows()) {
        append_csv_cells(columns, row, text);
        text += '\n';
    }
    return text;
}

}  // namespace jointrom
