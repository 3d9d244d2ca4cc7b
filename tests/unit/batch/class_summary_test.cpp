#include <jointrom/batch/class_summary.hpp>

#include "batch/row_groups.hpp"
#include "class_table.hpp"

#include <jointrom/stats/t_test.hpp>

#include <algorithm>
#include <cmath>

using namespace jointrom;
using namespace jointrom::test;

namespace {

// The class of stats/reference outliers.json: 88 and 199 stand out of twelve values, by hand and R 4.2.2.
const std::vector<double> values{134, 138, 141, 129, 136, 140, 143, 88, 139, 137, 142, 199};

std::string class_text() {
    std::string text = "id,participant,side,joint,status,arc_deg\n";
    for (std::size_t i = 0; i < values.size(); ++i) {
        const std::string number = std::to_string(i + 1);
        text += "t" + number + ",P" + number + ",left,knee,done," + std::to_string(values[i]) + "\n";
    }
    return text;
}

}  // namespace

TEST_CASE("a group has its middle and spread, and outliers that a mean would hide", "[batch][class_summary]") {
    const LongTable table = table_of({class_text()}, {{"side", "participant", "joint"}, {"arc_deg"}});
    const ClassSummary summary = class_summary(table, {.by = {"side"}, .participant = "participant"});
    REQUIRE(summary.groups.size() == 1);
    const GroupSummary& group = summary.groups[0];
    CHECK(group.group == std::vector<std::string>{"left"});
    CHECK(group.quantity == "arc_deg");
    CHECK(group.values.count == 12);
    CHECK(group.participants == 12);
    CHECK(group.median == 138.5);
    CHECK(group.lower_quartile == 135.5);  // R: quantile(type = 7)
    CHECK(group.upper_quartile == 141.25);
    CHECK(group.mean_ci.low == mean_interval(describe(values)).low);
    CHECK(group.outliers == 2);
    REQUIRE(summary.outliers.size() == 2);
    CHECK(summary.outliers[0].id == "t8");
    CHECK(summary.outliers[0].participant == "P8");
    CHECK_THAT(summary.outliers[0].modified_z, WithinAbs(-11.3540833333333, 1e-9));
    CHECK_THAT(summary.outliers[1].modified_z, WithinAbs(13.6024166666667, 1e-9));
    CHECK(summary.findings.empty());
}

TEST_CASE("several values of a participant count once in the interval of the mean", "[batch][class_summary]") {
    const LongTable table = table_of({"participant,arc_deg\nP1,130\nP1,134\nP2,140\nP2,\nP3,148\nP3,150\nP3,152\n"},
                                     {{"participant"}, {"arc_deg"}});
    const ClassSummary summary = class_summary(table, {.participant = "participant"});
    CHECK(summary.groups[0].values.count == 6);
    CHECK(summary.groups[0].values.missing == 1);
    CHECK(summary.groups[0].participants == 3);
    const ConfidenceInterval expected = mean_interval(describe(std::vector{132.0, 140.0, 150.0}));
    CHECK(summary.groups[0].mean_ci.low == expected.low);
    CHECK(summary.groups[0].mean_ci.high == expected.high);
    CHECK(contains(summary.findings, "interval-over-participants"));
}

TEST_CASE("groups come in the order of their texts whatever the order of rows", "[batch][class_summary]") {
    const std::string head = "side,condition,arc_deg\n";
    std::vector<std::string> rows{"right,c10,1\n", "left,c2,2\n", "left,c10,3\n",
                                  "right,c2,4\n",  "left,c2,5\n", ",c2,6\n"};
    const LongTableRequest request{{"side", "condition"}, {"arc_deg"}};
    const auto shuffled = [&] {
        std::string text = head;
        for (const std::string& row : rows) {
            text += row;
        }
        return class_summary(table_of({text}, request), {.by = {"side", "condition"}}).groups;
    };
    const auto first = shuffled();
    std::ranges::reverse(rows);
    const auto second = shuffled();
    REQUIRE(first.size() == 5);
    CHECK(first[0].group == std::vector<std::string>{"", "c2"});
    CHECK(first[1].group == std::vector<std::string>{"left", "c2"});
    CHECK(first[1].values.mean == 3.5);
    CHECK(first[2].group == std::vector<std::string>{"left", "c10"});
    CHECK(std::isnan(first[2].mean_ci.low));
    for (std::size_t i = 0; i < first.size(); ++i) {
        CHECK(first[i].group == second[i].group);
        CHECK(first[i].values.mean == second[i].values.mean);
    }
}

TEST_CASE("joints and signs that are taken together are told", "[batch][class_summary]") {
    const LongTable table = table_of({"joint,side,arc_deg\nknee,left,-140\nknee,right,141\nelbow,left,-139\n"
                                      "elbow,right,137\nelbow,right,142\n"},
                                     {{"joint", "side"}, {"arc_deg"}});
    const ClassSummary summary = class_summary(table, {});
    CHECK(contains(summary.findings, "joints-mixed"));
    CHECK(contains(summary.findings, "signs-mixed"));
    CHECK_FALSE(contains(class_summary(table, {.by = {"joint", "side"}}).findings, "signs-mixed"));
}

TEST_CASE("rows are numbered alike by table and by search", "[batch][row_groups]") {
    TextColumn first{"a", {}, {}};
    TextColumn second{"b", {}, {}};
    for (std::uint32_t i = 0; i < 3000; ++i) {
        first.texts.push_back(std::to_string(i));
        second.texts.push_back(std::to_string(i));
        first.codes.push_back(i * 37 % 3000);
        second.codes.push_back(i * 11 % 3000);
    }
    const std::vector<const TextColumn*> columns{&first, &second};
    const RowNumbers numbers = row_numbers(columns, 3000);  // 9 million possible pairs: by search
    CHECK(numbers.count == 3000);
    for (std::size_t row = 0; row < 3000; ++row) {
        CHECK(numbers.of_row[row] == first.codes[row]);  // all different, in the order of the first column
    }
    CHECK(row_groups({}, 4).size() == 1);
}
