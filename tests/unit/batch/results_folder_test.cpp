#include <jointrom/batch/results_folder.hpp>
#include <jointrom/core/failure.hpp>

#include <support/catch.hpp>
#include <support/scratch_folder.hpp>

using namespace jointrom;

namespace {

std::size_t files_in(const std::filesystem::path& folder) {
    return static_cast<std::size_t>(std::distance(std::filesystem::directory_iterator(folder), {}));
}

std::string refusal(const std::filesystem::path& folder) {
    try {
        const ResultsFolder results(folder);
    } catch (const Failure& failure) {
        return failure.code();
    }
    return "none";
}

void write_results(const std::filesystem::path& folder, const std::string& text) {
    ResultsFolder results(folder);
    results.append("trials.csv", text);
    results.append("settings.json", "{\"schema\": \"jointrom-batch/1\"}\n");
    results.commit();
}

}  // namespace

TEST_CASE("results appear together or not at all", "[batch][results_folder]") {
    const test::ScratchFolder scratch;
    const auto folder = scratch.path() / "results";
    {
        ResultsFolder abandoned(folder);
        abandoned.append("trials.csv", "half");
    }
    CHECK_FALSE(std::filesystem::exists(folder));
    write_results(folder, "one\n");
    CHECK(read_whole_file(folder / "trials.csv", "table") == "one\n");
    {
        ResultsFolder abandoned(folder);
        CHECK(abandoned.has_earlier());
        abandoned.append("trials.csv", "half");
        abandoned.append("phases.csv", "half");
    }
    CHECK(read_whole_file(folder / "trials.csv", "table") == "one\n");
    CHECK(files_in(folder) == 2);
}

TEST_CASE("tables of an earlier run that are not written again go", "[batch][results_folder]") {
    const test::ScratchFolder scratch;
    const auto folder = scratch.path() / "results";
    write_results(folder, "one\n");
    write_whole_file(folder / "trials.ndjson", "{}\n");
    write_whole_file(folder / "my notes.txt", "keep\n");
    write_results(folder, "two\n");
    CHECK(read_whole_file(folder / "trials.csv", "table") == "two\n");
    CHECK_FALSE(std::filesystem::exists(folder / "trials.ndjson"));
    CHECK(std::filesystem::exists(folder / "my notes.txt"));
}

TEST_CASE("a folder that is not for results is refused", "[batch][results_folder]") {
    const test::ScratchFolder scratch;
    CHECK(refusal(scratch.path() / "none" / "results") == "cannot-create");
    write_whole_file(scratch.path() / "trials.csv", "mine\n");
    CHECK(refusal(scratch.path()) == "folder-not-empty");
    CHECK(refusal(scratch.path() / "trials.csv") == "cannot-create");
    const auto folder = scratch.path() / "left";
    std::filesystem::create_directory(folder);
    write_whole_file(folder / "trials.csv.tmp-999999999-0", "of a run that was killed");
    CHECK(refusal(folder) == "none");
    CHECK(files_in(folder) == 0);
    write_whole_file(folder / ("trials.csv.tmp-" + std::to_string(1) + "-0"), "of a run that is at work");
    CHECK(refusal(folder) == "folder-in-use");
}

TEST_CASE("a full disk leaves the earlier results as they were", "[batch][results_folder]") {
    if (!std::filesystem::exists("/dev/full")) {
        return;
    }
    const test::ScratchFolder scratch;
    const auto folder = scratch.path() / "results";
    write_results(folder, "one\n");
    std::filesystem::create_symlink("/dev/full", folder / "phases.csv");
    ResultsFolder results(folder);
    results.append("trials.csv", "two\n");
    results.append("phases.csv", "more than fits\n");
    CHECK_THROWS_AS(results.commit(), Failure);
    CHECK(read_whole_file(folder / "trials.csv", "table") == "one\n");
    CHECK(std::filesystem::exists(folder / "settings.json"));
}

TEST_CASE("a results folder stands for its table of recordings", "[batch][results_folder]") {
    const test::ScratchFolder scratch;
    const auto folder = scratch.path() / "results";
    write_results(folder, "one\n");
    CHECK(results_table_named(folder.string()) == (folder / "trials.csv").string());
    CHECK(results_table_named((folder / "trials.csv").string()) == (folder / "trials.csv").string());
    CHECK(results_table_named(scratch.path().string()) == scratch.path().string());
    CHECK(results_table_named("-") == "-");
}
