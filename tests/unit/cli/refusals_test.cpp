#include <jointrom/core/whole_file.hpp>

#include <support/catch.hpp>
#include <support/program.hpp>
#include <support/scratch_folder.hpp>

#include <filesystem>

using namespace jointrom;

namespace {

const std::string demo = std::string(JOINTROM_TESTS) + "/../data/demo/";
const std::string elbow = demo + "P01_right_elbow.csv";
const std::string volts = demo + "calibration_elbow_volts.csv";

/// What is refused, and the status with which it is.
void refuses(std::initializer_list<std::string> arguments, int status, const std::string& text) {
    const test::ProgramRun run = test::run_program(arguments);
    CAPTURE(run.err);
    CHECK(run.status == status);
    CHECK(run.out.empty());
    CHECK_THAT(run.err, ContainsSubstring(text));
}

/// "flexion,145.6": to a tenth of a degree, which EDF and BIDS keep.
std::string flexion_of(std::initializer_list<std::string> arguments) {
    const std::string out = test::run_program(arguments).out;
    const std::size_t at = out.find("flexion,");
    REQUIRE(at != std::string::npos);
    return out.substr(at, out.find('.', at) + 2 - at);
}

}  // namespace

TEST_CASE("a class that cannot be told is refused before anything is measured", "[cli][batch]") {
    const test::ScratchFolder folder;
    const std::string into = (folder.path() / "into").string(), manifest = (folder.path() / "class.csv").string();
    write_whole_file(manifest, "file,date,calibration\nx.csv,2026-3-2,\n");
    refuses({"batch", "--into", into}, 2, "there is no class to measure");
    refuses({"batch", manifest, "--into", into, "--pattern", "{participant}.csv"}, 2, "a manifest says who");
    refuses({"batch", manifest, "--into", into}, 2, "class.csv:2:2");
    refuses({"batch", manifest, "--into", into, "--threads", "none"}, 2, "--threads is 'none'");
    CHECK_FALSE(std::filesystem::exists(into));
}

TEST_CASE("earlier results are replaced, and that is said", "[cli][batch]") {
    const test::ScratchFolder folder;
    const std::string into = (folder.path() / "into").string();
    CHECK(test::run_program({"batch", "--files-from", "-", "--into", into}, elbow + "\n").status == 0);
    const test::ProgramRun again = test::run_program({"batch", "--files-from", "-", "--into", into}, elbow + "\n");
    CHECK(again.status == 0);
    CHECK_THAT(again.err, ContainsSubstring("note: the earlier results in " + into + " are replaced"));
}

TEST_CASE("a calibration that is not said in full is refused", "[cli][calibrate]") {
    refuses({"calibrate", "--point", "30"}, 2, "the point '30' is not ANGLE=READING");
    refuses({"calibrate", "--point", "0=" + volts + "@3"}, 2, "expected START,END in seconds");
    refuses({"calibrate", "--point", "0=1.1", "--point", "90=2.2", "--control", "30=1.5"}, 2, "--tolerance-deg");
    refuses({"calibrate", "--point", "0=1.1", "--gain", "steep"}, 2, "--gain is 'steep'");
    refuses({"calibrate", "--point", "0=1.1", "--point", "90=2.2", "--known-u-deg", "-1"}, 2, "0 or more");
}

TEST_CASE("what a recording does not say is asked for", "[cli]") {
    const test::ScratchFolder folder;
    std::string text = "Time (s),Angle (deg)\n";
    for (int i = 0; i < 300; ++i) {
        text += std::to_string(0.01 * i) + "," + std::to_string(i % 100) + "\n";
    }
    const std::string file = (folder.path() / "x.csv").string();
    write_whole_file(file, text);
    refuses({"check", file}, 2, "whose angle this is, the recording does not say");
    refuses({"range", file, "--motion", "flexion"}, 2, "--motion needs a joint");
    refuses({"range", file, "--trial", "2"}, 2, "trial 2 was asked for");
    refuses({"range", elbow, "--neutral-deg", "170", "--neutral-file", elbow}, 2, "both put zero somewhere");
}

TEST_CASE("a recording that is its own recording of the neutral posture keeps its range", "[cli]") {
    CHECK(flexion_of({"range", elbow, "--neutral-file", elbow, "--format", "csv"}) ==
          flexion_of({"range", elbow, "--format", "csv"}));
}

TEST_CASE("angles are written as the name of the output says, and read back as they were", "[cli][angles]") {
    const test::ScratchFolder folder;
    const std::string edf = (folder.path() / "arm.edf").string();
    const std::string bids = (folder.path() / "sub-1_task-x_tracksys-g_motion.tsv").string();
    refuses({"angles", elbow, "--format", "table"}, 2, "expected csv or json");
    CHECK(test::run_program({"angles", elbow, "--output", bids}).status == 0);
    const std::string flexion = flexion_of({"range", elbow, "--format", "csv"});
    CHECK(flexion_of({"range", bids, "--joint", "elbow", "--format", "csv"}) == flexion);
    const test::ProgramRun wrote = test::run_program({"angles", elbow, "--output", edf});
    if (wrote.err.find("edf-unsupported") != std::string::npos) {
        return;
    }
    CHECK(wrote.status == 0);
    CHECK(flexion_of({"range", edf, "--joint", "elbow", "--format", "csv"}) == flexion);
    const test::ProgramRun named =
        test::run_program({"inspect", edf, "--emg", "long head=4", "--angle", "angle_deg", "--angle-unit", "rad"});
    CHECK_THAT(named.out, ContainsSubstring("long head") && ContainsSubstring("rad"));
}

TEST_CASE("inspect lists the trials of a file, and numbers may have exponents and many digits", "[cli][inspect]") {
    std::string text;
    for (int i = 0; i < 60; ++i) {
        text += i % 30 == 0 ? "\nTrial " + std::to_string(1 + i / 30) + "\nTime (s),Angle (deg)\n" : "";
        text += std::to_string(i % 30) + "e-2," + (i % 30 == 7 ? "12.00000000000000000001" : std::to_string(i)) + "\n";
    }
    const test::ProgramRun run = test::run_program({"inspect", "-", "--trial", "2"}, text);
    CHECK(run.status == 0);
    CHECK_THAT(run.out, ContainsSubstring("100.000"));  // samples per second: the stamps are hundredths
    CHECK_THAT(run.out, ContainsSubstring("Trial 1") && ContainsSubstring("Trial 2"));
}

TEST_CASE("inspect says how a file is written", "[cli][inspect]") {
    const auto understood = [](const std::string& text) { return test::run_program({"inspect", "-"}, text).out; };
    std::string rows = "Time [s];Winkel [Grad]\n", wide;
    for (int i = 0; i < 40; ++i) {
        rows += std::to_string(i) + ",5;1.2" + std::to_string(10 + i % 10) + ",5\n";
    }
    for (const char c : rows) {
        wide += {c, '\0'};
    }
    CHECK_THAT(understood(rows), ContainsSubstring("mark between thousands  ."));
    CHECK_THAT(understood("\xFF\xFE" + wide), ContainsSubstring("UTF-16 little endian"));
    CHECK_THAT(understood("\xFE\xFF" + std::string(1, '\0') + wide.substr(0, wide.size() - 1)),
               ContainsSubstring("UTF-16 big endian"));
    CHECK_THAT(understood("Zeit [s];\xC4rmelwinkel [Grad]\n" + rows.substr(rows.find('\n') + 1)),
               ContainsSubstring("Windows-1252"));
}
