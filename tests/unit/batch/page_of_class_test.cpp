#include "made_class.hpp"

#include <jointrom/batch/folder_list.hpp>
#include <jointrom/batch/page_of_class.hpp>
#include <jointrom/batch/run_batch.hpp>
#include <jointrom/core/failure.hpp>
#include <jointrom/report/render.hpp>

#include <support/catch.hpp>

using namespace jointrom;

namespace {

/// A class of three with one file that is no recording, measured into `results`.
struct MeasuredClass {
    test::MadeClass made{3};
    std::filesystem::path results = made.scratch.path() / "results";
    BatchResult result;

    MeasuredClass() {
        write_whole_file(made.folder / "P10_left.csv", "no table\n");
        const BatchPlan plan = plan_batch(list_folder(made.folder, NamePattern("{participant}_{side}.csv")), {});
        ResultsFolder folder(results);
        result = run_batch(plan, {}, folder, {}, std::atomic<bool>{false});
        folder.append("settings.json", json_report(batch_report(plan, result, {"class", "", 0})));
        folder.commit();
    }
};

TrialRow row_of(std::string file, std::string joint, double positive_deg, std::string participant = "") {
    TrialRow row;
    row.subject.id = row.subject.file = std::move(file);
    row.subject.participant = std::move(participant);
    row.subject.joint = std::move(joint);
    row.done = true;
    row.positive = {positive_deg, 1.0, 2.0};
    row.negative = {-2.0, 1.0, 2.0};
    row.arc = {positive_deg + 2.0, 1.0, 2.0};
    return row;
}

std::string page_of(const ClassResults& results, const ClassComparisonOptions& options = {}) {
    const std::vector<TrialRow> rows = results.rows();
    return page_of_class({results, class_statistics(rows), compare_class(rows, options)});
}

}  // namespace

TEST_CASE("what a batch wrote is read back as it was measured", "[batch][class_results]") {
    const MeasuredClass measured;
    const ClassResults results = read_class_results(measured.results);
    REQUIRE(results.outcomes.size() == 7);
    for (std::size_t i = 0; i < results.outcomes.size(); ++i) {
        const TrialRow& row = results.outcomes[i].row;
        const TrialRow& written = measured.result.rows[i];
        CHECK(row.subject.id == written.subject.id);
        CHECK(row.subject.participant == written.subject.participant);
        CHECK(row.done == written.done);
        CHECK(row.code == written.code);
        CHECK(row.reason == written.reason);
        CHECK(results.outcomes[i].repetitions.size() == written.repetitions);
        CHECK(results.outcomes[i].findings.size() == written.findings);
        if (row.done) {
            CHECK_THAT(row.arc.value, WithinAbs(written.arc.value, 0.005));
            CHECK_THAT(row.arc.u95, WithinAbs(written.arc.u95, 0.0005));
        }
    }
    CHECK(results.findings.size() == measured.result.findings.size());
    CHECK(results.files.front().name == "trials.csv");
    const auto lowpass = std::find(results.settings.begin(), results.settings.end(),
                                   std::pair<std::string, std::string>("lowpass_hz", "6"));
    CHECK(lowpass != results.settings.end());
}

TEST_CASE("a class has a card for each participant in the order of their names", "[batch][page_of_class]") {
    const MeasuredClass measured;
    const ClassResults results = read_class_results(measured.results);
    const std::string page = page_of(results);
    CHECK_THAT(page, ContainsSubstring("7 recordings of 4 participants; 1 could not be measured"));
    CHECK(page.find("<h3>P01</h3>") < page.find("<h3>P03</h3>"));
    CHECK(page.find("<h3>P03</h3>") < page.find("<h3>P10</h3>"));
    CHECK_THAT(page, ContainsSubstring("<a href=\"#participant-4\">P10</a>"));
    CHECK_THAT(page, ContainsSubstring("left elbow: 123.0, 123.0, 123.0°"));
    CHECK_THAT(page, !ContainsSubstring("Compared with other people"));
    CHECK_THAT(page, !ContainsSubstring(measured.made.folder.string()));
    CHECK(page == page_of(results));
}

TEST_CASE("a class without any measured recording is a page too", "[batch][page_of_class]") {
    ClassResults results;
    CHECK_THAT(page_of(results), ContainsSubstring("No recording could be measured."));
    TrialRow failed;
    failed.subject.file = "a.csv";
    failed.code = "no-table";
    failed.reason = "a.csv: <nothing>";
    results.outcomes.push_back({.row = failed, .repetitions = {}, .phases = {}, .activity = {}, .findings = {}});
    const std::string page = page_of(results);
    CHECK_THAT(page, ContainsSubstring("<h3>a.csv</h3>"));
    CHECK_THAT(page, ContainsSubstring("not measured: a.csv: &lt;nothing&gt;"));
}

TEST_CASE("folders without results of a batch are refused", "[batch][class_results]") {
    const test::ScratchFolder scratch;
    CHECK_THROWS_AS(read_class_results(scratch.path()), Failure);
    for (const char* const text : {"no JSON", "{}", "{\"schema\": 5}", "{\"schema\": \"jointrom-batch/1\"}", "[]"}) {
        write_whole_file(scratch.path() / "settings.json", text);
        try {
            (void)read_class_results(scratch.path());
            FAIL(text);
        } catch (const Failure& failure) {
            CHECK(failure.code() == "results-invalid");
        }
    }
}

TEST_CASE("who cannot be compared is left out, with the reason where there is one", "[batch][class_comparison]") {
    const std::vector<TrialRow> rows{row_of("a", "elbow", 141.0), row_of("b", "", 141.0), row_of("c", "elbow", 900.0)};
    const ClassComparison found =
        compare_class(rows, {.person = {.sex = Sex::female, .age_years = 20.0, .mode = MotionMode::passive},
                             .norms = &built_in_norms(),
                             .judging = {}});
    REQUIRE(found.judged.size() == 1);
    CHECK(found.judged.front().person.label == "a");
    CHECK(contains(found.findings, "results-row-skipped"));
    CHECK(compare_class(rows, {}).judged.empty());
    const ResultTable counts = verdict_count_table(found.judged);
    REQUIRE(counts.rows().size() == 1);
    // 141 with U = 2 lies within 139.2 to 160.8 (soucie2011) by 1.8, less than U
    CHECK(std::get<std::string>(counts.rows()[0][1]) == "flexion");
    CHECK(std::get<std::int64_t>(counts.rows()[0][5]) == 1);
}

TEST_CASE("left and right of one participant are compared on the card", "[batch][page_of_class]") {
    ClassResults results;
    for (const char* const side : {"left", "right"}) {
        TrialRow row = row_of(side, "elbow", side[0] == 'l' ? 120.0 : 140.0, "=Tova & \"Co\"");
        row.subject.motion = "flexion-extension";
        row.subject.side = side;
        row.positive_direction = "flexion";
        row.negative_direction = "extension";
        results.outcomes.push_back({.row = row, .repetitions = {}, .phases = {}, .activity = {}, .findings = {}});
    }
    const std::string page = page_of(results);
    CHECK_THAT(page, ContainsSubstring("<h3>=Tova &amp; &quot;Co&quot;</h3>"));
    CHECK_THAT(page, ContainsSubstring("<li>elbow, flexion: left smaller by 20.0 ± 2.8°"));
}

TEST_CASE("the dots of a class stand beside the normal range that applies to the group", "[batch][page_of_class]") {
    const auto source = text_source("source,joint,motion,sex,mode,value_deg,sd_deg,n\n"
                                    "spring class,elbow,flexion,F,active,140,5,24\n");
    const NormTable norms = read_norm_table(*source, "reference");
    ClassResults results;
    for (const double flexion_deg : {120.0, 141.0}) {
        TrialRow row = row_of(flexion_deg < 130.0 ? "a" : "b", "elbow", flexion_deg, flexion_deg < 130.0 ? "P1" : "P2");
        row.subject.motion = "flexion-extension";
        row.subject.sex = "F";
        results.outcomes.push_back({.row = row, .repetitions = {}, .phases = {}, .activity = {}, .findings = {}});
    }
    const std::vector<TrialRow> rows = results.rows();
    const ClassComparisonOptions asked{
        .person = {.sex = {}, .age_years = {}, .mode = MotionMode::active}, .norms = &norms, .judging = {}};
    const std::string page = page_of_class({results, class_statistics(rows), compare_class(rows, asked), {}, asked});
    CHECK_THAT(page, ContainsSubstring("Normal ranges: spring class."));
    CHECK_THAT(page, ContainsSubstring("2 values from 120.0 to 141.0, mean 130.5, 1 outside the normal range."));
    CHECK_THAT(page, ContainsSubstring("class=\"band band3\""));

    // A condition says it as well, group by group; --against goes before it.
    for (TrialOutcome& outcome : results.outcomes) {
        outcome.row.subject.condition = outcome.row.subject.id == "a" ? "moved passively: passive" : "active";
    }
    ClassComparisonOptions told{.person = {}, .norms = &norms, .judging = {}};
    const auto page_told = [&] {
        const std::vector<TrialRow> own = results.rows();
        return page_of_class({results, class_statistics(own), compare_class(own, told), {}, told});
    };
    CHECK_THAT(page_told(), ContainsSubstring(" passive: 1 value, 120.0."));
    CHECK_THAT(page_told(), ContainsSubstring("active: 1 value, 141.0, 0 outside the normal range."));
    told.judging.against = MotionMode::active;
    CHECK_THAT(page_told(), ContainsSubstring(" passive: 1 value, 120.0, 1 outside the normal range."));
    for (TrialOutcome& outcome : results.outcomes) {
        outcome.row.subject.condition.clear();
    }
    const std::string alone = page_of(results);  // the built-in ranges are for a mode, which nobody has stated
    CHECK_THAT(alone, !ContainsSubstring("class=\"band band3\""));
    CHECK_THAT(alone, ContainsSubstring("No normal range: "));
}
