#include <jointrom/angle/angle_trace.hpp>
#include <jointrom/core/failure.hpp>
#include <jointrom/core/whole_file.hpp>
#include <jointrom/recording/annotations.hpp>
#include <jointrom/recording/edf_recording.hpp>
#include <jointrom/report/edf_file.hpp>

#include <support/catch.hpp>
#include <support/edf_text.hpp>
#include <support/made_trace.hpp>
#include <support/scratch_folder.hpp>

#include <cmath>
#include <functional>
#include <limits>

using namespace jointrom;

namespace {

std::string code_of(const std::function<void()>& run) {
    try {
        run();
    } catch (const Failure& failure) {
        return failure.code();
    }
    return "nothing was thrown";
}

ReadingOptions with_angle(const std::string& column) {
    ReadingOptions options;
    options.angle_column = column;
    return options;
}

bool is_built_with_edf() {
    return code_of([] { (void)read_edf("no-such-file.edf", {}); }) != "edf-unsupported";
}

}  // namespace

TEST_CASE("an EDF file is read with each signal's own rate, unit and role", "[recording][edf_recording]") {
    if (!is_built_with_edf()) {
        return;
    }
    const test::ScratchFolder folder;
    const auto path = folder.path() / "arm.EDF";
    write_whole_file(path,
                     test::edf_text({{"Elbow angle", "deg", -200, 200, {-1000, 0, 500, 1000}},
                                     {"EMG Biceps", "uV", -5000, 5000, {100, 200, -300, 400, 500, 600, 700, 800}}}));
    const Recording recording = read_recording(path);
    REQUIRE(recording.channels.size() == 2);
    const Channel& angle = angle_channel(recording);
    CHECK(angle.name == "Elbow angle");
    CHECK(angle.times.rate().value() == 4.0);
    const std::vector<double> wanted_deg{-200.0, 0.0, 100.0, 200.0};
    for (std::size_t i = 0; i < 4; ++i) {
        CHECK_THAT(angle.samples[i], WithinAbs(wanted_deg[i], 1e-9));
    }
    const Channel& muscle = recording.channels[1];
    CHECK(muscle.role == ChannelRole::emg);
    CHECK(muscle.unit == "mV");
    CHECK(muscle.times.rate().value() == 8.0);
    CHECK_THAT(muscle.samples[2], WithinAbs(-1.5, 1e-9));
    CHECK(code_of([&] { (void)read_recording(path, with_angle("Elbw angle")); }) == "column-missing");
    CHECK(read_recording(path, with_angle("2")).angle == 1U);

    write_whole_file(path, "time,angle\n0,1\n1,2\n");
    CHECK(code_of([&] { (void)read_recording(path); }) == "edf-unreadable");
    CHECK(code_of([&] { (void)read_recording(folder.path() / "none.edf"); }) == "file-missing");
}

TEST_CASE("an angle, its muscles and phases are written as EDF+ and read back", "[report][edf_file]") {
    if (!is_built_with_edf()) {
        return;
    }
    const test::ScratchFolder folder;
    std::vector<double> angle_deg;
    for (int i = 0; i < 1030; ++i) {
        angle_deg.push_back(70.0 - 70.0 * std::cos(0.02 * i));
    }
    const AngleTrace trace =
        trace_from_angles(angle_deg, Hertz(100.0), Seconds(0.0), joint_motion("elbow"), Side::right);
    Recording recording;
    Channel& muscle = recording.channels.emplace_back();
    muscle.name = "Biceps EMG";
    muscle.unit = "mV";
    muscle.role = ChannelRole::emg;
    for (int i = 0; i < 10300; ++i) {
        muscle.samples.push_back(std::sin(0.3 * i));
    }
    muscle.times = TimeBase::regular(Seconds(0.0), Hertz(1000.0), muscle.samples.size());
    const auto phases = movement_phases(trace).phases;
    REQUIRE(phases.size() > 3);
    const auto path = folder.path() / "arm.edf";
    write_edf(path, trace, recording, phases);

    const std::string bytes = read_whole_file(path, "EDF");
    CHECK(bytes.substr(0, 8) == "0       ");
    CHECK(bytes.substr(192, 5) == "EDF+C");
    CHECK(bytes.find("\x14toward flexion\x14") != std::string::npos);
    CHECK(bytes.find("\x14"
                     "end of the recording\x14") != std::string::npos);
    write_edf(path, trace, recording, phases);
    CHECK(read_whole_file(path, "EDF") == bytes);
    CHECK(std::distance(std::filesystem::directory_iterator(folder.path()), {}) == 1);

    const Recording read = read_recording(path);
    REQUIRE(read.channels.size() == 4);
    const Channel& angle = angle_channel(read);
    CHECK(angle.name == "angle_deg");
    REQUIRE(angle.samples.size() == angle_deg.size());  // without what fills up the last second
    CHECK(angle.times.count() == angle_deg.size());
    for (std::size_t i = 0; i < angle_deg.size(); ++i) {
        CHECK(std::abs(angle.samples[i] - angle_deg[i]) < 400.0 / 131070.0 + 1e-9);
    }
    CHECK(read.channels[3].times.rate().value() == 1000.0);
    CHECK(read.channels[3].samples.size() == muscle.samples.size());
    CHECK_THAT(read.channels[3].samples[1], WithinAbs(std::sin(0.3), 2.0 / 131070.0));
}

TEST_CASE("phases written as annotations are read back with their times", "[report][edf_file]") {
    if (!is_built_with_edf()) {
        return;
    }
    const test::ScratchFolder folder;
    const auto angle_deg = test::minimum_jerk_path(test::repeated(3, 0.0, 120.0), 128.0);
    const AngleTrace trace =
        trace_from_angles(angle_deg, Hertz(128.0), Seconds(2.5), joint_motion("elbow"), Side::right);
    const auto phases = movement_phases(trace).phases;
    REQUIRE(phases.size() > 6);
    write_edf(folder.path() / "arm.edf", trace, {}, phases);

    const Annotations read = read_annotations(folder.path() / "arm.edf");
    CHECK(read.findings.empty());
    REQUIRE(read.rows.size() == phases.size() + 1);
    constexpr double tick_s = 1e-4;
    for (std::size_t i = 0; i < phases.size(); ++i) {
        CHECK_THAT(read.rows[i].start.value(), WithinAbs((phases[i].start - trace.start()).value(), 0.51 * tick_s));
        CHECK_THAT(read.rows[i].duration.value(), WithinAbs(phases[i].duration().value(), 0.51 * tick_s));
        CHECK(read.rows[i].text == name_of(phases[i].kind, trace.motion()));
    }
    CHECK(read.rows.back().text == end_annotation);
}

TEST_CASE("an EDF file that holds no usable signals is refused", "[recording][edf_recording]") {
    if (!is_built_with_edf()) {
        return;
    }
    const test::ScratchFolder folder;
    const auto path = folder.path() / "arm.edf";
    const auto code = [&](const std::string& text) {
        write_whole_file(path, text);
        return code_of([&] { (void)read_recording(path); });
    };
    using namespace std::string_literals;
    CHECK(code(test::edf_text({}, "+0\x14\x14\0+1\x14x\x14\0"s)) == "no-channels");
    CHECK(code(test::edf_text({{"Elbow angle", "deg", -200, 200, {7}}})) == "too-few-rows");
    std::string text = test::edf_text({{"Elbow angle", "deg", -200, 200, {7, 8, 9, 10}}});
    text.replace(244, 8, "0.000001");  // duration of a record in seconds
    CHECK(code(text) == "rate-implausible");
}

TEST_CASE("what EDF cannot hold is refused", "[report][edf_file]") {
    if (!is_built_with_edf()) {
        return;
    }
    const test::ScratchFolder folder;
    const auto path = folder.path() / "x.edf";
    std::vector<double> gapped(100, 1.0);
    gapped[50] = std::numeric_limits<double>::quiet_NaN();
    const auto write = [&](std::vector<double> angle_deg, double rate_hz) {
        write_edf(path, trace_from_angles(std::move(angle_deg), Hertz(rate_hz)), {}, {});
    };
    CHECK(code_of([&] { write(gapped, 100.0); }) == "edf-gap");
    CHECK(code_of([&] { write(std::vector<double>(100, 1.0), 99.9871); }) == "edf-rate");
    CHECK(code_of([&] {
              write_edf(folder.path() / "no/such/folder/x.edf", trace_from_angles({1.0, 2.0, 3.0}, Hertz(1.0)), {}, {});
          }) == "cannot-create");
    CHECK_FALSE(std::filesystem::exists(path));
    write(std::vector<double>(100, 1.0), 12.5);  // records of two seconds
    CHECK(read_recording(path).channels.front().times.rate().value() == 12.5);
}
