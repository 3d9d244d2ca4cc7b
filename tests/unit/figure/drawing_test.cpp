#include <jointrom/figure/drawing.hpp>
#include <jointrom/figure/panel.hpp>
#include <jointrom/figure/svg_text.hpp>

#include <support/catch.hpp>
#include <support/xml.hpp>

#include <limits>
#include <sstream>

using namespace jointrom;

TEST_CASE("Text is escaped, and what XML cannot hold is replaced", "[figure][svg_text]") {
    CHECK(xml_text("<script>alert('a & \"b\"')</script>") ==
          "&lt;script&gt;alert(&#39;a &amp; &quot;b&quot;&#39;)&lt;/script&gt;");
    CHECK(xml_text("m. biceps \u00fc \u2212 \U0001F4AA") == "m. biceps \u00fc \u2212 \U0001F4AA");
    CHECK(xml_text(std::string("a\0b\x01\x7f", 5)) == "a\uFFFDb\uFFFD\uFFFD");
    CHECK(xml_text("caf\xe9") == "caf\uFFFD");    // Latin-1
    CHECK(xml_text("\xed\xa0\x80") == "\uFFFD");  // a surrogate
    CHECK(xml_text("\xc0\xbc"
                   "script") == "\uFFFD\uFFFD"
                                "script");                    // an overlong '<'
    CHECK(xml_text("\xef\xbf\xbe") == "\uFFFD");              // U+FFFE
    CHECK(xml_text("\xf0\x9f\x92") == "\uFFFD\uFFFD\uFFFD");  // cut short
}

TEST_CASE("Numbers in pixels are short and never in exponents", "[figure][svg_text]") {
    CHECK(pixel_text(0.0) == "0");
    CHECK(pixel_text(-0.001) == "0");
    CHECK(pixel_text(12.5) == "12.5");
    CHECK(pixel_text(100.0) == "100");
    CHECK(pixel_text(-3.14159) == "-3.14");
    CHECK(pixel_text(1234567.0) == "1234567");
}

TEST_CASE("Text that is too wide is cut between characters", "[figure][svg_text]") {
    CHECK(shortened("short", 100.0, 15.0) == "short");
    const std::string cut = shortened("\u00fc\u00fc\u00fc\u00fc\u00fc\u00fc\u00fc\u00fc", 60.0, 15.0);
    CHECK(cut.ends_with("\u2026"));
    CHECK(cut.size() % 2 == 1);  // whole characters of two bytes, and the ellipsis of three
    CHECK(text_width_px(cut, 15.0) <= 60.0);
    CHECK(text_width_px("mmm", 15.0) > text_width_px("iii", 15.0));
}

TEST_CASE("A document names itself to those who cannot see it, and its ids to others in the page",
          "[figure][drawing]") {
    const FigureStyle style{.title = "", .subtitle = "a <b> file", .id_prefix = "card-3"};
    const Drawing drawing(style, {"Elbow & wrist", "From 0 to 10 s."}, 640, 400);
    const std::string svg = drawing.svg();
    CHECK(test::xml_fault(svg).empty());
    CHECK_THAT(svg, ContainsSubstring("role=\"img\" aria-labelledby=\"card-3-title card-3-desc\""));
    CHECK_THAT(svg, ContainsSubstring("<title id=\"card-3-title\">Elbow &amp; wrist</title>"));
    CHECK_THAT(svg, ContainsSubstring("<desc id=\"card-3-desc\">From 0 to 10 s.</desc>"));
    CHECK_THAT(svg, ContainsSubstring("a &lt;b&gt; file</text>"));
    const Drawing without({.with_style_sheet = false}, {"t", "d"}, 640, 400);
    CHECK(without.svg().find("<style>") == std::string::npos);
}

TEST_CASE("Every rule of the style sheet is bound to figures", "[figure][figure_style]") {
    std::istringstream lines(figure_style_sheet());
    std::size_t rules = 0;
    for (std::string line; std::getline(lines, line);) {
        if (!line.starts_with("@media") && line != "}") {
            CHECK_THAT(line, Catch::Matchers::StartsWith(".jointrom-figure "));
            CHECK(line.find(',') == std::string::npos);  // a second selector would not be bound
            ++rules;
        }
    }
    CHECK(rules > 40);
    CHECK_THAT(figure_style_sheet(), ContainsSubstring("@media screen and (prefers-color-scheme:dark)"));
}

TEST_CASE("A very long title takes two lines and stays whole in the title element", "[figure][drawing]") {
    std::string title;
    for (int i = 0; i < 40; ++i) {
        title += "repetition ";
    }
    title += "end";
    const std::string svg = Drawing({.title = title}, {"", ""}, 640, 400).svg();
    CHECK_THAT(svg, ContainsSubstring("repetition end</title>"));
    CHECK_THAT(svg, ContainsSubstring("\u2026</text>"));
    const Drawing one_word({.title = std::string(500, 'W')}, {"", ""}, 640, 400);
    CHECK(one_word.body().height > 300.0);
}

TEST_CASE("Panels stay within the drawing, leave room for their labels and break lines at gaps", "[figure][panel]") {
    for (const std::size_t width : {200U, 400U, 900U}) {
        Drawing drawing({.width_px = width, .height_px = 300, .with_style_sheet = false}, {"t", "d"}, 640, 400);
        drawing.note("a remark");
        const std::vector<PanelRow> rows{
            {.y = {.label = "Angle (deg)", .range = {-10.0, 1234567.0}}, .share = 2.0},
            {.y = {.label = "", .range = {0.0, 1.0}, .has_ticks = false}, .fixed_px = 12.0},
            {.y = {.label = "Biceps (mV)", .range = {0.0, 1e-5}}}};
        std::vector<Panel> panels = stacked_panels(drawing, {.label = "Time (s)", .range = {0.0, 3600.0}}, rows);
        REQUIRE(panels.size() == 3);
        for (std::size_t i = 0; i < 3; ++i) {
            const Box& plot = panels[i].plot();
            CHECK(plot.left >= drawing.body().left);
            CHECK(plot.right() <= static_cast<double>(width));
            CHECK(plot.bottom() < drawing.body().bottom());
            CHECK((i == 0 || plot.top > panels[i - 1].plot().bottom()));
        }
        const double nan = std::numeric_limits<double>::quiet_NaN();
        const double x[] = {0.0, 600.0, 1200.0, 1800.0, 2400.0};
        const double y[] = {0.0, 1e6, nan, 1e6, 0.0};
        panels[0].line(x, y, "line line1");
        panels[0].mark(nan, 5.0, Marker::circle, "mark1");
        panels[0].mark(1e9, 5.0, Marker::circle, "mark1");
        const std::string svg = drawing.svg();
        CHECK(test::xml_fault(svg).empty());
        const std::string path = svg.substr(svg.find("<path class=\"line line1\""));
        CHECK(std::count(path.begin(), path.end(), 'M') == 2);
        CHECK(svg.find("nan") == std::string::npos);
        CHECK(svg.find("mark1") == std::string::npos);
    }
}

TEST_CASE("Labels do not cover each other and do not leave the panel", "[figure][panel]") {
    Drawing drawing({}, {"t", "d"}, 640, 400);
    const std::vector<PanelRow> rows{{.y = {.label = "y (deg)", .range = {0.0, 100.0}}}};
    Panel panel = stacked_panels(drawing, {.label = "x (s)", .range = {0.0, 10.0}}, rows).front();
    CHECK(panel.label(5.0, 50.0, "142", Panel::Place::above));
    CHECK_FALSE(panel.label(5.05, 50.0, "143", Panel::Place::above));
    CHECK(panel.label(5.05, 50.0, "143", Panel::Place::below));
    CHECK_FALSE(panel.label(5.0, 100.0, "144", Panel::Place::above));
    CHECK(panel.label(10.0, 50.0, "at the edge", Panel::Place::above));
    CHECK_FALSE(panel.label(10.0, 20.0, "beyond", Panel::Place::right));
}
