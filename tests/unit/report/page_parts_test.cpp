#include <jointrom/report/page.hpp>
#include <jointrom/report/page_parts.hpp>

#include <support/catch.hpp>

#include <limits>

using namespace jointrom;

namespace {

constexpr double missing = std::numeric_limits<double>::quiet_NaN();

ResultTable example() {
    ResultTable table("ranges", {"participant", "arc_deg", "peak_velocity_deg_s", "count", "at_edge", "condition"});
    table.add_row({std::string("<b>"), Measured{141.26, 1.23, 2.47}, 250.04, count_cell(5), true, std::string()});
    table.add_row({std::string("=1+1"), Measured{141.0, missing, missing}, missing, Cell(), false, Cell()});
    return table;
}

std::size_t count_of(std::string_view part, std::string_view text) {
    std::size_t count = 0;
    for (std::size_t at = text.find(part); at != std::string_view::npos; at = text.find(part, at + 1)) {
        ++count;
    }
    return count;
}

}  // namespace

TEST_CASE("what comes from data is text in a page, in attributes too", "[report][markup]") {
    CHECK(Markup("<script>'\"&").source() == "&lt;script&gt;&#39;&quot;&amp;");
    CHECK(Markup(std::string("a\0b\xFF", 4)).source() == "a\uFFFDb\uFFFD");
    CHECK(element("a", {{"href", "\"><script>"}}, "x").source() == "<a href=\"&quot;&gt;&lt;script&gt;\">x</a>");
    CHECK(element("p", element("b", "1 < 2") + " & more").source() == "<p><b>1 &lt; 2</b> &amp; more</p>\n");
    const std::string page = page_text({"<title>", "\"", "</style></script>"});
    CHECK_THAT(page, ContainsSubstring("<title>&lt;title&gt;</title>"));
    CHECK(count_of("</style>", page) == 1);
    CHECK(count_of("</script>", page) == 1);
}

TEST_CASE("sentences have the degree sign for the unit and nowhere else", "[report][page_parts]") {
    CHECK(with_degree_signs("-5 to 146 deg fits; 4 deg") == "-5 to 146° fits; 4°");
    CHECK(with_degree_signs("250 deg/s, 3 degrees, in deg, deg 5") == "250°/s, 3 degrees, in deg, deg 5");
    CHECK(with_degree_signs("").empty());
    CHECK(angle_text(Measured{145.66, 1.6, 3.24}) == "145.7 ± 3.2°");
    CHECK(angle_text(Measured{145.66, missing, missing}) == "145.7°");
    CHECK(angle_text(missing) == "–");
}

TEST_CASE("a table for reading has units once, a dash for what is missing and what it is sorted by",
          "[report][page_table]") {
    const std::string plain = table_markup(example()).source();
    CHECK_THAT(plain, ContainsSubstring("&lt;b&gt;"));
    CHECK_THAT(plain, ContainsSubstring(">141.3 ± 2.5<"));
    CHECK_THAT(plain, ContainsSubstring(">141.0<"));
    CHECK_THAT(plain, ContainsSubstring("<span class=\"unit\">°/s</span>"));
    CHECK_THAT(plain, ContainsSubstring("<td class=\"number missing\">–</td>"));
    CHECK_THAT(plain, ContainsSubstring(">yes<"));
    CHECK_THAT(plain, !ContainsSubstring("data-value"));
    const std::string sortable =
        table_markup(
            example(),
            {.caption = "All", .sortable = true, .link = [](std::size_t row) { return "#p" + std::to_string(row); }})
            .source();
    CHECK_THAT(sortable, ContainsSubstring("data-value=\"141.26\""));
    CHECK_THAT(sortable, ContainsSubstring("<a href=\"#p1\">=1+1</a>"));
    CHECK_THAT(sortable, ContainsSubstring("<figcaption>All</figcaption>"));
    CHECK(table_markup(ResultTable("empty", {"count"})).empty());
}

TEST_CASE("a long table says how many rows are left out", "[report][page_table]") {
    ResultTable table("counts", {"count"});
    for (std::size_t i = 0; i < 7; ++i) {
        table.add_row({count_cell(i)});
    }
    const std::string text = table_markup(table, {.most_rows = 3}).source();
    CHECK(count_of("<tr>", text) == 4);
    CHECK_THAT(text, ContainsSubstring("The first 3 of 7 rows."));
}

TEST_CASE("columns are chosen by key and left out when nothing is in them", "[report][page_table]") {
    const ResultTable chosen = with_columns(example(), {"count", "condition", "arc_deg", "side"});
    REQUIRE(chosen.columns().size() == 2);
    CHECK(chosen.columns()[0]->key == "count");
    CHECK(chosen.columns()[1]->key == "arc_deg");
    CHECK(chosen.rows().size() == 2);
    CHECK(std::get<Measured>(chosen.rows()[1][1]).value == 141.0);
}

TEST_CASE("findings of one kind stand together, the worst first, with one advice", "[report][page_parts]") {
    const std::vector<ToldFinding> findings{{"note", "uncalibrated", "within 2.0 deg", ""},
                                            {"warning", "gap", "0.4 s", "left"},
                                            {"note", "neutral-assumed", "zero", ""},
                                            {"warning", "gap", "0.9 s", "right"},
                                            {"error", "from-the-future", "<unknown>", ""}};
    CHECK(findings_count(findings) == "1 error, 2 warnings, 2 notes");
    CHECK(findings_count({}) == "nothing");
    const std::string text = findings_markup(findings).source();
    CHECK(count_of("What to do: ", text) == 1);
    CHECK(count_of(std::string(finding_kind("gap").meaning), text) == 1);
    CHECK(text.find("&lt;unknown&gt;") < text.find("left: 0.4 s"));
    CHECK(text.find("left: 0.4 s") < text.find("right: 0.9 s"));
    CHECK(text.find("right: 0.9 s") < text.find("within 2.0°"));
    CHECK(text.find("within 2.0°") < text.find("zero"));
    CHECK(findings_markup({}).empty());
    Findings in_a_folder;
    in_a_folder.emplace_back("gap", "0.4 s", Place{"/home/tova/P03.csv", 17, 0});
    CHECK(told(in_a_folder).front().place == "P03.csv:17");
}

TEST_CASE("origin tells chosen settings from others and names files without folders", "[report][page_parts]") {
    const std::vector<InputFile> inputs{{"/home/tova/P03.csv", "abc", 12}};
    const std::vector<std::pair<std::string, std::string>> settings{
        {"joint", "<elbow>"}, {"lowpass_hz", "6"}, {"side", ""}, {"of_another_version", "1"}};
    const std::string text = provenance(inputs, "0.1.0", settings).source();
    CHECK_THAT(text, ContainsSubstring("<dd>12 rows, SHA-256 abc</dd>"));
    CHECK_THAT(text, !ContainsSubstring("home"));
    const std::size_t others = text.find("left as they are");
    CHECK(text.find("&lt;elbow&gt;") < others);
    CHECK(text.find("of_another_version") < others);
    CHECK(text.find("lowpass_hz") > others);
    CHECK(text.find("<p>side.</p>") > others);
}
