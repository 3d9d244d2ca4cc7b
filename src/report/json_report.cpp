#include "report/json_envelope.hpp"
#include "report/overloaded.hpp"

#include <jointrom/core/number_text.hpp>
#include <jointrom/core/version.hpp>
#include <jointrom/report/render.hpp>

#include <cmath>

namespace jointrom {
namespace {

using Json = nlohmann::ordered_json;

Json cell_json(const Cell& cell, int decimals) {
    return std::visit(Overloaded{[](std::monostate) { return Json(nullptr); },
                                 [&](double value) { return json_number(value, decimals); },
                                 [](const FixedNumber& number) { return json_number(number.value, number.decimals); },
                                 [&](const Measured& m) {
                                     return Json{{"value", json_number(m.value, decimals)},
                                                 {"u", json_number(m.u, decimals + 1)},
                                                 {"u95", json_number(m.u95, decimals + 1)}};
                                 },
                                 [](const auto& value) { return Json(value); }},
                      cell);
}

Json table_json(const ResultTable& table) {
    Json rows = Json::array();
    for (const std::vector<Cell>& row : table.rows()) {
        Json object = Json::object();
        for (std::size_t c = 0; c < row.size(); ++c) {
            const ColumnKind& column = *table.columns()[c];
            object[std::string(column.key)] = cell_json(row[c], column.decimals);
        }
        rows.push_back(std::move(object));
    }
    return rows;
}

Json budget_json(const NamedBudget& named) {
    const Budget& budget = named.budget;
    Json lines = Json::array();
    for (const BudgetLine& line : budget.lines()) {
        lines.push_back({{"input", line.input},
                         {"u", json_number(line.u, 6)},
                         {"sensitivity", json_number(line.sensitivity, 6)},
                         {"contribution", json_number(line.contribution(), 6)},
                         {"degrees_of_freedom", json_number(line.degrees_of_freedom, 3)}});
    }
    return {{"unit", named.unit},
            {"lines", lines},
            {"u", json_number(budget.standard_uncertainty(), 6)},
            {"effective_degrees_of_freedom", json_number(budget.effective_degrees_of_freedom(), 3)},
            {"coverage_factor", json_number(budget.coverage_factor(), 6)},
            {"u95", json_number(budget.expanded_uncertainty(), 6)}};
}

/// A setting as the type that it looks like; null when it was left to the program.
Json setting_json(const std::string& text) {
    if (text.empty()) {
        return nullptr;
    }
    if (text == "true" || text == "false") {
        return text == "true";
    }
    const auto as_number = parse_number(text);
    return as_number ? Json(*as_number) : Json(text);
}

Json findings_json(const Findings& findings) {
    Json list = Json::array();
    for (const Finding& finding : findings) {
        list.push_back({{"code", finding.code()},
                        {"severity", name_of(finding.severity())},
                        {"text", finding.text},
                        {"place", finding.place.text()},
                        {"advice", finding.kind->advice}});
    }
    return list;
}

Json inputs_json(const std::vector<InputFile>& inputs) {
    Json list = Json::array();
    for (const InputFile& input : inputs) {
        list.push_back({{"name", input.name},
                        {"sha256", input.sha256.empty() ? Json(nullptr) : Json(input.sha256)},
                        {"rows", input.rows}});
    }
    return list;
}

}  // namespace

Json json_number(double value, int decimals) {
    const auto rounded = std::isfinite(value) ? parse_number(fixed_text(value, decimals)) : std::nullopt;
    return rounded ? Json(*rounded) : Json(nullptr);
}

Json json_envelope(const Report& report) {
    Json root;
    root["schema"] = report.schema + "/1";
    root["tool"] = {{"name", "jointrom"}, {"version", version()}};
    root["inputs"] = inputs_json(report.inputs);
    root["settings"] = Json::object();
    for (const auto& [name, text] : report.settings) {
        root["settings"][name] = setting_json(text);
    }
    root["result"] = Json::object();
    for (const ResultTable& table : report.tables) {
        root["result"][table.name()] = table_json(table);
    }
    for (const NamedBudget& budget : report.budgets) {
        root["result"]["budgets"][budget.name] = budget_json(budget);
    }
    root["findings"] = findings_json(report.findings);
    return root;
}

std::string json_text(const Json& root) {
    return root.dump(2, ' ', false, Json::error_handler_t::replace) + "\n";
}

std::string json_report(const Report& report) {
    return json_text(json_envelope(report));
}

}  // namespace jointrom
