#include <jointrom/core/failure.hpp>
#include <jointrom/core/whole_file.hpp>
#include <jointrom/recording/bids_motion.hpp>
#include <jointrom/recording/recording_files.hpp>

#include <support/catch.hpp>
#include <support/scratch_folder.hpp>

using namespace jointrom;

// Names as the BIDS specification 1.10 has them, "Motion".
TEST_CASE("a motion recording has two files that describe it", "[recording][recording_files]") {
    const test::ScratchFolder folder;
    const std::string stem = (folder.path() / "sub-P01_task-bend_tracksys-g").string();
    const auto motion = std::filesystem::path(stem + "_motion.tsv");
    CHECK(recording_files(folder.path() / "arm.csv") == std::vector{folder.path() / "arm.csv"});
    CHECK(recording_files(motion) == std::vector{motion});  // who opens it says that it is missing
    write_whole_file(motion, "1\n");
    write_whole_file(stem + "_channels.tsv", "name\n");
    try {
        (void)recording_files(motion);
        FAIL("no failure");
    } catch (const Failure& failure) {
        CHECK(failure.code() == "sidecar-missing");
        CHECK(failure.place().file == stem + "_motion.json");
    }
    write_whole_file(stem + "_motion.json", "{}");
    CHECK(recording_files(motion) ==
          std::vector<std::filesystem::path>{motion, stem + "_channels.tsv", stem + "_motion.json"});
}

TEST_CASE("files that describe recordings are told from recordings", "[recording][recording_files]") {
    const test::ScratchFolder folder;
    write_whole_file(folder.path() / "arm_motion.tsv", "1\n");
    for (const char* name : {"arm_channels.tsv", "arm_motion.json", "sub-1_task-x_events.tsv", "sub-1_scans.tsv",
                             "sub-1_sessions.tsv", "sub-2_tracksys-x_channels.tsv"}) {
        CAPTURE(name);
        CHECK(is_description(folder.path() / name));
    }
    for (const char* name : {"arm_motion.tsv", "leg_channels.tsv", "leg_motion.json", "arm.csv", "events.tsv", ""}) {
        CAPTURE(name);
        CHECK_FALSE(is_description(folder.path() / name));
    }
    CHECK(is_of_standard("arm_motion.tsv"));
    CHECK(is_of_standard("arm.EDF"));
    CHECK_FALSE(is_of_standard("motion.tsv"));
}

TEST_CASE("a name's labels are found by their entity", "[recording][bids_motion]") {
    const std::filesystem::path path = "x-y/sub-P01_ses-2b_task-elbow_run-01_motion.tsv";
    CHECK(bids_label(path, "sub") == "P01");
    CHECK(bids_label(path, "ses") == "2b");
    CHECK(bids_label(path, "run") == "01");
    CHECK(bids_label(path, "x").empty());
    CHECK(bids_label("", "sub").empty());
}
