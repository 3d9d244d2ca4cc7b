#include <jointrom/batch/folder_list.hpp>
#include <jointrom/core/whole_file.hpp>

#include <support/catch.hpp>
#include <support/scratch_folder.hpp>

using namespace jointrom;

namespace {

/// Participant and side of each file that was listed.
std::string listed(const ClassList& list) {
    std::string text;
    for (const ClassEntry& entry : list.entries) {
        text += !entry.is_wanted
                    ? ""
                    : entry.subject.file + ":" + entry.subject.participant + ":" + entry.subject.side + " ";
    }
    return text;
}

struct Files {
    test::ScratchFolder folder;
    explicit Files(const std::vector<std::string>& names) {
        for (const std::string& name : names) {
            std::filesystem::create_directories((folder.path() / name).parent_path());
            write_whole_file(folder.path() / name, "x\n");
        }
    }
};

}  // namespace

TEST_CASE("a folder lists the recordings that the pattern fits", "[batch][folder_list]") {
    const Files files({"P02_r_1.csv", "P01_left_1.csv", "P01_up_1.csv", "notes.txt", ".hidden_left_1.csv"});
    const ClassList list = list_folder(files.folder.path(), NamePattern("{participant}_{side}_*.csv"));
    CHECK(listed(list) == "P01_left_1.csv:P01:left P02_r_1.csv:P02:right ");
    REQUIRE(list.findings.size() == 1);
    CHECK(list.findings[0].text == "2 files do not fit the pattern: 'P01_up_1.csv', 'notes.txt'");
    CHECK_THROWS_AS(list_folder(files.folder.path(), NamePattern("{participant}.dat")), Failure);
    CHECK_THROWS_AS(list_folder(files.folder.path() / "none", std::nullopt), Failure);
}

TEST_CASE("without a pattern each table is a participant", "[batch][folder_list]") {
    const Files files({"Ada.csv", "Bo.TXT", "c.json", "deeper/d.csv"});
    const ClassList list = list_folder(files.folder.path(), std::nullopt);
    CHECK(listed(list) == "Ada.csv:Ada: Bo.TXT:Bo: ");
    CHECK(contains(list.findings, "participant-from-file"));
    const Files none({"c.json"});
    CHECK_THROWS_AS(list_folder(none.folder.path(), std::nullopt), Failure);
}

// Names as the BIDS specification 1.10 has them, "Motion".
TEST_CASE("of BIDS and EDF files in a folder the recordings are listed, not what describes them",
          "[batch][folder_list]") {
    const std::string one = "sub-P01_ses-pre_task-elbow_tracksys-g_run-2_", two = "sub-P02_task-elbow_tracksys-g_";
    const Files files({one + "motion.tsv", one + "channels.tsv", one + "motion.json", two + "motion.tsv",
                       two + "channels.tsv", two + "motion.json", "sub-P01_scans.tsv", "arm.EDF"});
    const ClassList all = list_folder(files.folder.path(), std::nullopt);
    CHECK(listed(all) == "arm.EDF:arm: " + one + "motion.tsv:P01: " + two + "motion.tsv:P02: ");
    CHECK(all.entries[1].subject.condition == "pre");
    CHECK(all.entries[1].subject.trial == "2");
    REQUIRE(all.findings.size() == 1);
    CHECK(all.findings[0].text == "1 file counts as a participant named as the file");

    ClassList fitting = list_folder(files.folder.path(), NamePattern("sub-{participant}_*.tsv"));
    CHECK(listed(fitting) == one + "motion.tsv:P01: " + two + "motion.tsv:P02: ");
    REQUIRE(fitting.findings.size() == 1);
    CHECK(fitting.findings[0].text == "1 file does not fit the pattern: 'arm.EDF'");

    const std::string folder = files.folder.path().string() + "/";
    CHECK(list_files({folder + two + "channels.tsv", folder + two + "motion.tsv"}, std::nullopt).entries.size() == 1);
    want_listed(fitting, {two + "motion.tsv", two + "channels.tsv", folder + two + "motion.json"});
    CHECK(listed(fitting) == two + "motion.tsv:P02: ");
    CHECK(fitting.problems.empty());
}

TEST_CASE("a pattern with folders looks into them", "[batch][folder_list]") {
    const Files files({"Ada/left.csv", "Ada/right.csv", "Bo/left.csv", "left.csv", "Ada/x/left.csv"});
    const ClassList list = list_folder(files.folder.path(), NamePattern("{participant}/{side}.csv"));
    CHECK(listed(list) == "Ada/left.csv:Ada:left Ada/right.csv:Ada:right Bo/left.csv:Bo:left ");
}

TEST_CASE("a list of files is cut at line ends or at NULs", "[batch][folder_list]") {
    CHECK(listed_names("a.csv\r\n\nb c.csv") == std::vector<std::string>{"a.csv", "b c.csv"});
    CHECK(listed_names(std::string_view("a\nb.csv\0c.csv\0", 14)) == std::vector<std::string>{"a\nb.csv", "c.csv"});
    CHECK(listed_names("").empty());
    const ClassList list = list_files({"x/P01_left.csv", "./P02_right.csv"}, NamePattern("{participant}_{side}.csv"));
    CHECK(listed(list) == "x/P01_left.csv:P01:left P02_right.csv:P02:right ");
}

TEST_CASE("a list keeps some recordings of a class", "[batch][folder_list]") {
    const Files files({"a.csv", "b.csv", "c.csv"});
    ClassList list = list_folder(files.folder.path(), std::nullopt);
    want_listed(list, {"./b.csv", (files.folder.path() / "c.csv").string(), "d.csv"});
    CHECK(listed(list) == "b.csv:b: c.csv:c: ");
    REQUIRE(list.problems.size() == 1);
    CHECK(list.problems[0].code() == "listed-file-unknown");
}
