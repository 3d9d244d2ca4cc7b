#include <jointrom/report/page_parts.hpp>

#include "report/overloaded.hpp"

#include <jointrom/core/number_text.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <optional>

namespace jointrom {
namespace {

/// Enough for reading: the full number of decimals stands in CSV and JSON.
int decimals_of(const ColumnKind& column) {
    const std::string_view unit = column.unit();
    return unit.starts_with("deg") ? std::min(column.decimals, 1)
           : unit == "s"           ? std::min(column.decimals, 2)
                                   : column.decimals;
}

std::string unit_of(const ColumnKind& column) {
    const std::string_view unit = column.unit();
    return unit.starts_with("deg") ? "°" + std::string(unit.substr(3)) : std::string(unit);
}

bool is_missing(const Cell& cell) {
    return std::visit(Overloaded{[](std::monostate) { return true; }, [](double value) { return std::isnan(value); },
                                 [](const FixedNumber& number) { return std::isnan(number.value); },
                                 [](const Measured& measured) { return std::isnan(measured.value); },
                                 [](const std::string& text) { return text.empty(); }, [](auto) { return false; }},
                      cell);
}

std::string text_of(const Cell& cell, int decimals) {
    return std::visit(Overloaded{[](std::monostate) { return std::string(); },
                                 [&](double value) { return fixed_text(value, decimals); },
                                 [](const FixedNumber& number) { return fixed_text(number.value, number.decimals); },
                                 [](std::int64_t value) { return std::to_string(value); },
                                 [](bool value) { return std::string(value ? "yes" : "no"); },
                                 [](const std::string& text) { return text; },
                                 [&](const Measured& m) {
                                     const std::string value = fixed_text(m.value, decimals);
                                     return std::isnan(m.u95) ? value : value + " ± " + fixed_text(m.u95, decimals);
                                 }},
                      cell);
}

/// What rows are ordered by; nothing for a text, which is ordered by its letters.
std::optional<double> number_in(const Cell& cell) {
    return std::visit(Overloaded{[](double value) { return std::optional(value); },
                                 [](const FixedNumber& number) { return std::optional(number.value); },
                                 [](std::int64_t value) { return std::optional(static_cast<double>(value)); },
                                 [](const Measured& measured) { return std::optional(measured.value); },
                                 [](const auto&) { return std::optional<double>(); }},
                      cell);
}

/// Whether no text in the column is too long for one line.
bool is_short(const ResultTable& table, std::size_t column) {
    constexpr std::size_t most_letters = 20;
    return std::ranges::all_of(table.rows(), [&](const std::vector<Cell>& row) {
        const auto* const text = std::get_if<std::string>(&row[column]);
        return text == nullptr || text->size() <= most_letters;
    });
}

class TableWriter {
  public:
    TableWriter(const ResultTable& table, const TableStyle& style) : table_(table), style_(style) {
        for (std::size_t c = 0; c < table.columns().size(); ++c) {
            is_text_.push_back(table.column_holds<std::string>(c) || table.column_holds<bool>(c));
            classes_.push_back(!is_text_[c] ? "number" : is_short(table, c) ? "short" : "text");
        }
    }

    [[nodiscard]] Markup markup() const {
        Markup content = element("thead", element("tr", headings()));
        const std::size_t shown = std::min(table_.rows().size(), style_.most_rows);
        Markup rows;
        for (std::size_t r = 0; r < shown; ++r) {
            rows += element("tr", row(r));
        }
        content += element("tbody", rows);
        std::vector<Attribute> attributes;
        if (style_.sortable) {
            attributes.push_back({"class", "sortable"});
        }
        Markup result = style_.caption.empty() ? Markup() : element("figcaption", style_.caption);
        result += element("div",
                          {{"class", "scroll"},
                           {"tabindex", "0"},
                           {"role", "region"},
                           {"aria-label", style_.caption.empty() ? table_.name() : style_.caption}},
                          element("table", attributes, content));
        if (shown < table_.rows().size()) {
            result +=
                element("p", {{"class", "soft"}}, fmt::format("The first {} of {} rows.", shown, table_.rows().size()));
        }
        return element("figure", {{"class", "table"}}, result);
    }

  private:
    [[nodiscard]] Markup headings() const {
        Markup cells;
        for (std::size_t c = 0; c < is_text_.size(); ++c) {
            const ColumnKind& column = *table_.columns()[c];
            Markup content = heading_of(column);
            if (const std::string unit = unit_of(column); !unit.empty()) {
                content += " " + element("span", {{"class", "unit"}}, unit);
            }
            cells += element("th", {{"scope", "col"}, {"class", classes_[c]}, {"title", std::string(column.meaning)}},
                             content);
        }
        return cells;
    }

    [[nodiscard]] std::string heading_of(const ColumnKind& column) const {
        const auto own =
            std::ranges::find(style_.headings, column.key, &std::pair<std::string_view, std::string>::first);
        return own == style_.headings.end() ? std::string(column.heading) : own->second;
    }

    [[nodiscard]] Markup row(std::size_t r) const {
        Markup cells;
        for (std::size_t c = 0; c < is_text_.size(); ++c) {
            const Cell& cell = table_.rows()[r][c];
            const bool missing = is_missing(cell);
            Markup content = missing ? "–" : text_of(cell, decimals_of(*table_.columns()[c]));
            if (c == 0 && style_.link) {
                content = element("a", {{"href", style_.link(r)}}, content);
            }
            std::vector<Attribute> attributes{{"class", classes_[c] + (missing ? " missing" : "")}};
            if (const auto number = number_in(cell); number && !missing && style_.sortable) {
                attributes.push_back({"data-value", shortest_text(*number)});
            }
            if (c == 0) {
                attributes.push_back({"scope", "row"});
            }
            cells += element(c == 0 ? "th" : "td", attributes, content);
        }
        return cells;
    }

    const ResultTable& table_;
    const TableStyle& style_;
    std::vector<bool> is_text_;
    std::vector<std::string> classes_;
};

}  // namespace

Markup table_markup(const ResultTable& table, const TableStyle& style) {
    return table.rows().empty() ? Markup() : TableWriter(table, style).markup();
}

ResultTable with_columns(const ResultTable& table, std::initializer_list<std::string_view> keys) {
    std::vector<std::size_t> places;
    std::vector<std::string_view> kept;
    for (const std::string_view key : keys) {
        const auto column = std::ranges::find(table.columns(), key, &ColumnKind::key);
        const auto place = static_cast<std::size_t>(column - table.columns().begin());
        const auto is_filled = [&](const std::vector<Cell>& row) { return !is_missing(row[place]); };
        if (column != table.columns().end() && std::ranges::any_of(table.rows(), is_filled)) {
            places.push_back(place);
            kept.push_back(key);
        }
    }
    ResultTable result(table.name(), kept);
    for (const std::vector<Cell>& row : table.rows()) {
        std::vector<Cell> cells;
        for (const std::size_t place : places) {
            cells.push_back(row[place]);
        }
        result.add_row(std::move(cells));
    }
    return result;
}

}  // namespace jointrom
