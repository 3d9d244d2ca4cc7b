#include "report/overloaded.hpp"

#include <jointrom/core/number_text.hpp>
#include <jointrom/report/render.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace jointrom {
namespace {

/// Characters on screen: bytes that do not continue a UTF-8 sequence.
std::size_t width_of(std::string_view text) {
    return static_cast<std::size_t>(
        std::ranges::count_if(text, [](char c) { return (static_cast<unsigned char>(c) & 0xC0U) != 0x80U; }));
}

std::string number(double value, int decimals) {
    return std::isnan(value) ? "-" : fixed_text(value, decimals);
}

std::string cell_text(const Cell& cell, int decimals) {
    return std::visit(
        Overloaded{[](std::monostate) { return std::string("-"); },
                   [&](double value) { return number(value, decimals); },
                   [](const FixedNumber& fixed) { return number(fixed.value, fixed.decimals); },
                   [](std::int64_t value) { return std::to_string(value); },
                   [](bool value) { return std::string(value ? "yes" : "no"); },
                   [](const std::string& value) { return value; },
                   [&](const Measured& m) { return number(m.value, decimals) + " ± " + number(m.u95, decimals); }},
        cell);
}

std::string heading_of(const ColumnKind& column) {
    const std::string_view unit = column.unit();
    return unit.empty() ? std::string(column.heading) : fmt::format("{} ({})", column.heading, unit);
}

using TextRow = std::vector<std::string>;

std::vector<TextRow> text_rows(const ResultTable& table) {
    std::vector<TextRow> rows(1);
    for (const ColumnKind* column : table.columns()) {
        rows.front().push_back(heading_of(*column));
    }
    for (const std::vector<Cell>& row : table.rows()) {
        TextRow& texts = rows.emplace_back();
        for (std::size_t c = 0; c < row.size(); ++c) {
            texts.push_back(cell_text(row[c], table.columns()[c]->decimals));
        }
    }
    return rows;
}

/// A table whose cells are text, with what is needed to lay it out.
struct TextTable {
    std::vector<TextRow> rows;
    std::vector<std::size_t> widths;
    std::vector<bool> is_text;  ///< aligned to the left; numbers to the right
};

TextTable text_table(const ResultTable& table) {
    TextTable result{text_rows(table), std::vector<std::size_t>(table.columns().size(), 0), {}};
    for (const TextRow& row : result.rows) {
        for (std::size_t c = 0; c < row.size(); ++c) {
            result.widths[c] = std::max(result.widths[c], width_of(row[c]));
        }
    }
    for (std::size_t c = 0; c < table.columns().size(); ++c) {
        result.is_text.push_back(table.column_holds<std::string>(c));
    }
    return result;
}

/// Columns in parts that fit the width, each part behind the table's first column.
std::vector<std::vector<std::size_t>> parts_of(const TextTable& table, std::size_t width) {
    std::vector<std::vector<std::size_t>> parts{{}};
    std::size_t used = 0;
    for (std::size_t c = 0; c < table.widths.size(); ++c) {
        if (width != 0 && used + 2 + table.widths[c] > width && parts.back().size() > 1) {
            parts.push_back({0});
            used = 2 + table.widths[0];
        }
        parts.back().push_back(c);
        used += 2 + table.widths[c];
    }
    return parts;
}

std::string part_text(const TextTable& table, const std::vector<std::size_t>& columns) {
    std::string text;
    for (const TextRow& row : table.rows) {
        std::string line;
        for (const std::size_t c : columns) {
            const std::string padding(table.widths[c] - width_of(row[c]), ' ');
            line += "  " + (table.is_text[c] ? row[c] + padding : padding + row[c]);
        }
        text += line.substr(0, line.find_last_not_of(' ') + 1) + '\n';
    }
    return text;
}

std::string table_text(const ResultTable& table, std::size_t width) {
    const TextTable texts = text_table(table);
    std::string text;
    for (const std::vector<std::size_t>& part : parts_of(texts, width)) {
        text += (text.empty() ? "" : "\n") + part_text(texts, part);
    }
    return text;
}

std::string budget_text(const NamedBudget& named) {
    const auto& [name, budget, unit] = named;
    std::string text = fmt::format("\nUncertainty of {}\n", name);
    std::size_t width = 0;
    for (const BudgetLine& line : budget.lines()) {
        width = std::max(width, width_of(line.input));
    }
    for (const BudgetLine& line : budget.lines()) {
        const std::string padding(width - width_of(line.input), ' ');
        const std::string dof = line.degrees_of_freedom < 1e6 ? fixed_text(line.degrees_of_freedom, 0) : "inf";
        text +=
            fmt::format("  {}{}  u {:>9}  x {:>8}  = {:>7} {}   dof {}\n", line.input, padding, fixed_text(line.u, 5),
                        fixed_text(line.sensitivity, 2), fixed_text(line.contribution(), 4), unit, dof);
    }
    return text + fmt::format("  u = {} {}, k = {} (95 %), U = {} {}\n", fixed_text(budget.standard_uncertainty(), 3),
                              unit, fixed_text(budget.coverage_factor(), 2),
                              fixed_text(budget.expanded_uncertainty(), 2), unit);
}

}  // namespace

std::string text_report(const Report& report, bool explain, std::size_t width) {
    std::string text = report.title + "\n";
    for (const ResultTable& table : report.tables) {
        if (!table.rows().empty()) {
            text += "\n" + table_text(table, width);
        }
    }
    if (!report.remarks.empty()) {
        text += '\n';
    }
    for (const std::string& remark : report.remarks) {
        text += remark + '\n';
    }
    if (explain) {
        for (const NamedBudget& budget : report.budgets) {
            text += budget_text(budget);
        }
    }
    return text;
}

}  // namespace jointrom
