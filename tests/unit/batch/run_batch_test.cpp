#include "made_class.hpp"

#include <jointrom/batch/folder_list.hpp>
#include <jointrom/batch/run_batch.hpp>
#include <jointrom/core/checksum.hpp>
#include <jointrom/report/edf_file.hpp>
#include <jointrom/report/render.hpp>

#include <support/catch.hpp>

#include <nlohmann/json.hpp>

#include <algorithm>
#include <map>

using namespace jointrom;

namespace {

const std::vector<std::string> table_names = {"trials.csv", "repetitions.csv", "phases.csv", "findings.csv",
                                              "class_findings.csv"};

struct Run {
    std::map<std::string, std::string> tables;
    BatchResult result;
};

struct RunSettings {
    std::size_t threads = 1;
    bool resume = false;
    bool ndjson = false;
    Shard shard = {};
    bool stopped = false;
    const Pseudonyms* codes = nullptr;
    std::optional<NamePattern> pattern = NamePattern("{participant}_{side}.csv");
};

Run run_class(const test::MadeClass& made, const std::string& into, const RunSettings& with = {}) {
    const BatchPlan plan = plan_batch(list_folder(made.folder, with.pattern), {}, with.shard, with.codes);
    Run run;
    const auto path = made.scratch.path() / into;
    ResultsFolder folder(path);
    const EarlierResults earlier = with.resume ? EarlierResults(path) : EarlierResults();
    const std::atomic<bool> stop{with.stopped};
    run.result = run_batch(plan, earlier, folder, {.threads = with.threads, .ndjson = with.ndjson}, stop);
    folder.append("settings.json", json_report(batch_report(plan, run.result, {"class", "", 0})));
    folder.commit();
    for (const auto& entry : std::filesystem::directory_iterator(path)) {
        run.tables[entry.path().filename().string()] = read_whole_file(entry.path(), "table");
    }
    return run;
}

std::vector<std::string> lines_of(const std::string& text) {
    std::vector<std::string> lines;
    for (std::size_t begin = 0; begin < text.size();) {
        const std::size_t end = text.find('\n', begin);
        lines.push_back(text.substr(begin, end - begin));
        begin = end + 1;
    }
    return lines;
}

}  // namespace

TEST_CASE("a class gives the same bytes on any number of threads", "[batch][run_batch]") {
    const test::MadeClass made(3);
    write_whole_file(made.folder / "P09_left.csv", "no table\n");
    const Run alone = run_class(made, "a");
    REQUIRE(alone.result.rows.size() == 7);
    CHECK(alone.result.failed == 1);
    CHECK(lines_of(alone.tables.at("trials.csv")).size() == 8);
    CHECK(lines_of(alone.tables.at("repetitions.csv")).size() == 1 + 3 * 6);
    const TrialRow& first = alone.result.rows[0];
    CHECK(first.subject.participant == "P01");
    CHECK(first.subject.joint == "elbow");
    CHECK_THAT(first.arc.value, WithinAbs(123.0, 0.5));
    CHECK(first.repetitions == 3);
    CHECK(first.reading_direction == "falling");
    CHECK_FALSE(alone.result.rows[6].done);
    CHECK(alone.result.rows[6].code == "no-table");
    for (const std::size_t threads : {2U, 5U}) {
        CHECK(run_class(made, "b", {.threads = threads}).tables == alone.tables);
    }
}

TEST_CASE("shards add up to the class", "[batch][run_batch]") {
    const test::MadeClass made(4);
    const auto whole = lines_of(run_class(made, "whole").tables.at("trials.csv"));
    std::vector<std::string> parts{whole[0]};
    for (std::size_t k = 1; k <= 3; ++k) {
        const auto lines =
            lines_of(run_class(made, "part" + std::to_string(k), {.shard = {k, 3}}).tables.at("trials.csv"));
        CHECK(lines[0] == whole[0]);
        parts.insert(parts.end(), lines.begin() + 1, lines.end());
    }
    std::sort(parts.begin() + 1, parts.end());
    auto sorted = whole;
    std::sort(sorted.begin() + 1, sorted.end());
    CHECK(parts == sorted);
}

TEST_CASE("what has not changed is taken over, to the byte", "[batch][run_batch]") {
    const test::MadeClass made(3);
    const Run before = run_class(made, "a", {.ndjson = true});
    const Run again = run_class(made, "a", {.threads = 2, .resume = true, .ndjson = true});
    CHECK(again.result.taken_over == 6);
    CHECK(again.tables == before.tables);
    write_whole_file(made.folder / "P02_left.csv", test::made_recording(101.0));
    const Run changed = run_class(made, "a", {.resume = true});
    CHECK(changed.result.taken_over == 5);
    CHECK(changed.tables.at("trials.csv") == run_class(made, "b").tables.at("trials.csv"));
    CHECK_FALSE(changed.tables.contains("trials.ndjson"));
}

TEST_CASE("work that was stopped can be gone on with", "[batch][run_batch]") {
    const test::MadeClass made(2);
    const Run stopped = run_class(made, "a", {.stopped = true});
    CHECK(stopped.result.rows.empty());
    CHECK(lines_of(stopped.tables.at("trials.csv")).size() == 1);
    CHECK(run_class(made, "a", {.resume = true}).tables == run_class(made, "b").tables);
}

TEST_CASE("a file in another dialect is told, and a doubtful one read as its siblings", "[batch][run_batch]") {
    const test::MadeClass made(3);
    write_whole_file(made.folder / "P01_left.csv", test::made_recording(123.0, ';', ','));
    const Run run = run_class(made, "a");
    CHECK(run.result.failed == 0);
    CHECK(run.result.finding_counts.at("dialect-differs") == 1);
    CHECK_THAT(run.result.rows[0].arc.value, WithinAbs(123.0, 0.5));

    const test::MadeClass other(3);
    for (const char* name : {"P01_left", "P01_right", "P02_left", "P02_right"}) {
        write_whole_file(other.folder / (std::string(name) + ".csv"), test::made_recording(123.0, ';', ','));
    }
    // Every number could have a decimal comma or thousands.
    std::string doubtful = "Time (ms);Elbow angle (deg)\n";
    for (int i = 0; i < 300; ++i) {
        doubtful += std::to_string(1 + i / 100) + "," + std::to_string(100 + i) + ";" + std::to_string(2) + "," +
                    std::to_string(400 + i) + "\n";
    }
    write_whole_file(other.folder / "P03_left.csv", doubtful);
    const Run read = run_class(other, "a");
    CHECK(read.result.finding_counts.contains("dialect-of-class"));
}

TEST_CASE("names appear nowhere when codes are asked for", "[batch][run_batch]") {
    const test::MadeClass made(1);
    std::filesystem::rename(made.folder / "P01_left.csv", made.folder / "Adalind Moor_left.csv");
    write_whole_file(made.folder / "Adalind Moor_right.csv", "Subject: Adalind Moor\nno numbers\n");
    const Pseudonyms codes(made.scratch.path() / "key.csv", {"Adalind Moor", "P01"}, {});
    const Run run = run_class(made, "a", {.ndjson = true, .codes = &codes});
    CHECK(run.result.rows.size() == 3);
    for (const auto& [name, text] : run.tables) {
        CAPTURE(name);
        CHECK(text.find("Adalind") == std::string::npos);
        CHECK(text.find("Moor") == std::string::npos);
        CHECK(text.find("P01") == std::string::npos);
    }
    CHECK(run.tables.at("trials.csv").find(codes.participant("Adalind Moor")) != std::string::npos);
}

TEST_CASE("a motion recording is measured as its CSV export, and anew when what describes it changes",
          "[batch][run_batch]") {
    const test::MadeClass made(1);
    const std::string stem = "sub-P02_task-elbow_tracksys-g_acq-left";
    test::write_bids_recording(made.folder, stem, 123.0);
    const Run before = run_class(made, "a", {.pattern = std::nullopt});
    REQUIRE(before.result.rows.size() == 3);
    CHECK(before.result.failed == 0);
    const TrialRow &csv = before.result.rows[0], &bids = before.result.rows[2];
    CHECK(bids.subject.participant == "P02");
    CHECK(bids.subject.side == "left");
    CHECK(bids.subject.id == sha256_of(stem + "_motion.tsv\n").substr(0, 16));
    CHECK_THAT(bids.arc.value, WithinAbs(csv.arc.value, 1e-3));
    CHECK(bids.repetitions == 3);
    CHECK_FALSE(before.result.finding_counts.contains("dialect-differs"));
    CHECK(run_class(made, "a", {.resume = true, .pattern = std::nullopt}).result.taken_over == 3);

    test::write_bids_recording(made.folder, stem, 123.0, "50");
    const Run after = run_class(made, "a", {.resume = true, .pattern = std::nullopt});
    CHECK(after.result.taken_over == 2);
    CHECK_THAT(after.result.rows[2].peak_velocity_deg_s, WithinRel(bids.peak_velocity_deg_s / 2.0, 0.02));
    CHECK(after.tables == run_class(made, "b", {.threads = 3, .pattern = std::nullopt}).tables);

    std::filesystem::remove(made.folder / (stem + "_channels.tsv"));
    const Run without = run_class(made, "b", {.pattern = std::nullopt});
    CHECK(without.result.rows[2].reason ==
          stem + "_channels.tsv: there is no such file, and it describes " + stem + "_motion.tsv");
    const Pseudonyms codes(made.scratch.path() / "key.csv", {"P01_left", "P01_right", "P02"}, {});
    const Run coded = run_class(made, "c", {.codes = &codes, .pattern = std::nullopt});
    CHECK(coded.result.failed == 1);
    CHECK(coded.tables.at("trials.csv").find("sub-") == std::string::npos);
}

TEST_CASE("EDF files are measured on any number of threads", "[batch][run_batch]") {
    const test::ScratchFolder scratch;
    const auto angle_deg = test::minimum_jerk_path(test::repeated(3, 0.0, 120.0), 100.0);
    const AngleTrace trace = trace_from_angles(angle_deg, Hertz(100.0), Seconds(0.0), joint_motion("elbow"));
    try {
        write_edf(scratch.path() / "P02_left.edf", trace, {}, {});
    } catch (const Failure& failure) {
        CHECK(failure.code() == "edf-unsupported");
        return;
    }
    const test::MadeClass made(1);
    for (const char* name : {"P02_left.edf", "P02_right.edf", "P03_left.edf", "P03_right.edf"}) {
        std::filesystem::copy_file(scratch.path() / "P02_left.edf", made.folder / name);
    }
    write_whole_file(made.folder / "P04_left.edf", "no such format");
    const NamePattern pattern("{participant}_{side}.*");
    const Run alone = run_class(made, "a", {.pattern = pattern});
    REQUIRE(alone.result.rows.size() == 7);
    CHECK(alone.result.failed == 1);
    CHECK(alone.result.rows[6].code == "edf-unreadable");
    CHECK_THAT(alone.result.rows[2].arc.value, WithinAbs(120.0, 0.2));
    CHECK(alone.result.rows[2].input_sha256 == sha256_of_file(made.folder / "P02_left.edf"));
    CHECK(alone.result.finding_counts.at("already-prepared") == 4);
    CHECK(run_class(made, "b", {.threads = 5, .pattern = pattern}).tables == alone.tables);
    CHECK(run_class(made, "b", {.threads = 2, .resume = true, .pattern = pattern}).result.taken_over == 6);
}

TEST_CASE("NDJSON has an object a line, as many as the CSV has rows", "[batch][run_batch]") {
    const test::MadeClass made(1);
    const Run run = run_class(made, "a", {.ndjson = true});
    for (const char* name : {"trials", "repetitions", "phases", "findings"}) {
        const auto lines = lines_of(run.tables.at(std::string(name) + ".ndjson"));
        CHECK(lines.size() + 1 == lines_of(run.tables.at(std::string(name) + ".csv")).size());
        for (const std::string& line : lines) {
            const auto object = nlohmann::json::parse(line);
            CHECK(object.at("id").is_string());
            CHECK(object.at("participant") == "P01");
        }
    }
    const auto first = nlohmann::json::parse(lines_of(run.tables.at("trials.ndjson"))[0]);
    CHECK(first.at("condition").is_null());
    CHECK(first.at("repetitions") == 3);
    CHECK(first.at("arc_u95_deg").is_number());
}
