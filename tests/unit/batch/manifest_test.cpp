#include <jointrom/batch/manifest.hpp>
#include <jointrom/core/whole_file.hpp>

#include <support/catch.hpp>
#include <support/scratch_folder.hpp>

#include <cmath>

using namespace jointrom;

namespace {

ClassList manifest(const test::ScratchFolder& folder, const std::string& text) {
    write_whole_file(folder.path() / "class.csv", text);
    return read_manifest(folder.path() / "class.csv");
}

/// Line, column and code of each problem.
std::string problems_of(const std::string& text) {
    const test::ScratchFolder folder;
    std::string result;
    for (const Failure& problem : manifest(folder, text).problems) {
        const Place& place = problem.place();
        CHECK(place.file.ends_with("class.csv"));
        result += std::to_string(place.line) + ":" + std::to_string(place.column) + " " + problem.code() + "; ";
    }
    return result;
}

}  // namespace

TEST_CASE("a manifest says who and what was recorded", "[batch][manifest]") {
    const test::ScratchFolder folder;
    const ClassList list =
        manifest(folder, "File,Participant,side,joint,motion,condition,trial,rater,AGE,sex,load_kg,notes\n"
                         "a/b.csv,Ada Lind,L,elbow,flexion,warm,2,Bo,20.5,female,1.25,late\n"
                         "c.csv,,,,,,,,,,,\n");
    CHECK(list.problems.empty());
    REQUIRE(list.entries.size() == 2);
    const TrialSubject& s = list.entries[0].subject;
    CHECK(list.entries[0].path == folder.path() / "a/b.csv");
    CHECK(s.file == "a/b.csv");
    CHECK(s.participant == "Ada Lind");
    CHECK(s.side == "left");
    CHECK(s.joint == "elbow");
    CHECK(s.motion == "flexion");
    CHECK(s.condition + s.trial + s.rater == "warm2Bo");
    CHECK(s.age_years == 20.5);
    CHECK(s.sex == "F");
    CHECK(s.load_kg == 1.25);
    CHECK(list.entries[0].line == 2);
    CHECK(list.entries[1].settings.empty());
    CHECK(std::isnan(list.entries[1].subject.age_years));
    CHECK(list.sha256.size() == 64);
}

TEST_CASE("a manifest can hold any setting, and where zero is", "[batch][manifest]") {
    const test::ScratchFolder folder;
    const ClassList list = manifest(folder, "file;neutral;calibration;emg;window_s;lowpass_hz;trial_in_file;age\n"
                                            "a.csv;0 2;cal.json;\"biceps=3;triceps=4\";1 20;8;2;20,5\n"
                                            "b.csv;176.2;;;;;;\n"
                                            "c.csv;rest.csv;;;;;;\n"
                                            "d.csv;auto;;;;;;\n");
    REQUIRE(list.problems.empty());
    const auto settings_of = [&](std::size_t i) {
        std::string text;
        for (const EntrySetting& setting : list.entries[i].settings) {
            text += std::string(setting.kind->name) + "=" + setting.text + "@" + std::to_string(setting.column) + " ";
        }
        return text;
    };
    CHECK(settings_of(0) == "neutral-s=0,2@2 calibration=" + (folder.path() / "cal.json").string() +
                                "@3 emg=biceps=3@4 emg=triceps=4@4 window-s=1,20@5 lowpass-hz=8@6 trial=2@7 ");
    CHECK(settings_of(1) == "neutral-deg=176.2@2 ");
    CHECK(settings_of(2) == "neutral-file=" + (folder.path() / "rest.csv").string() + "@2 ");
    CHECK(settings_of(3).empty());
    CHECK(list.entries[0].subject.age_years == 20.5);
}

TEST_CASE("every problem of a manifest is found, with its place", "[batch][manifest]") {
    CHECK(problems_of("file,sied\na.csv,left\n") == "1:2 entry-unknown; ");
    CHECK(problems_of("file,side,age,sex\na.csv,lft,old,X\n,left,,\nc.csv,left,200,F\n") ==
          "2:2 side-unknown; 2:3 setting-invalid; 2:4 setting-invalid; 3:1 file-unnamed; 4:3 setting-invalid; ");
    CHECK(problems_of("file,joint,date,load_kg\na.csv,elbo,2026-1-2,-1\n") ==
          "2:2 joint-unknown; 2:3 setting-invalid; 2:4 setting-invalid; ");
    CHECK(problems_of("file,lowpass_hz,window_s\na.csv,much,9\n") == "2:2 setting-invalid; 2:3 setting-invalid; ");
    CHECK(problems_of("file,side\na.csv,left,warm\n") == "2:0 row-width; ");
}

TEST_CASE("a manifest cannot reach outside its folder", "[batch][manifest]") {
    CHECK(problems_of("file\n/etc/passwd\n../a.csv\nx/../../a.csv\nC:\\a.csv\nx/../a.csv\n") ==
          "2:1 path-outside; 3:1 path-outside; 4:1 path-outside; 5:1 path-outside; ");
    CHECK(problems_of("file,calibration\na.csv,../cal.json\n") == "2:2 path-outside; ");
    const test::ScratchFolder outside, folder;
    write_whole_file(outside.path() / "a.csv", "x\n");
    std::filesystem::create_symlink(outside.path() / "a.csv", folder.path() / "link.csv");
    std::filesystem::create_directory_symlink(outside.path(), folder.path() / "links");
    write_whole_file(folder.path() / "b.csv", "x\n");
    std::filesystem::create_symlink("b.csv", folder.path() / "inner.csv");
    const ClassList list = manifest(folder, "file\nlink.csv\nlinks/a.csv\ninner.csv\nsub\\b.csv\n");
    REQUIRE(list.problems.size() == 2);
    CHECK(list.problems[0].place().line == 2);
    CHECK(list.problems[1].place().line == 3);
    CHECK(list.entries[3].subject.file == "sub/b.csv");
}

TEST_CASE("a manifest without rows or without files is refused", "[batch][manifest]") {
    const test::ScratchFolder folder;
    CHECK_THROWS_AS(manifest(folder, "file,side\n"), Failure);
    CHECK_THROWS_AS(manifest(folder, "participant,side\nAda,left\n"), Failure);
    CHECK_THROWS_AS(manifest(folder, ""), Failure);
    CHECK_THROWS_AS(read_manifest(folder.path() / "none.csv"), Failure);
}

TEST_CASE("several problems are told in one failure", "[batch][manifest]") {
    CHECK_NOTHROW(refuse_problems({}));
    const Failure one(FailureKind::usage, "side-unknown", "no such side", "", {"m.csv", 2, 3});
    CHECK_THROWS_WITH(refuse_problems({one}), "no such side");
    const std::vector<Failure> many(25, one);
    CHECK_THROWS_WITH(refuse_problems(many), ContainsSubstring("25 problems") && ContainsSubstring("m.csv:2:3") &&
                                                 ContainsSubstring("and 5 more"));
}

TEST_CASE("a manifest names recordings, not what describes them", "[batch][manifest]") {
    CHECK(problems_of("file\nsub-1_task-x_tracksys-g_motion.tsv\nsub-1_task-x_tracksys-g_channels.tsv\na.edf\n") ==
          "3:1 file-describes; ");
}
