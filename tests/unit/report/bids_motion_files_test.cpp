#include <jointrom/angle/angle_trace.hpp>
#include <jointrom/core/failure.hpp>
#include <jointrom/core/whole_file.hpp>
#include <jointrom/recording/bids_motion.hpp>
#include <jointrom/report/bids_motion_files.hpp>

#include <support/catch.hpp>
#include <support/scratch_folder.hpp>

#include <nlohmann/json.hpp>

#include <cmath>
#include <limits>

using namespace jointrom;

namespace {

const std::string stem = "sub-P01_task-elbow_tracksys-goniometer";

std::string code_of(const std::function<void()>& run) {
    try {
        run();
    } catch (const Failure& failure) {
        return failure.code();
    }
    return "nothing was thrown";
}

void write_set(const std::filesystem::path& folder, const std::string& channels, const std::string& sidecar,
               const std::string& motion) {
    write_whole_file(folder / (stem + "_channels.tsv"), channels);
    write_whole_file(folder / (stem + "_motion.json"), sidecar);
    write_whole_file(folder / (stem + "_motion.tsv"), motion);
}

}  // namespace

TEST_CASE("an angle written as a BIDS motion recording is read back as it was", "[report][bids_motion_files]") {
    const test::ScratchFolder folder;
    std::vector<double> angle_deg;
    for (int i = 0; i < 60; ++i) {
        angle_deg.push_back(70.0 - 70.0 * std::cos(0.1 * i));
    }
    angle_deg[30] = std::numeric_limits<double>::quiet_NaN();
    const AngleTrace trace =
        trace_from_angles(angle_deg, Hertz(50.0), Seconds(0.0), joint_motion("elbow"), Side::right);
    const auto path = folder.path() / (stem + "_motion.tsv");
    write_bids_motion(trace, path);

    const Recording recording = read_recording(path);
    const Channel& angle = angle_channel(recording);
    CHECK(angle.unit == "deg");
    CHECK(angle.times.rate().value() == 50.0);
    REQUIRE(angle.samples.size() == angle_deg.size());
    for (std::size_t i = 0; i < angle_deg.size(); ++i) {
        CHECK(std::isnan(angle.samples[i]) == std::isnan(angle_deg[i]));
        CHECK((i == 30 || std::abs(angle.samples[i] - angle_deg[i]) <= 5.1e-5));
    }
    const auto sidecar = nlohmann::json::parse(read_whole_file(folder.path() / (stem + "_motion.json"), "sidecar"));
    CHECK(sidecar["TaskName"] == "elbow");
    CHECK(sidecar["TrackingSystemName"] == "goniometer");
    CHECK(sidecar["SamplingFrequency"] == 50.0);
    CHECK(sidecar["JNTANGChannelCount"] == 1);
    CHECK(sidecar["RecordingDuration"] == 1.2);
}

TEST_CASE("a BIDS motion recording of somebody else's is read by its channels file", "[recording][bids_motion]") {
    const test::ScratchFolder folder;
    // Columns and types as the BIDS specification's section on motion recordings has them.
    write_set(folder.path(),
              "name\tcomponent\ttype\ttracked_point\tunits\n"
              "t\tn/a\tLATENCY\tn/a\ts\n"
              "knee_x\tx\tPOS\tknee\tm\n"
              "right_knee\tn/a\tJNTANG\tknee\tdeg\n",
              R"({"SamplingFrequency": 100, "TaskName": "bend"})",
              "0.00\t1.5\t2\n0.01\t1.5\t4\n0.02\tn/a\t8\n0.03\t1\t9\n");
    const Recording recording = read_recording(folder.path() / (stem + "_motion.tsv"));
    CHECK(angle_channel(recording).name == "right_knee");
    CHECK(angle_channel(recording).samples == std::vector<double>{2.0, 4.0, 8.0, 9.0});
    CHECK_THAT(angle_channel(recording).times.rate().value(), WithinRel(100.0, 1e-9));
    CHECK(recording.channels.size() == 2);
}

TEST_CASE("BIDS files that do not go together are refused", "[recording][bids_motion]") {
    const test::ScratchFolder folder;
    const auto path = folder.path() / (stem + "_motion.tsv");
    const auto read = [&] { (void)read_recording(path); };
    const std::string one = "name\ttype\tunits\nknee\tJNTANG\tdeg\n";
    CHECK(code_of(read) == "file-missing");
    write_set(folder.path(), one, R"({"SamplingFrequency": 100})", "1\t2\n3\t4\n");
    CHECK(code_of(read) == "bids-columns");
    for (const char* sidecar : {"{}", "[", R"({"SamplingFrequency": 0})", R"({"SamplingFrequency": "fast"})"}) {
        write_set(folder.path(), one, sidecar, "1\n2\n3\n");
        CHECK(code_of(read) == "bids-sidecar");
    }
    write_set(folder.path(), "name\tkind\nknee\tJNTANG\n", "{}", "1\n2\n");
    CHECK(code_of(read) == "no-such-column");
    const AngleTrace trace = trace_from_angles({1.0, 2.0, 3.0}, Hertz(10.0));
    for (const char* name : {"angles_motion.tsv", "sub-1_task-a b_tracksys-x_motion.tsv", "sub-1_task-x_motion.tsv"}) {
        CHECK(code_of([&] { (void)bids_motion_files(trace, name); }) == "bids-name");
    }
}
