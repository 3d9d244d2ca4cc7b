#include "report/overloaded.hpp"

#include <jointrom/core/number_text.hpp>
#include <jointrom/report/render.hpp>

namespace jointrom {
namespace {

std::string plain_text(const Cell& cell, int decimals) {
    return std::visit(Overloaded{[](std::monostate) { return std::string(); },
                                 [&](double value) { return fixed_text(value, decimals); },
                                 [](const FixedNumber& number) { return fixed_text(number.value, number.decimals); },
                                 [](std::int64_t value) { return std::to_string(value); },
                                 [](bool value) { return std::string(value ? "true" : "false"); },
                                 [](const std::string& value) { return csv_text(value); },
                                 [&](const Measured& value) { return fixed_text(value.value, decimals); }},
                      cell);
}

/// The two cells that follow a value with uncertainty.
std::string uncertainty_text(const Cell& cell, int decimals) {
    const auto* const value = std::get_if<Measured>(&cell);
    return value == nullptr ? ",,"
                            : "," + fixed_text(value->u, decimals + 1) + "," + fixed_text(value->u95, decimals + 1);
}

std::string header_row(const ResultTable& table) {
    std::string text;
    for (std::size_t c = 0; c < table.columns().size(); ++c) {
        const ColumnKind& column = *table.columns()[c];
        text += (c > 0 ? "," : "") + csv_text(column.key);
        if (table.column_holds<Measured>(c)) {
            text += "," + column.key_with("u") + "," + column.key_with("u95");
        }
    }
    return text + '\n';
}

bool looks_like_formula(std::string_view text) {
    return !text.empty() && std::string_view("=+-@\t\r\n").find(text.front()) != std::string_view::npos;
}

}  // namespace

std::string csv_text(std::string_view text) {
    const bool formula = looks_like_formula(text);
    const bool needs_quotes = text.find_first_of(",\"\r\n") != std::string_view::npos;
    std::string result(formula ? "'" : "");
    for (const char c : text) {
        result += c;
        if (c == '"') {
            result += c;
        }
    }
    return needs_quotes ? '"' + result + '"' : result;
}

std::string_view original_text(std::string_view cell) {
    return cell.starts_with('\'') && looks_like_formula(cell.substr(1)) ? cell.substr(1) : cell;
}

std::string csv_report(const Report& report) {
    const ResultTable& table = report.tables.front();
    std::string text = header_row(table);
    for (const std::vector<Cell>& row : table.rows()) {
        for (std::size_t c = 0; c < row.size(); ++c) {
            const int decimals = table.columns()[c]->decimals;
            text += (c > 0 ? "," : "") + plain_text(row[c], decimals);
            if (table.column_holds<Measured>(c)) {
                text += uncertainty_text(row[c], decimals);
            }
        }
        text += '\n';
    }
    return text;
}

}  // namespace jointrom
