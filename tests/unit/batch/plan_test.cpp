#include "made_class.hpp"

#include <jointrom/batch/folder_list.hpp>
#include <jointrom/batch/manifest.hpp>
#include <jointrom/batch/plan.hpp>
#include <jointrom/core/checksum.hpp>

#include <support/catch.hpp>

#include <algorithm>
#include <set>

using namespace jointrom;

namespace {

BatchPlan plan_of(const test::MadeClass& made, Shard shard = {}, const Pseudonyms* codes = nullptr) {
    return plan_batch(list_folder(made.folder, NamePattern("{participant}_{side}.csv")), {}, shard, codes);
}

std::string problem_of(const test::MadeClass& made, const std::string& manifest) {
    write_whole_file(made.folder / "class.csv", manifest);
    try {
        (void)plan_batch(read_manifest(made.folder / "class.csv"), {});
    } catch (const Failure& failure) {
        return failure.code() + "@" + std::to_string(failure.place().line);
    }
    return "none";
}

}  // namespace

TEST_CASE("a plan is sorted by file, and ids follow from the file's name", "[batch][plan]") {
    const test::MadeClass made(2);
    const BatchPlan plan = plan_of(made);
    REQUIRE(plan.tasks.size() == 4);
    CHECK(plan.tasks[0].subject.file == "P01_left.csv");
    CHECK(plan.tasks[3].subject.file == "P02_right.csv");
    CHECK(plan.tasks[0].subject.id == sha256_of("P01_left.csv\n").substr(0, 16));
    CHECK(plan.settings_of(plan.tasks[0]).preparation.side == Side::left);
    const auto settings_of = [&](std::size_t i) { return plan.tasks[i].references->settings_sha256; };
    CHECK(settings_of(0) != settings_of(1));
    CHECK(settings_of(0) == settings_of(2));
    REQUIRE(plan.dialect);
    CHECK(plan.dialect->delimiter == ',');
}

TEST_CASE("shards share a class out by id, whatever its order", "[batch][plan]") {
    const test::MadeClass made(9);
    std::multiset<std::string> ids;
    for (std::size_t k = 1; k <= 7; ++k) {
        const BatchPlan plan = plan_of(made, {k, 7});
        CHECK(plan.class_size == 18);
        CHECK(plan.tasks.size() < 18);
        for (const TrialTask& task : plan.tasks) {
            ids.insert(task.subject.id);
        }
    }
    CHECK(ids.size() == 18);
    CHECK(std::set(ids.begin(), ids.end()).size() == 18);
    CHECK(shard_named("2/7").number == 2);
    for (const char* text : {"0/7", "8/7", "7", "1/", "/2", "1.5/2", "a/b", "-1/2", ""}) {
        CHECK_THROWS_AS(shard_named(text), Failure);
    }
}

TEST_CASE("problems are found before any recording is measured", "[batch][plan]") {
    const test::MadeClass made(2);
    CHECK(problem_of(made, "file\nP01_left.csv\nP01_right.csv\n") == "none");
    CHECK(problem_of(made, "file\nP01_left.csv\nP02_left.csv\n./P01_left.csv\n") == "recording-twice@4");
    CHECK(problem_of(made, "file,window_s\nP01_left.csv,0 4\nP01_left.csv,4 8\n") == "none");
    CHECK(problem_of(made, "file,trial_in_file\nP01_left.csv,1\nP01_left.csv,2\n") == "none");
    CHECK(problem_of(made, "file,id\nP01_left.csv,a\nP01_right.csv,a\n") == "id-twice@3");
    CHECK(problem_of(made, "file,joint,motion\nP01_left.csv,elbow,abduction\n") == "motion-unknown@2");
    CHECK(problem_of(made, "file,neutral,neutral_s\nP01_left.csv,180,0 1\n") == "neutral-twice@2");
    CHECK(problem_of(made, "file,side\nP01_left.csv,up\nP01_right.csv,down\n") == "class-list-invalid@0");
}

TEST_CASE("a manifest of 100,000 rows is planned", "[batch][plan]") {
    const test::MadeClass made(1);
    std::string text = "file,participant,side,trial\n";
    for (int i = 99999; i >= 0; --i) {
        const std::string name = std::to_string(i);
        text += "r" + name + ".csv,P" + std::to_string(i / 10) + (i % 2 == 0 ? ",left," : ",right,") + name + "\n";
    }
    write_whole_file(made.folder / "class.csv", text);
    const BatchPlan plan = plan_batch(read_manifest(made.folder / "class.csv"), {}, {3, 100});
    CHECK(plan.class_size == 100000);
    // 1000 expected, SD 31.5 (binomial); six SD on either side.
    CHECK(plan.tasks.size() > 810);
    CHECK(plan.tasks.size() < 1190);
    CHECK(std::ranges::is_sorted(plan.tasks, {}, [](const TrialTask& task) { return task.subject.file; }));
}

TEST_CASE("a calibration that cannot be read fails the recordings that need it, not the class", "[batch][plan]") {
    const test::MadeClass made(1);
    write_whole_file(made.folder / "class.csv", "file,calibration\nP01_left.csv,none.json\nP01_right.csv,\n");
    const BatchPlan plan = plan_batch(read_manifest(made.folder / "class.csv"), {});
    REQUIRE(plan.tasks.size() == 2);
    CHECK(plan.tasks[0].references->failure);
    CHECK_FALSE(plan.tasks[1].references->failure);
}

TEST_CASE("with codes nothing in the plan that is written names anybody", "[batch][plan]") {
    const test::MadeClass made(2);
    std::filesystem::rename(made.folder / "P01_left.csv", made.folder / "Ada_left.csv");
    const Pseudonyms codes(made.scratch.path() / "key.csv", {"Ada", "P01", "P02"}, {});
    const BatchPlan plan = plan_of(made, {}, &codes);
    std::set<std::string> participants;
    for (const TrialTask& task : plan.tasks) {
        CHECK(task.subject.file == task.subject.id + ".csv");
        CHECK(task.subject.id != sha256_of(task.name + "\n").substr(0, 16));
        participants.insert(task.subject.participant);
    }
    CHECK(participants == std::set{codes.participant("Ada"), codes.participant("P01"), codes.participant("P02")});
}
