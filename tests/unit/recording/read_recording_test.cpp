#include <jointrom/recording/read_recording.hpp>

#include <jointrom/core/failure.hpp>

#include <support/catch.hpp>

#include <cmath>
#include <cstdio>
#include <functional>
#include <string>

using namespace jointrom;

namespace {

Recording read(const std::string& text, const ReadingOptions& options = {}, const std::string& name = "a.csv") {
    return recording_from_table(read_table_text(text, name), name, options);
}

/// `head`, then rows of what `row` gives for 0, 1, 2, ...
std::string table_text(const std::string& head, std::size_t rows, const std::function<std::string(std::size_t)>& row) {
    std::string text = head;
    for (std::size_t i = 0; i < rows; ++i) {
        text += row(i) + "\n";
    }
    return text;
}

std::string number(double value) {
    char text[32];
    (void)std::snprintf(text, sizeof text, "%.3f", value);
    return text;
}

double bend(std::size_t i) {
    return 20.0 + 40.0 * std::sin(0.07 * static_cast<double>(i)) + 0.3 * static_cast<double>((i * 7919) % 11);
}

double crackle(std::size_t i) {
    return 0.01 * (static_cast<double>((i * 7919) % 101) - 50.0);
}

std::string plain_text(const std::string& head = "Time (s),Angle (deg),EMG (mV)\n") {
    return table_text(head, 300, [](std::size_t i) {
        return number(0.01 * static_cast<double>(i)) + "," + number(bend(i)) + "," + number(crackle(i));
    });
}

std::string without_time(std::size_t rows = 300) {
    return table_text("Angle (deg),EMG (mV)\n", rows,
                      [](std::size_t i) { return number(bend(i)) + "," + number(crackle(i)); });
}

std::string code_of(const std::function<void()>& action) {
    try {
        action();
    } catch (const Failure& failure) {
        CHECK(failure.place().file == "a.csv");
        CHECK_FALSE(failure.advice().empty());
        return failure.code();
    }
    return "no failure";
}

}  // namespace

TEST_CASE("a plain export gives an angle and a muscle channel at one rate", "[recording][read_recording]") {
    const Recording recording = read(plain_text());
    REQUIRE(recording.channels.size() == 2);
    const Channel& angle = angle_channel(recording);
    CHECK(angle.name == "Angle");
    CHECK(angle.unit == "deg");
    CHECK(angle.column == 2);
    CHECK(angle.times.rate() == Hertz(100.0));
    CHECK(angle.samples.size() == 300);
    CHECK_THAT(angle.samples[7], WithinAbs(bend(7), 5e-4));
    CHECK(recording.channels[1].role == ChannelRole::emg);
    CHECK(recording.findings.empty());
    CHECK(recording.table.time_heading == "Time (s)");
    CHECK(recording.source == "a.csv");
}

TEST_CASE("columns, names, units and rates that are stated hold", "[recording][read_recording]") {
    ReadingOptions options;
    options.angle_column = "ch a";
    options.angle_unit = "Volt";
    options.emg_columns = {{"Triceps", "2"}};
    options.rate = Hertz(50.0);
    const Recording recording =
        read(table_text("ch a,ch b\n", 100, [](std::size_t i) { return number(bend(i)) + "," + number(bend(i + 1)); }),
             options);
    CHECK(angle_channel(recording).name == "ch a");
    CHECK(angle_channel(recording).unit == "V");
    CHECK(angle_channel(recording).times.rate() == Hertz(50.0));
    CHECK(recording.channels[1].name == "Triceps");
    CHECK(recording.channels[1].role == ChannelRole::emg);
}

TEST_CASE("a muscle's name and its column belong to nothing else", "[recording][read_recording]") {
    const auto code = [](std::vector<ReadingOptions::EmgColumn> muscles, const char* angle = "") {
        ReadingOptions options;
        options.angle_column = angle;
        options.emg_columns = std::move(muscles);
        return code_of([&] { (void)read(plain_text("Time (s),Angle,EMG (mV)\n"), options); });
    };
    CHECK(code({{"biceps", "EMG"}, {"triceps", "3"}}) == "emg-twice");
    CHECK(code({{"biceps", "2"}, {"Biceps", "3"}}) == "emg-twice");
    CHECK(code({{"biceps", "2"}}, "Angle") == "emg-twice");
    CHECK(code({{"biceps", "3"}}, "Angle") == "no failure");
    CHECK(code({{"biceps", "Time"}}) == "emg-time");
    CHECK(code({{"biceps", "1"}}, "Angle") == "emg-time");
}

TEST_CASE("without a time column the rate must be stated", "[recording][read_recording]") {
    CHECK(code_of([] { (void)read(without_time()); }) == "rate-missing");
    ReadingOptions options;
    options.rate = Hertz(200.0);
    CHECK(angle_channel(read(without_time(), options)).times.rate() == Hertz(200.0));
    const Recording stated = read("Sample rate: 125 Hz\n" + without_time());
    CHECK(angle_channel(stated).times.rate() == Hertz(125.0));
    CHECK(contains(stated.findings, "rate-assumed"));
}

TEST_CASE("a channel that was filled up is thinned to its stated rate", "[recording][read_recording]") {
    const std::string text = table_text("Angle (deg),EMG (mV)\n", 4000, [](std::size_t i) {
        return number(bend((i + 15) / 20)) + "," + number(crackle(i));
    });
    ReadingOptions options;
    options.rate = Hertz(1000.0);
    CHECK(contains(read(text, options).findings, "repeated-readings"));
    options.channel_rates = {{"angle", Hertz(50.0)}};
    const Recording recording = read(text, options);
    const Channel& angle = angle_channel(recording);
    CHECK(angle.times.rate() == Hertz(50.0));
    CHECK_THAT(angle.times.time_s(0), WithinAbs(0.005, 1e-12));
    CHECK_THAT(angle.samples[4], WithinAbs(bend(5), 5e-4));
    CHECK(recording.channels[1].times.rate() == Hertz(1000.0));
    CHECK_FALSE(contains(recording.findings, "repeated-readings"));
    options.channel_rates = {{"angle", Hertz(300.0)}};
    CHECK(code_of([&] { (void)read(text, options); }) == "rate-mismatch");
}

TEST_CASE("rates of all channels give the rows the fastest of them", "[recording][read_recording]") {
    const std::string text = table_text("Angle (deg),EMG (mV)\n", 2000, [](std::size_t i) {
        return (i < 100 ? number(bend(i)) : "") + "," + number(crackle(i));
    });
    ReadingOptions options;
    options.channel_rates = {{"angle", Hertz(50.0)}, {"EMG", Hertz(1000.0)}};
    const Recording recording = read(text, options);
    CHECK(angle_channel(recording).times.rate() == Hertz(50.0));
    CHECK(angle_channel(recording).samples.size() == 100);
    CHECK(recording.channels[1].times.rate() == Hertz(1000.0));
    options.channel_rates.pop_back();
    CHECK(code_of([&] { (void)read(text, options); }) == "rate-missing");
}

TEST_CASE("a stated rate settles the unit of times and wins over them", "[recording][read_recording]") {
    const std::string counted =
        table_text("t,Angle (deg)\n", 200, [](std::size_t i) { return std::to_string(i) + "," + number(bend(i)); });
    ReadingOptions options;
    options.rate = Hertz(1000.0);
    const Recording as_milliseconds = read(counted, options);
    CHECK(angle_channel(as_milliseconds).times.rate() == Hertz(1000.0));
    CHECK(as_milliseconds.table.time_format == "milliseconds");
    options.rate = Hertz(120.0);
    const Recording contradicted = read(plain_text(), options);
    CHECK(angle_channel(contradicted).times.rate() == Hertz(120.0));
    CHECK(contains(contradicted.findings, "rate-assumed"));
}

TEST_CASE("tables that are no recording are refused", "[recording][read_recording]") {
    CHECK(code_of([] { (void)read("Time (s)\n0.00\n0.01\n0.02\n0.03\n0.04\n0.05\n"); }) == "no-channels");
    CHECK(code_of([] { (void)read("Time (s),Angle (deg)\n0.00,4.5\n"); }) == "too-few-rows");
    const auto falling = [](std::size_t i) { return number(9.0 - 0.1 * static_cast<double>(i)) + ",4.5"; };
    CHECK(code_of([&] { (void)read(table_text("Time (s),Angle (deg)\n", 50, falling)); }) == "time-unusable");
}

TEST_CASE("columns that cannot be what they are stated to be are refused", "[recording][read_recording]") {
    const auto with = [](auto set) {
        return code_of([&] {
            ReadingOptions options;
            set(options);
            (void)read(table_text("Time (s),Angle (deg),Note,Spare\n", 50,
                                  [](std::size_t i) {
                                      return number(0.01 * static_cast<double>(i)) + "," + number(bend(i)) + ",ok,";
                                  }),
                       options);
        });
    };
    CHECK(with([](ReadingOptions& options) { options.angle_column = "Note"; }) == "column-text");
    CHECK(with([](ReadingOptions& options) { options.angle_column = "Spare"; }) == "column-empty");
    CHECK(with([](ReadingOptions& options) { options.angle_column = "Knee"; }) == "column-missing");
    CHECK(with([](ReadingOptions& options) { options.time_column = "Angle"; }) == "time-unusable");
    CHECK(with([](ReadingOptions& options) { options.angle_unit = "furlong"; }) == "unit-unknown");
    CHECK(with([](ReadingOptions& options) { options.trial = 2; }) == "no-such-trial");
    CHECK(with([](ReadingOptions&) {}) == "no failure");
}

TEST_CASE("a file without anything like an angle is read and says so when asked", "[recording][read_recording]") {
    const Recording recording = read(table_text("Time (s),Force (N)\n", 50, [](std::size_t i) {
        return number(0.01 * static_cast<double>(i)) + "," + number(bend(i));
    }));
    CHECK_FALSE(recording.angle.has_value());
    CHECK(code_of([&] { (void)angle_channel(recording); }) == "angle-missing");
}

TEST_CASE("rows that were written twice are left out and the rate stays that of the clock", "[recording]") {
    const auto row = [](std::size_t i) { return number(0.05 * static_cast<double>(i)) + "," + number(bend(i)); };
    const std::string text = table_text("Time (s),Angle (deg)\n", 200,
                                        [&](std::size_t i) { return i % 10 == 9 ? row(i) + "\n" + row(i) : row(i); });
    const Recording recording = read(text);
    CHECK(contains(recording.findings, "time-repeated"));
    const Channel& angle = angle_channel(recording);
    CHECK_THAT(angle.times.rate().value(), WithinAbs(20.0, 1e-6));
    CHECK(angle.samples.size() == 200);
    CHECK_THAT(angle.times.time_s(150), WithinAbs(7.5, 1e-9));
}

TEST_CASE("muscles are left out on request where the names tell which is which", "[recording][read_recording]") {
    const auto names = [](const std::string& text, ReadingOptions options) {
        options.angle_only = true;
        const auto source = text_source(text);
        const Recording recording = read_recording(*source, "a.csv", options);
        std::string result;
        for (const Channel& channel : recording.channels) {
            result += channel.name + ";";
        }
        return result;
    };
    CHECK(names(plain_text(), {}) == "Angle;");
    CHECK(names(plain_text("t (s),Speed (deg/s),Knee\n"), {}) == "Speed;Knee;");
    ReadingOptions with_names;
    with_names.angle_column = "Biceps";
    CHECK(names(plain_text("Time (s),Biceps,EMG (mV)\n"), with_names) == "Biceps;EMG;");
    CHECK(names(plain_text("Time (s),Channel,EMG (mV)\n"), {}) == "Channel;EMG;");
    with_names = {};
    with_names.emg_columns = {{"flexor", "EMG"}};
    CHECK(names(plain_text(), with_names) == "Angle;flexor;");
}
