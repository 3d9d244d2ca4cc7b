#include <jointrom/batch/class_figures.hpp>

#include "class_table.hpp"

#include <cmath>
#include <regex>

using namespace jointrom;
using namespace jointrom::test;

namespace {

const LongTableRequest request{{"participant", "side", "joint", "motion", "sex", "age_years", "trial", "condition"},
                               {"positive_deg"}};

const std::string head = "participant,side,joint,motion,sex,age_years,trial,condition,positive_deg,negative_deg\n";

/// The women's reference: 140 with an SD of 5, so 130.2 to 149.8.
const std::string women = "P1,left,elbow,flexion-extension,F,21,1,before,141,-2\n"
                          "P1,left,elbow,flexion-extension,F,21,2,before,143,-4\n"
                          "P2,left,elbow,flexion-extension,F,22,1,before,120,-1\n"
                          "P3,left,elbow,flexion-extension,F,25,1,before,160,-3\n"
                          "P4,left,elbow,flexion-extension,F,29,1,before,131,\n";
const std::string men = "P5,left,elbow,flexion-extension,M,23,1,before,139,-1\n"
                        "P6,left,elbow,flexion-extension,M,24,1,before,145,3\n";

NormTable norms_of(const std::string& rows) {
    const std::string text = "source,joint,motion,sex,age_min_years,age_max_years,mode,value_deg,sd_deg,n\n" + rows;
    return read_norm_table(*text_source(text), "reference");
}

NormTable reference_table() {
    return norms_of("spring class,elbow,flexion,F,,,active,140,5,24\n");
}

NormComparisonOptions active_by(std::vector<std::string> by) {
    return {.by = std::move(by),
            .participant = "participant",
            .mode = MotionMode::active,
            .sex = {},
            .age_years = {},
            .source = {}};
}

/// Middles of the dots and diamonds that carry a name, in pixels.
std::map<std::string, double> named_marks(const std::string& svg) {
    static const std::regex mark(
        R"re(<path class="mark mark[12]" d="M([0-9.]+) [0-9.]+([aL])([0-9.]*)[^>]*><title>(\w+))re");
    std::map<std::string, double> x_px;
    for (std::sregex_iterator at(svg.begin(), svg.end(), mark), end; at != end; ++at) {
        const double first = std::stod((*at)[1]);
        x_px[(*at)[4]] = (*at)[2] == "a" ? first + std::stod((*at)[3]) : first;  // a circle starts at its left
    }
    return x_px;
}

}  // namespace

TEST_CASE("each participant is a dot beside the normal range of the own sex", "[batch][class_figures]") {
    const LongTable table = table_of({head + women + men}, request);
    const ClassDots dots = class_dots(table, reference_table(), active_by({"side"}));
    CHECK(dots.title == "Class: Elbow flexion");
    CHECK(dots.quantity == "Elbow flexion (deg)");
    CHECK(dots.note == "Normal ranges: spring class.");
    REQUIRE(dots.groups.size() == 1);
    const ClassGroup& group = dots.groups.front();
    CHECK_THAT(group.mean, WithinAbs(139.5, 1e-12));  // of 142, 120, 160, 131, 139, 145
    CHECK_THAT(group.mean_ci.low,
               WithinAbs(125.346, 5e-4));  // SD sqrt(909.5 / 5), t = 2.570582 with 5 degrees of freedom
    CHECK_THAT(group.mean_ci.high, WithinAbs(153.654, 5e-4));
    REQUIRE(group.lanes.size() == 2);
    CHECK(group.lanes[0].text == "F");
    CHECK_THAT(group.lanes[0].lower, WithinAbs(130.2, 0.01));
    CHECK_THAT(group.lanes[0].upper, WithinAbs(149.8, 0.01));
    REQUIRE(group.lanes[0].values.size() == 4);
    CHECK(group.lanes[0].values[0].name == "P1");
    CHECK(group.lanes[0].values[0].value == 142.0);
    CHECK(group.lanes[1].text == "no normal range");
    CHECK(std::isnan(group.lanes[1].lower));
    REQUIRE(group.lanes[1].values.size() == 2);
    CHECK(group.lanes[1].values[1].value == 145.0);
}

TEST_CASE("dots and the band lie where their values are on the axis", "[batch][class_figures]") {
    const LongTable table = table_of({head + women}, request);
    const std::string svg = class_figure(class_dots(table, reference_table(), active_by({"side"})));
    static const std::regex rectangle(R"re(<rect class="band band3" x="([0-9.]+)" y="[0-9.]+" width="([0-9.]+)")re");
    std::vector<std::smatch> bands(std::sregex_iterator(svg.begin(), svg.end(), rectangle), {});
    REQUIRE(bands.size() == 2);  // that of the legend goes first
    const double left_px = std::stod(bands[1][1]), width_px = std::stod(bands[1][2]);
    std::map<std::string, double> x_px = named_marks(svg);
    REQUIRE(x_px.size() == 4);
    const double px_per_deg = (x_px["P3"] - x_px["P2"]) / 40.0;  // 160 less 120
    CHECK(px_per_deg > 5.0);
    CHECK_THAT(x_px["P1"], WithinAbs(x_px["P2"] + 22.0 * px_per_deg, 0.02));
    CHECK_THAT(x_px["P4"], WithinAbs(x_px["P2"] + 11.0 * px_per_deg, 0.02));
    CHECK_THAT(left_px, WithinAbs(x_px["P2"] + 10.2 * px_per_deg, 0.05));
    CHECK_THAT(width_px, WithinAbs(19.6 * px_per_deg, 0.05));
    std::smatch tick;
    REQUIRE(std::regex_search(svg, tick, std::regex(R"re(<text [^>]*x="([0-9.]+)"[^>]*>140</text>)re")));
    CHECK_THAT(std::stod(tick[1]), WithinAbs(x_px["P2"] + 20.0 * px_per_deg, 0.02));
    CHECK_THAT(svg, ContainsSubstring("All: 4 values from 120.0 to 160.0, mean "));
    CHECK_THAT(svg, ContainsSubstring(", 2 outside the normal range."));
}

TEST_CASE("more than four normal ranges in a group are too many to be drawn", "[batch][class_figures]") {
    std::string rows;
    for (const char* const age : {"20,21", "22,22", "23,23", "24,24", "25,30"}) {
        rows += std::string("spring class,elbow,flexion,,") + age + ",active,140,5,24\n";
    }
    const LongTable table = table_of({head + women + men}, request);
    const ClassDots dots = class_dots(table, norms_of(rows), active_by({"side"}));
    CHECK(dots.note == "No normal ranges: more than four of them apply within a group.");
    REQUIRE(dots.groups.front().lanes.size() == 1);
    CHECK(dots.groups.front().lanes.front().values.size() == 6);
    CHECK(std::isnan(dots.groups.front().lanes.front().lower));
}

TEST_CASE("a class without a normal range says why", "[batch][class_figures]") {
    const LongTable table = table_of({head + women}, request);
    NormComparisonOptions options = active_by({"side"});
    options.mode = MotionMode::passive;
    CHECK_THAT(class_dots(table, reference_table(), options).note, ContainsSubstring("No normal range: "));
    CHECK_THAT(class_figure(class_dots(table, reference_table(), options)), !ContainsSubstring("band band3"));
}

TEST_CASE("a column that is no extent of a known joint is drawn without normal ranges", "[batch][class_figures]") {
    const LongTable table = table_of({"participant,side,grip\nP1,left,31.5\nP1,left,34.5\nP2,left,28\nP1,right,40\n"},
                                     {{"participant", "side"}, {"grip"}});
    const ClassDots dots = class_dots(table, reference_table(), active_by({"side"}));
    CHECK(dots.title == "Class: grip");
    REQUIRE(dots.groups.size() == 2);
    CHECK(dots.groups[0].name == "left");
    CHECK_THAT(dots.groups[0].mean, WithinAbs(30.5, 1e-12));  // of 33 and 28
    CHECK(dots.groups[1].lanes.front().values.front().value == 40.0);
    CHECK(dots.note.empty());
}

TEST_CASE("joints that move in the same direction are drawn as that direction", "[batch][class_figures]") {
    const LongTable table = table_of({head + women + "P1,left,knee,flexion-extension,F,21,1,before,120,0\n"}, request);
    const ClassDots dots = class_dots(table, reference_table(), active_by({"side"}));
    CHECK(dots.quantity == "Flexion (deg)");
    REQUIRE(dots.groups.size() == 2);
    CHECK(dots.groups[1].name == "knee");
    const LongTable ankle = table_of({head + women + "P1,left,ankle,,F,21,1,before,20,-40\n"}, request);
    CHECK(class_dots(ankle, reference_table(), active_by({"side"})).quantity == "Extent (deg)");
}

TEST_CASE("joints that nobody names are drawn too", "[batch][class_figures]") {
    const LongTable table = table_of({head + "P1,left,,,,,1,,120,-2\nP2,left,,,,,1,,124,-2\n"}, request);
    const ClassDots dots = class_dots(table, reference_table(), active_by({"side"}));
    REQUIRE(dots.groups.size() == 1);
    CHECK_THAT(dots.groups.front().mean, WithinAbs(122.0, 1e-12));
}

TEST_CASE("left stands against right, by participant and condition", "[batch][class_figures]") {
    const std::string right = "P1,right,elbow,flexion-extension,F,21,1,before,150,-6\n"
                              "P1,right,elbow,flexion-extension,F,21,1,after,155,-8\n";
    const LongTable table = table_of({head + women + right}, request);
    const SidePairs sides = side_pairs(table, active_by({"side", "condition"}), "side");
    CHECK(sides.title == "Elbow flexion: left against right");
    std::map<std::string, std::pair<double, double>> pairs;
    for (const SideValues& pair : sides.pairs) {
        pairs[pair.name] = {pair.left, pair.right};
    }
    CHECK(pairs.at("P1 before") == std::pair(142.0, 150.0));
    CHECK(std::isnan(pairs.at("P1 after").first));
    CHECK(pairs.at("P1 after").second == 155.0);
    CHECK(std::isnan(pairs.at("P2 before").second));

    const LongTable beyond = table_of({head + women + right}, {request.texts, {"negative_deg"}});
    for (const SideValues& pair : side_pairs(beyond, active_by({"side"}), "side").pairs) {
        if (pair.name == "P1") {
            CHECK(pair.left == 3.0);  // of -2 and -4, beyond neutral positive
            CHECK(pair.right == 7.0);
        }
    }
    const LongTable mixed = table_of({head + women + "P1,right,knee,flexion-extension,F,21,1,before,120,0\n"}, request);
    CHECK(failure_code([&] { (void)side_pairs(mixed, active_by({"side"}), "side"); }) == "joints-mixed");
}

TEST_CASE("a filter leaves the rows of one level, or says which levels there are", "[batch][class_figures]") {
    const LongTable table = table_of({head + women + men}, request);
    const std::vector<RowFilter> second{{"trial", "2"}};
    const LongTable left = filtered_rows(table, second);
    REQUIRE(left.rows == 1);
    CHECK(left.numbers.front().values == std::vector<double>{143.0});
    CHECK(left.find_text("participant")->text(0) == "P1");
    const std::vector<RowFilter> none{{"trial", "7"}}, contradiction{{"trial", "2"}, {"sex", "M"}};
    CHECK(failure_code([&] { (void)filtered_rows(table, none); }) == "no-such-level");
    CHECK(failure_code([&] { (void)filtered_rows(table, contradiction); }) == "no-rows-left");
}

TEST_CASE("the first two repeats of a group are set against each other", "[batch][class_figures]") {
    const RepeatedOptions options{.by = {"joint", "motion", "side"}, .subject = {"participant"}, .repeat = "trial"};
    const LongTable table =
        table_of({head + women + "P2,left,elbow,flexion-extension,F,22,2,before,124,-1\n"}, request);
    const std::vector<RepeatedScores> groups = repeated_scores(table, options);
    REQUIRE(groups.size() == 1);
    const ScorePairs pairs = score_pairs(groups.front(), options);
    CHECK(pairs.title == "Agreement of elbow flexion: left");
    CHECK(pairs.first == "trial 1");
    CHECK(pairs.second == "trial 2");
    std::map<std::string, std::pair<double, double>> by_name;
    for (const auto& pair : pairs.pairs) {
        by_name[pair.name] = {pair.first, pair.second};
    }
    CHECK(by_name.at("P1") == std::pair(141.0, 143.0));
    CHECK(by_name.at("P2") == std::pair(120.0, 124.0));
}
