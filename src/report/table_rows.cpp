#include "report/overloaded.hpp"

#include <jointrom/core/number_text.hpp>
#include <jointrom/report/render.hpp>
#include <jointrom/report/table_rows.hpp>

#include <nlohmann/json.hpp>

#include <cassert>
#include <cmath>

namespace jointrom {
namespace {

void append_csv_cell(const RowColumn& column, const Cell& cell, std::string& text) {
    const int decimals = column.kind->decimals;
    std::visit(Overloaded{[](std::monostate) {}, [&](double value) { text += fixed_text(value, decimals); },
                          [&](const FixedNumber& number) { text += fixed_text(number.value, number.decimals); },
                          [&](std::int64_t value) { text += std::to_string(value); },
                          [&](bool value) { text += value ? "true" : "false"; },
                          [&](const std::string& value) { text += csv_text(value); },
                          [&](const Measured& value) { text += fixed_text(value.value, decimals); }},
               cell);
    if (column.measured) {
        const auto* const value = std::get_if<Measured>(&cell);
        text += ',';
        text += value == nullptr ? std::string() : fixed_text(value->u, decimals + 1);
        text += ',';
        text += value == nullptr ? std::string() : fixed_text(value->u95, decimals + 1);
    }
}

std::string json_text_of(const std::string& text) {
    return nlohmann::json(text).dump(-1, ' ', false, nlohmann::json::error_handler_t::replace);
}

std::string json_number_text(double value, int decimals) {
    return std::isfinite(value) ? fixed_text(value, decimals) : "null";
}

std::string json_value(const Cell& cell, int decimals) {
    return std::visit(
        Overloaded{[](std::monostate) { return std::string("null"); },
                   [&](double value) { return json_number_text(value, decimals); },
                   [](const FixedNumber& number) { return json_number_text(number.value, number.decimals); },
                   [](std::int64_t value) { return std::to_string(value); },
                   [](bool value) { return std::string(value ? "true" : "false"); },
                   [](const std::string& value) { return value.empty() ? "null" : json_text_of(value); },
                   [&](const Measured& m) { return json_number_text(m.value, decimals); }},
        cell);
}

void append_pair(std::string_view name, const std::string& value, std::string& text) {
    text += '"';
    text += name;
    text += "\":";
    text += value;
}

}  // namespace

std::vector<RowColumn> row_columns(std::initializer_list<std::string_view> keys) {
    std::vector<RowColumn> columns;
    for (std::string_view key : keys) {
        const bool measured = key.ends_with('~');
        key.remove_suffix(measured ? 1 : 0);
        columns.push_back({&column_kind(key), measured});
    }
    return columns;
}

std::vector<std::string> column_names(std::span<const RowColumn> columns) {
    std::vector<std::string> names;
    for (const RowColumn& column : columns) {
        names.emplace_back(column.kind->key);
        if (column.measured) {
            names.push_back(column.kind->key_with("u"));
            names.push_back(column.kind->key_with("u95"));
        }
    }
    return names;
}

std::string csv_header(std::span<const RowColumn> columns) {
    std::string text;
    for (const std::string& name : column_names(columns)) {
        text += (text.empty() ? "" : ",") + csv_text(name);
    }
    return text + '\n';
}

void append_csv_cells(std::span<const RowColumn> columns, std::span<const Cell> cells, std::string& text) {
    assert(columns.size() == cells.size());
    for (std::size_t c = 0; c < cells.size(); ++c) {
        text += c > 0 ? "," : "";
        append_csv_cell(columns[c], cells[c], text);
    }
}

void append_json_cells(std::span<const RowColumn> columns, std::span<const Cell> cells, std::string& text) {
    assert(columns.size() == cells.size());
    for (std::size_t c = 0; c < cells.size(); ++c) {
        text += c > 0 ? "," : "";
        const ColumnKind& kind = *columns[c].kind;
        append_pair(kind.key, json_value(cells[c], kind.decimals), text);
        if (columns[c].measured) {
            const auto* const m = std::get_if<Measured>(&cells[c]);
            text += ',';
            append_pair(kind.key_with("u"), m == nullptr ? "null" : json_number_text(m->u, kind.decimals + 1), text);
            text += ',';
            append_pair(kind.key_with("u95"), m == nullptr ? "null" : json_number_text(m->u95, kind.decimals + 1),
                        text);
        }
    }
}

}  // namespace jointrom
