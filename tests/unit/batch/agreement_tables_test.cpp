#include <jointrom/batch/agreement_tables.hpp>

#include "class_table.hpp"

#include <support/reference_file.hpp>

using namespace jointrom;
using namespace jointrom::test;

namespace {

/// 29 subjects, two goniometers, three readings each (Eliasziw et al. 1994), a row for each reading.
std::string goniometers(bool one_reading_missing = false) {
    std::string text = "subject,device,reading,angle_deg\n";
    for (const char* const device : {"U", "L"}) {
        for (const char* const reading : {"1", "2", "3"}) {
            const auto column = reference_column("reference/stats/goniometer_29x6.csv", std::string(device) + reading);
            for (std::size_t i = 0; i < column.size(); ++i) {
                const bool missing = one_reading_missing && i == 4 && *device == 'L' && *reading == '2';
                text += std::to_string(i + 1) + "," + device + "," + reading + "," +
                        (missing ? "" : std::to_string(column[i])) + "\n";
            }
        }
    }
    return text;
}

const LongTableRequest request{{"subject", "device", "reading"}, {"angle_deg"}};

double number(const Cell& cell) {
    const auto* const fixed = std::get_if<FixedNumber>(&cell);
    return fixed != nullptr ? fixed->value : std::get<double>(cell);
}

}  // namespace

TEST_CASE("readings of two goniometers are taken apart and analysed", "[batch][agreement]") {
    const LongTable table = table_of({goniometers()}, request);
    const auto scores = repeated_scores(table, {.subject = {"subject"}, .repeat = "reading", .device = "device"});
    REQUIRE(scores.size() == 1);
    CHECK(scores[0].columns == std::vector<std::string>{"L", "U"});
    CHECK(scores[0].replicated.subjects() == 29);
    const AgreementTables tables = agreement_tables(scores, {});
    // R package irr, relInterIntra(): within one device, then between any
    CHECK_THAT(number(tables.reliability.rows()[0][4]), WithinAbs(0.984249114673392, 1e-9));
    CHECK_THAT(number(tables.reliability.rows()[2][4]), WithinAbs(0.945065704196461, 1e-9));
    CHECK(tables.devices.rows().size() == 2);
    CHECK(tables.correlations.rows().size() == 6);
    CHECK(tables.findings.empty());
}

// psych::ICC() of R 4.2.2 of the manual goniometer's three readings: ICC2 0.98650...
TEST_CASE("one device's readings have the reference correlation", "[batch][agreement]") {
    const LongTable table = table_of({goniometers()}, request);
    const auto scores = repeated_scores(table, {.by = {"device"}, .subject = {"subject"}, .repeat = "reading"});
    REQUIRE(scores.size() == 2);
    const auto reference = reference_json("reference/stats/agreement.json")["goniometer"]["icc_manual"];
    const std::vector<std::string> by{"device"};
    const AgreementTables tables = agreement_tables(scores, by);
    REQUIRE(tables.correlations.rows().size() == 12);
    for (std::size_t i = 0; i < 6; ++i) {
        CHECK_THAT(number(tables.correlations.rows()[6 + i][6]), WithinAbs(reference[i]["ICC"].get<double>(), 1e-12));
    }
    CHECK(tables.differences.rows().size() == 6);  // three pairs a device; readings of 0 have no ratio
}

TEST_CASE("subjects who lack a reading are left out and counted", "[batch][agreement]") {
    const LongTable table = table_of({goniometers(true)}, request);
    const auto scores = repeated_scores(table, {.by = {"device"}, .subject = {"subject"}, .repeat = "reading"});
    CHECK(scores[0].left_out == 1);
    CHECK(scores[0].scores.rows() == 28);
    CHECK(contains(agreement_tables(scores, std::vector<std::string>{"device"}).findings, "subjects-incomplete"));
    const auto devices = repeated_scores(table, {.subject = {"subject"}, .repeat = "reading", .device = "device"});
    CHECK(devices[0].replicated.subjects() == 28);
    CHECK(devices[0].scores.rows() == 29);
}

TEST_CASE("left and right of opposite sign do not pass for good repeats", "[batch][agreement]") {
    const LongTable table =
        table_of({"participant,side,trial,angle\nP1,left,1,-131\nP1,left,2,-136\nP2,left,1,-139\n"
                  "P2,left,2,-133\nP1,right,1,133\nP1,right,2,138\nP2,right,1,141\nP2,right,2,134\n"},
                 {{"participant", "side", "trial"}, {"angle"}});
    const auto limbs = repeated_scores(table, {.subject = {"participant", "side"}, .repeat = "trial"});
    CHECK(limbs[0].subjects == std::vector<std::string>{"P1 left", "P1 right", "P2 left", "P2 right"});
    const AgreementTables pooled = agreement_tables(limbs, {});
    CHECK(number(pooled.correlations.rows()[1][5]) > 0.99);
    REQUIRE(contains(pooled.findings, "signs-mixed"));
    CHECK_THAT(pooled.findings[0].text, ContainsSubstring("of sizes alone"));
    const auto averaged = repeated_scores(table, {.subject = {"participant"}, .repeat = "trial"});
    CHECK(averaged[0].averaged == 4);
    CHECK(contains(agreement_tables(averaged, {}).findings, "signs-mixed"));
    CHECK(contains(agreement_tables(averaged, {}).findings, "cells-averaged"));
    const auto flipped = repeated_scores(table, {.subject = {"participant"}, .repeat = "side"});
    CHECK(contains(agreement_tables(flipped, {}).findings, "signs-mixed"));
}

TEST_CASE("tables without two subjects or two repeats are refused", "[batch][agreement]") {
    const auto code_for = [](const std::string& text) {
        const LongTable table = table_of({text}, {{"subject", "trial"}, {"x"}});
        return failure_code(
            [&] { (void)agreement_tables(repeated_scores(table, {.subject = {"subject"}, .repeat = "trial"}), {}); });
    };
    CHECK(code_for("subject,trial,x\nA,1,3\nA,2,4\n") == "too-few-subjects");
    CHECK(code_for("subject,trial,x\nA,1,3\nB,1,4\n") == "too-few-repeats");
    CHECK(code_for("subject,trial,x\nA,1,3\nB,2,4\n") == "too-few-subjects");
    CHECK(code_for("subject,trial,x\nA,1,3\nA,2,3\nB,1,3\nB,2,3\n") == "none");
}

TEST_CASE("equal measurements and thin groups are findings", "[batch][agreement]") {
    const LongTable table = table_of({"side,subject,trial,x\nL,A,1,3\nL,A,2,3\nL,B,1,3\nL,B,2,3\nR,A,1,5\nR,A,2,6\n"},
                                     {{"side", "subject", "trial"}, {"x"}});
    const auto scores = repeated_scores(table, {.by = {"side"}, .subject = {"subject"}, .repeat = "trial"});
    const AgreementTables tables = agreement_tables(scores, std::vector<std::string>{"side"});
    CHECK(contains(tables.findings, "no-variance"));
    CHECK(contains(tables.findings, "group-without-agreement"));
    CHECK(tables.correlations.rows().size() == 6);
}

TEST_CASE("a wide table has a row for each subject", "[batch][agreement]") {
    LongTableRequest all{{"subject"}, {"U1", "U2", "U3", "L1", "L2", "L3"}};
    std::string text = "subject,U1,U2,U3,L1,L2,L3\n";
    std::vector<std::vector<double>> columns;
    for (const std::string& name : all.numbers) {
        columns.push_back(reference_column("reference/stats/goniometer_29x6.csv", name));
    }
    for (std::size_t i = 0; i < 29; ++i) {
        text += std::to_string(i);
        for (const auto& column : columns) {
            text += "," + std::to_string(column[i]);
        }
        text += "\n";
    }
    const LongTable table = table_of({text}, all);
    const RepeatedScores both =
        wide_scores(table, {{"manual", {"U1", "U2", "U3"}}, {"electronic", {"L1", "L2", "L3"}}}, "subject");
    CHECK(both.columns == std::vector<std::string>{"manual", "electronic"});
    CHECK_THAT(number(agreement_tables(std::vector{both}, {}).reliability.rows()[2][4]),
               WithinAbs(0.945065704196461, 1e-9));
    const RepeatedScores manual = wide_scores(table, {{"", {"U1", "U2", "U3"}}}, "subject");
    CHECK(manual.scores.columns == 3);
    CHECK(manual.replicated.repeats == 0);
    CHECK(manual.subjects[28] == "28");
}
