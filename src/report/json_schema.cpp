#include "report/table_list.hpp"

#include <jointrom/analysis/settings.hpp>
#include <jointrom/core/failure.hpp>
#include <jointrom/core/near_miss.hpp>
#include <jointrom/report/column_catalogue.hpp>
#include <jointrom/report/json_schema.hpp>
#include <jointrom/simulate/simulation_settings.hpp>

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include <algorithm>
#include <array>

namespace jointrom {

namespace embedded {
extern const std::string_view calibration_schema;
extern const std::string_view manifest_schema;
extern const std::string_view norm_table_schema;
extern const std::string_view answers_schema;
extern const std::string_view key_schema;
extern const std::string_view truth_schema;
}  // namespace embedded

namespace {

using Json = nlohmann::ordered_json;

constexpr std::string_view draft = "https://json-schema.org/draft/2020-12/schema";

/// Schemas that stand in data/schemas.
struct WrittenSchema {
    std::string_view name, form, about;
    const std::string_view& text;
};

const auto written_schemas = std::to_array<WrittenSchema>(
    {{"answers", "row", "a student's answer, as grade reads it", embedded::answers_schema},
     {"calibration", "JSON", "a calibration, as calibrate --save writes it", embedded::calibration_schema},
     {"key", "row", "a name and its code, as batch --pseudonymise writes it", embedded::key_schema},
     {"manifest", "row", "a recording of a class, as batch reads it", embedded::manifest_schema},
     {"norm-table", "row", "reference values of one's own, as --norms reads them", embedded::norm_table_schema},
     {"truth", "JSON", "the truth of a recording, as simulate writes it", embedded::truth_schema}});

Json object_schema(Json properties, Json required) {
    return {{"type", "object"},
            {"additionalProperties", false},
            {"required", std::move(required)},
            {"properties", std::move(properties)}};
}

Json type_or_null(const char* type) {
    return Json::array({type, "null"});
}

Json described(Json schema, const std::string& text) {
    schema["description"] = text;
    return schema;
}

std::string meaning(const ColumnKind& kind) {
    return kind.unit().empty() ? std::string(kind.meaning) : fmt::format("{} Unit: {}.", kind.meaning, kind.unit());
}

/// What a key means that is in the catalogue, or goes with one that is.
std::string meaning_of(std::string_view key) {
    for (const ColumnKind& kind : column_catalogue()) {
        if (kind.key == key) {
            return meaning(kind);
        }
        if (kind.key_with("u") == key) {
            return fmt::format("Standard uncertainty of {}.", kind.key);
        }
    }
    return std::string(column_kind(key).meaning);  // throws: every column must be known
}

/// One word of TableKind::columns.
struct ColumnWord {
    std::string key;
    char holds;  ///< '$', '#', '?', '~' or 'n'
    bool may_be_absent;
};

std::vector<ColumnWord> words_of(std::string_view columns) {
    std::vector<ColumnWord> words;
    bool may_be_absent = false;
    while (!columns.empty()) {
        const std::size_t end = std::min(columns.find(' '), columns.size());
        std::string key(columns.substr(0, end));
        columns.remove_prefix(std::min(end + 1, columns.size()));
        if (key == "|") {
            may_be_absent = true;
            continue;
        }
        const char last = key.back();
        const bool is_marked = std::string_view("$#?~").find(last) != std::string_view::npos;
        if (is_marked) {
            key.pop_back();
        }
        words.push_back({std::move(key), is_marked ? last : 'n', may_be_absent});
    }
    return words;
}

Json cell_schema(char holds) {
    switch (holds) {
    case '$':
        return {{"type", type_or_null("string")}};
    case '#':
        return {{"type", type_or_null("integer")}};
    case '?':
        return {{"type", type_or_null("boolean")}};
    case '~':
        return {{"anyOf", {{{"$ref", "#/$defs/measured"}}, {{"type", type_or_null("number")}}}}};
    default:
        return {{"type", type_or_null("number")}};
    }
}

/// \param is_file whether a value with uncertainty takes three columns
Json row_schema(std::string_view columns, bool is_file) {
    Json properties = Json::object();
    Json required = Json::array();
    Json row = object_schema(Json::object(), Json::array());
    const auto add = [&](const std::string& key, char holds, bool may_be_absent, const std::string& text) {
        properties[key] = described(cell_schema(holds), text);
        if (!may_be_absent) {
            required.push_back(key);
        }
    };
    for (const ColumnWord& word : words_of(columns)) {
        if (word.key == "*") {
            row["additionalProperties"] = described(cell_schema('$'), "What the rows are grouped by.");
            continue;
        }
        const bool is_split = word.holds == '~' && is_file;
        add(word.key, is_split ? 'n' : word.holds, word.may_be_absent, meaning_of(word.key));
        if (is_split) {
            const ColumnKind& kind = column_kind(word.key);
            add(kind.key_with("u"), 'n', word.may_be_absent, fmt::format("Standard uncertainty of {}.", kind.key));
            add(kind.key_with("u95"), 'n', word.may_be_absent,
                fmt::format("Expanded uncertainty of {}, 95 %.", kind.key));
        }
    }
    row["required"] = std::move(required);
    row["properties"] = std::move(properties);
    return row;
}

void add_series(std::string_view columns, Json& properties) {
    properties["start_s"] = {{"type", "number"}, {"description", "Time of the first sample. Unit: s."}};
    properties["rate_hz"] = {{"type", "number"}, {"description", "Samples per second. Unit: Hz."}};
    for (const ColumnWord& word : words_of(columns)) {
        properties[word.key] =
            described({{"type", "array"}, {"items", cell_schema(word.holds)}}, meaning_of(word.key) + " One a sample.");
    }
}

Json number_or_null() {
    return {{"type", type_or_null("number")}};
}

Json text() {
    return {{"type", "string"}};
}

Json measured_definition() {
    return described(object_schema({{"value", number_or_null()},
                                    {"u", described(number_or_null(), "Standard uncertainty, in the value's unit.")},
                                    {"u95", described(number_or_null(), "Expanded uncertainty for 95 % coverage.")}},
                                   {"value", "u", "u95"}),
                     "A value with its uncertainty.");
}

Json budget_definition() {
    Json line = object_schema({{"input", text()},
                               {"u", number_or_null()},
                               {"sensitivity", number_or_null()},
                               {"contribution", number_or_null()},
                               {"degrees_of_freedom", described(number_or_null(), "null: infinite.")}},
                              {"input", "u", "sensitivity", "contribution", "degrees_of_freedom"});
    return described(object_schema({{"unit", text()},
                                    {"lines", {{"type", "array"}, {"items", std::move(line)}}},
                                    {"u", number_or_null()},
                                    {"effective_degrees_of_freedom", described(number_or_null(), "null: infinite.")},
                                    {"coverage_factor", number_or_null()},
                                    {"u95", number_or_null()}},
                                   {"unit", "lines", "u", "effective_degrees_of_freedom", "coverage_factor", "u95"}),
                     "How an uncertainty is made up.");
}

Json inputs_schema() {
    Json file = object_schema({{"name", text()},
                               {"sha256", {{"type", type_or_null("string")}, {"pattern", "^[0-9a-f]{64}$"}}},
                               {"rows", {{"type", "integer"}, {"minimum", 0}}}},
                              {"name", "sha256", "rows"});
    return {{"type", "array"}, {"items", std::move(file)}};
}

Json findings_schema() {
    Json finding = object_schema({{"code", described(text(), "Explained in docs/findings.md; never changes.")},
                                  {"severity", {{"enum", {"note", "warning", "error"}}}},
                                  {"text", text()},
                                  {"place", described(text(), "FILE:LINE:COLUMN, or empty.")},
                                  {"advice", text()}},
                                 {"code", "severity", "text", "place", "advice"});
    return {{"type", "array"}, {"items", std::move(finding)}};
}

Json result_schema(std::string_view report) {
    Json properties = Json::object();
    Json required = Json::array();
    for (const TableKind& kind : table_catalogue()) {
        if (kind.report != report) {
            continue;
        }
        if (kind.shape == TableShape::series) {
            add_series(kind.columns, properties);
            continue;
        }
        properties[std::string(kind.table)] = {{"type", "array"}, {"items", row_schema(kind.columns, false)}};
        if (kind.shape == TableShape::rows) {
            required.push_back(kind.table);
        }
    }
    properties["budgets"] = {{"type", "object"}, {"additionalProperties", {{"$ref", "#/$defs/budget"}}}};
    return object_schema(std::move(properties), std::move(required));
}

Json head(std::string_view name, const std::string& title) {
    return {{"$schema", draft}, {"$id", fmt::format("urn:jointrom:schema:{}:1", name)}, {"title", title}};
}

Json report_schema(std::string_view report) {
    Json tool = object_schema({{"name", {{"const", "jointrom"}}}, {"version", text()}}, {"name", "version"});
    Json setting = {{"type", {"string", "number", "boolean", "null"}}};
    Json root = head(report, fmt::format("Result of jointrom {} --format json", report));
    root.update(
        object_schema({{"schema", {{"const", fmt::format("jointrom-{}/1", report)}}},
                       {"tool", std::move(tool)},
                       {"inputs", inputs_schema()},
                       {"settings", described({{"type", "object"}, {"additionalProperties", std::move(setting)}},
                                              "All that were in force; null was left to the program.")},
                       {"result", result_schema(report)},
                       {"findings", findings_schema()}},
                      {"schema", "tool", "inputs", "settings", "result", "findings"}));
    root["$defs"] = {{"measured", measured_definition()}, {"budget", budget_definition()}};
    return root;
}

Json file_schema(const TableKind& kind) {
    Json root = head(kind.report, fmt::format("A row: {}", kind.table));
    root.update(row_schema(kind.columns, true));
    return root;
}

Json setting_schema(const SettingKind& kind) {
    if (kind.value.empty()) {
        return {{"type", type_or_null("boolean")}};
    }
    Json one = {"string", "number", "null"};
    if (!kind.repeatable) {
        return {{"type", std::move(one)}};
    }
    Json list = {{"type", "array"}, {"items", {{"type", {"string", "number"}}}}};
    return {{"anyOf", {{{"type", std::move(one)}}, std::move(list)}}};
}

Json settings_schema() {
    Json properties = Json::object();
    for (const SettingKind& kind : setting_catalogue()) {
        properties[kind.key()] = described(setting_schema(kind), std::string(kind.help));
    }
    Json root = head("settings", "Settings, as --settings reads them; null leaves one to the program");
    root.update(object_schema(std::move(properties), Json::array()));
    return root;
}

/// A session for simulate: settings for all of its recordings, and of each.
Json preset_schema() {
    const Json one = {{"type", {"string", "number", "boolean"}}};
    const Json list = {{"type", "array"}, {"items", {{"type", {"string", "number", "array"}}}}};
    Json properties = Json::object();
    for (const SimulationSetting& setting : simulation_settings()) {
        Json value = setting.value.empty() ? Json{{"type", "boolean"}} : Json{{"anyOf", {one, list}}};
        properties[setting.key()] = described(std::move(value), std::string(setting.help));
    }
    const Json recording = object_schema(properties, Json::array());
    properties["recordings"] = {{"type", "array"}, {"minItems", 1}, {"items", recording}};
    Json root = head("preset", "A session, as simulate reads it");
    root.update(object_schema(std::move(properties), Json::array()));
    return root;
}

/// A manifest may have a column for every setting.
Json manifest_schema() {
    Json root = Json::parse(embedded::manifest_schema);
    for (const SettingKind& kind : setting_catalogue()) {
        if (!root["properties"].contains(kind.key())) {
            root["properties"][kind.key()] = described(text(), std::string(kind.help));
        }
    }
    return root;
}

Json find_schema(std::string_view name) {
    if (name == "settings") {
        return settings_schema();
    }
    if (name == "preset") {
        return preset_schema();
    }
    if (name == "manifest") {
        return manifest_schema();
    }
    for (const WrittenSchema& written : written_schemas) {
        if (written.name == name) {
            return Json::parse(written.text);
        }
    }
    const auto kind = std::ranges::find(table_catalogue(), name, &TableKind::report);
    if (kind == table_catalogue().end()) {
        return nullptr;
    }
    return kind->shape == TableShape::file ? file_schema(*kind) : report_schema(name);
}

}  // namespace

std::vector<SchemaKind> schema_catalogue() {
    std::vector<SchemaKind> kinds{{"settings", "JSON", "settings, as --settings reads them"},
                                  {"preset", "JSON", "a session, as simulate reads it"}};
    for (const WrittenSchema& written : written_schemas) {
        kinds.push_back({std::string(written.name), std::string(written.form), std::string(written.about)});
    }
    for (const TableKind& kind : table_catalogue()) {
        const std::string name(kind.report);
        if (std::ranges::find(kinds, name, &SchemaKind::name) != kinds.end()) {
            continue;
        }
        kinds.push_back(kind.shape == TableShape::file
                            ? SchemaKind{name, "row", std::string(kind.table)}
                            : SchemaKind{name, "JSON", fmt::format("result of {} --format json", name)});
    }
    std::ranges::sort(kinds, {}, &SchemaKind::name);
    return kinds;
}

std::string json_schema(std::string_view name) {
    const Json schema = find_schema(name);
    if (!schema.is_null()) {
        return schema.dump(2) + "\n";
    }
    const auto kinds = schema_catalogue();
    std::vector<std::string_view> names;
    for (const SchemaKind& kind : kinds) {
        names.push_back(kind.name);
    }
    const auto near = nearest(name, names);
    throw Failure(FailureKind::usage, "schema-unknown", fmt::format("there is no schema '{}'", name),
                  near ? fmt::format("Did you mean '{}'?", *near) : "`jointrom schema` lists them.");
}

}  // namespace jointrom
