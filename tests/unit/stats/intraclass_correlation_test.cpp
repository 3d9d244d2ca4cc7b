#include <jointrom/stats/intraclass_correlation.hpp>

#include "stats_reference.hpp"

#include <cmath>

using namespace jointrom;
using namespace jointrom::test;

namespace {

void check_icc(const ScoreTable& scores, const nlohmann::json& expected) {
    const auto found = intraclass_correlations(two_way_anova(scores));
    for (std::size_t i = 0; i < 6; ++i) {
        const auto& row = expected[i];
        INFO(row["type"]);
        CHECK_THAT(found[i].value, WithinAbs(row["ICC"].get<double>(), 1e-12));
        CHECK_THAT(found[i].ci.low, WithinAbs(row["lower"].get<double>(), 1e-9));
        CHECK_THAT(found[i].ci.high, WithinAbs(row["upper"].get<double>(), 1e-9));
        CHECK_THAT(found[i].f, WithinRel(row["F"].get<double>(), 1e-9));
        CHECK(found[i].dof1 == row["df1"].get<double>());
        CHECK(found[i].dof2 == row["df2"].get<double>());
        CHECK_THAT(found[i].p, WithinRel(row["p"].get<double>(), 1e-8));
    }
}

ScoreTable columns_of(const std::string& file, const std::vector<std::string>& headings) {
    ScoreTable table{.columns = headings.size(), .values = {}};
    std::vector<std::vector<double>> columns;
    for (const std::string& heading : headings) {
        columns.push_back(reference_column(file, heading));
    }
    for (std::size_t row = 0; row < columns.front().size(); ++row) {
        for (const auto& column : columns) {
            table.values.push_back(column[row]);
        }
    }
    return table;
}

}  // namespace

// Shrout and Fleiss 1979, table 4: .17 .29 .71 .44 .62 .91; to more digits and with intervals R 4.2.2, psych 2.2.9.
TEST_CASE("six targets and four judges have the published correlations", "[stats][icc]") {
    const auto reference = reference_json("reference/stats/agreement.json")["six_by_four"];
    const ScoreTable scores = score_table(reference["data"]);
    check_icc(scores, reference["icc"]);
    const auto found = intraclass_correlations(two_way_anova(scores));
    const double published[6] = {0.17, 0.29, 0.71, 0.44, 0.62, 0.91};
    for (std::size_t i = 0; i < 6; ++i) {
        CHECK_THAT(found[i].value, WithinAbs(published[i], 0.005));
    }
}

// Eliasziw et al. 1994: 29 subjects, three readings with a manual goniometer; EMG of 18 players on three days (R
// package PairedData); two trials. Values: R 4.2.2, psych 2.2.9.
TEST_CASE("goniometer readings and muscle activity have the reference correlations", "[stats][icc]") {
    const auto reference = reference_json("reference/stats/agreement.json");
    check_icc(columns_of("reference/stats/goniometer_29x6.csv", {"U1", "U2", "U3"}),
              reference["goniometer"]["icc_manual"]);
    check_icc(columns_of("reference/stats/emg_three_days.csv", {"day1", "day2", "day3"}),
              reference["emg_three_days"]["icc"]);
    const std::vector<double> first = reference["typical_error"]["trial1"];
    const std::vector<double> second = reference["typical_error"]["trial2"];
    check_icc(paired_table(first, second), reference["typical_error"]["icc"]);
}

TEST_CASE("repeats without any error give a correlation of one", "[stats][icc]") {
    for (const auto& icc : intraclass_correlations(two_way_anova(paired_table({3.0, 8.5, 1.25}, {3.0, 8.5, 1.25})))) {
        INFO(name_of(icc.form));
        CHECK(icc.value == 1.0);
        CHECK(icc.ci.low == 1.0);
        CHECK(icc.ci.high == 1.0);
        CHECK(icc.p == 0.0);
    }
}

TEST_CASE("columns that differ by a constant are consistent but do not agree", "[stats][icc]") {
    const auto found = intraclass_correlations(two_way_anova(paired_table({3.0, 8.5, 1.25}, {5.0, 10.5, 3.25})));
    CHECK(found[2].value == 1.0);
    CHECK(found[1].value < 0.95);
    CHECK(found[1].value > 0.5);
    CHECK(found[1].ci.low < found[1].value);
}

TEST_CASE("scores that are all equal have no correlation", "[stats][icc]") {
    for (const auto& icc : intraclass_correlations(two_way_anova(paired_table({4.2, 4.2, 4.2}, {4.2, 4.2, 4.2})))) {
        CHECK(std::isnan(icc.value));
        CHECK(std::isnan(icc.ci.low));
        CHECK(std::isnan(icc.p));
    }
}

TEST_CASE("subjects that do not differ have no positive correlation", "[stats][icc]") {
    const auto found = intraclass_correlations(two_way_anova(paired_table({1.0, 3.0, 2.0}, {3.0, 1.0, 2.0})));
    CHECK(found[0].value < 0.0);
    CHECK(found[2].value < 0.0);
    CHECK(std::isnan(found[3].value));  // the share of nothing
}

TEST_CASE("each form has a name in both conventions", "[stats][icc]") {
    CHECK(name_of(IccForm::icc_2_1) == "ICC(2,1)");
    CHECK(mcgraw_wong_name(IccForm::icc_2_1) == "ICC(A,1)");
    CHECK(mcgraw_wong_name(IccForm::icc_3_k) == "ICC(C,k)");
    CHECK(description_of(IccForm::icc_1_1) == "one-way random, agreement, single");
}
