// Small exports of an invented lab in tests/data/exports, each with what must be read from it beside it (X.csv and
// X.csv.json). A field that is not in the JSON is not checked, except the findings, which must be exactly those.

#include <jointrom/core/failure.hpp>
#include <jointrom/table/table_reader.hpp>

#include <support/catch.hpp>
#include <support/reference_file.hpp>

#include <algorithm>
#include <cmath>
#include <set>

using namespace jointrom;
using nlohmann::json;

namespace {

TableOptions options_of(const json& wanted) {
    TableOptions options;
    const json given = wanted.value("options", json::object());
    const auto mark = [&](const char* key) -> std::optional<char> {
        return given.contains(key) ? std::optional(given[key].get<std::string>().front()) : std::nullopt;
    };
    options.delimiter = mark("delimiter");
    options.decimal_mark = mark("decimal");
    options.missing_values = given.value("missing", std::vector<double>());
    if (given.contains("trial")) {
        options.trial = given["trial"].get<std::size_t>();
    }
    if (given.contains("time")) {
        options.time_column = given["time"].get<std::string>();
    }
    return options;
}

std::string name_of_encoding(Encoding encoding) {
    switch (encoding) {
    case Encoding::utf8:
        return "utf-8";
    case Encoding::utf8_with_mark:
        return "utf-8-mark";
    case Encoding::utf16_little_endian:
        return "utf-16le";
    case Encoding::utf16_big_endian:
        return "utf-16be";
    case Encoding::windows_1252:
        break;
    }
    return "windows-1252";
}

template <typename T>
void check_field(const json& wanted, const char* key, const T& found) {
    if (wanted.contains(key)) {
        CAPTURE(key);
        CHECK(found == wanted[key].get<T>());
    }
}

void check_value(const json& wanted, double found) {
    if (wanted.is_null()) {
        CHECK(std::isnan(found));
    } else {
        // Decimal text read correctly rounded is the very double that JSON gives; times are sums.
        CHECK_THAT(found, WithinAbs(wanted.get<double>(), 1e-9));
    }
}

void check_column(const json& wanted, const Table& table, std::size_t c) {
    const TableColumn& column = table.columns[c];
    CHECK(table.description.headings[c] == wanted["heading"].get<std::string>());
    CHECK(table.description.units[c] == wanted.value("unit", ""));
    const std::string kind = wanted.value("kind", "number");
    CHECK(column.is_numeric == (kind != "text"));
    CHECK(column.is_time == (kind == "time"));
    check_field(wanted, "text", column.first_text);
    check_field(wanted, "missing", column.missing);
    CHECK(column.values.size() == (column.is_numeric ? table.description.rows : 0));
    const json values = wanted.value("values", json::array());
    for (std::size_t row = 0; row < std::min(values.size(), column.values.size()); ++row) {
        CAPTURE(row);
        check_value(values[row], column.values[row]);
    }
}

void check_columns(const json& wanted, const Table& table) {
    REQUIRE(table.columns.size() == wanted.size());
    REQUIRE(table.description.headings.size() == wanted.size());
    REQUIRE(table.description.units.size() == wanted.size());
    for (std::size_t c = 0; c < wanted.size(); ++c) {
        CAPTURE(c);
        check_column(wanted[c], table, c);
    }
}

void check_findings(const json& wanted, const Findings& findings) {
    std::multiset<std::string> codes;
    for (const Finding& finding : findings) {
        codes.emplace(finding.code());
        const json lines = wanted.value("finding_lines", json::object());
        if (lines.contains(finding.code())) {
            CHECK(finding.place.line == lines[std::string(finding.code())].get<std::size_t>());
        }
    }
    const auto list = wanted.value("findings", std::vector<std::string>());
    CHECK(codes == std::multiset<std::string>(list.begin(), list.end()));
}

void check_table(const json& wanted, const Table& table) {
    const TableDescription& description = table.description;
    check_field(wanted, "encoding", name_of_encoding(description.dialect.encoding));
    check_field(wanted, "delimiter", std::string(1, description.dialect.delimiter));
    check_field(wanted, "decimal", std::string(1, description.dialect.decimal_mark));
    check_field(wanted, "header_line", description.header_line);
    check_field(wanted, "units_line", description.units_line);
    check_field(wanted, "first_line", table.first_data_line);
    check_field(wanted, "rows", description.rows);
    check_field(wanted, "time", description.time_heading);
    check_field(wanted, "time_format", description.time_format);
    check_field(wanted, "trials", description.blocks.size());
    check_field(wanted, "trial_used", description.block_used + 1);
    check_field(wanted, "preamble", description.preamble.size());
    check_field(wanted, "footer", description.footer.size());
    check_field(wanted, "first_column", table.columns.front().number);
    const std::string grouping = wanted.value("grouping", "");
    CHECK(description.dialect.grouping_mark == (grouping.empty() ? 0 : grouping.front()));
    check_columns(wanted["columns"], table);
    const json lines = wanted.value("lines", json::object());
    for (const auto& [row, line] : lines.items()) {
        CHECK(table.line_of_row(std::stoul(row)) == line.get<std::size_t>());
    }
    const json last = wanted.value("last", json::object());
    for (const auto& [heading, value] : last.items()) {
        const auto at = std::ranges::find(description.headings, heading) - description.headings.begin();
        check_value(value, table.columns[static_cast<std::size_t>(at)].values.back());
    }
    check_findings(wanted, table.findings);
}

void check_failure(const json& wanted, const std::filesystem::path& path, const TableOptions& options) {
    try {
        static_cast<void>(read_table(path, options));
        FAIL_CHECK("was read, but should have been refused");
    } catch (const Failure& failure) {
        CAPTURE(failure.what());
        CHECK(failure.code() == wanted["code"].get<std::string>());
        CHECK(failure.place().file == path.string());
        check_field(wanted, "line", failure.place().line);
        check_field(wanted, "column", failure.place().column);
        CHECK_FALSE(failure.advice().empty());
    }
}

}  // namespace

TEST_CASE("exports of every kind are read as they are meant or refused", "[table][exports]") {
    std::size_t count = 0;
    for (const auto& entry : std::filesystem::directory_iterator(test::tests_path("data/exports"))) {
        std::filesystem::path path = entry.path();
        if (path.extension() != ".json") {
            continue;
        }
        const json wanted = test::reference_json("data/exports/" + path.filename().string());
        path.replace_extension();
        CAPTURE(path.filename().string());
        ++count;
        if (wanted.contains("failure")) {
            check_failure(wanted["failure"], path, options_of(wanted));
            continue;
        }
        try {
            check_table(wanted, read_table(path, options_of(wanted)));
        } catch (const Failure& failure) {
            FAIL_CHECK(failure.code() << " at " << failure.place().text() << ": " << failure.what());
        }
    }
    CHECK(count >= 35);
}
