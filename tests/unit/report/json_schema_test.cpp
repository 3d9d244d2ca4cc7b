#include "report/table_list.hpp"

#include <jointrom/analysis/settings.hpp>
#include <jointrom/core/failure.hpp>
#include <jointrom/norms/norm_table.hpp>
#include <jointrom/report/json_schema.hpp>

#include <support/catch.hpp>

#include <nlohmann/json.hpp>

#include <algorithm>
#include <set>

using namespace jointrom;

namespace {

nlohmann::json schema_of(std::string_view name) {
    return nlohmann::json::parse(json_schema(name));
}

}  // namespace

TEST_CASE("every schema that is listed can be had, names itself and describes its properties",
          "[report][json_schema]") {
    std::set<std::string> names;
    for (const SchemaKind& kind : schema_catalogue()) {
        CAPTURE(kind.name);
        CHECK(names.insert(kind.name).second);
        const auto schema = schema_of(kind.name);
        CHECK(schema["$id"] == "urn:jointrom:schema:" + kind.name + ":1");
        CHECK(schema["type"] == "object");
        CHECK_FALSE(schema["properties"].empty());
        if (kind.form == "row") {
            for (const auto& [key, property] : schema["properties"].items()) {
                CAPTURE(key);
                CHECK(property["description"].get<std::string>().size() > 5);
            }
        }
    }
    CHECK(std::ranges::is_sorted(schema_catalogue(), {}, &SchemaKind::name));
}

TEST_CASE("an unknown schema is refused with the nearest name", "[report][json_schema]") {
    try {
        (void)json_schema("calibratoin");
        FAIL("nothing was thrown");
    } catch (const Failure& failure) {
        CHECK(failure.code() == "schema-unknown");
        CHECK_THAT(failure.advice(), ContainsSubstring("'calibration'"));
    }
}

TEST_CASE("a value with uncertainty is an object in JSON and three columns in a file", "[report][json_schema]") {
    const auto report = schema_of("range");
    const auto& row = report["properties"]["result"]["properties"]["range"]["items"];
    CHECK(row["properties"]["extent_deg"]["anyOf"][0]["$ref"] == "#/$defs/measured");
    CHECK(row["properties"]["at_edge"]["type"][0] == "boolean");
    CHECK(row["properties"]["count"]["type"][0] == "integer");
    CHECK(row["required"].size() == row["properties"].size());
    const auto file = schema_of("batch-trials");
    for (const char* key : {"arc_deg", "arc_u_deg", "arc_u95_deg"}) {
        CHECK(file["properties"][key]["type"][0] == "number");
    }
}

TEST_CASE("schemas of settings and manifests know every setting, that of norm tables every column",
          "[report][json_schema]") {
    const auto settings = schema_of("settings")["properties"];
    const auto manifest = schema_of("manifest")["properties"];
    CHECK(settings.size() == setting_catalogue().size());
    for (const SettingKind& kind : setting_catalogue()) {
        CAPTURE(kind.key());
        CHECK(settings.contains(kind.key()));
        CHECK(manifest.contains(kind.key()));
    }
    const auto norms = schema_of("norm-table")["properties"];
    CHECK(norms.size() == norm_table_columns().size());
    for (const std::string_view column : norm_table_columns()) {
        CHECK(norms.contains(std::string(column)));
    }
}
