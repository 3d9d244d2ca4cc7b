// The exports tests/data/exports/r_*.csv, each with what went into it (r_make_exports.py).
#include <jointrom/core/failure.hpp>
#include <jointrom/recording/joint_inference.hpp>
#include <jointrom/recording/read_recording.hpp>

#include <support/catch.hpp>
#include <support/reference_file.hpp>

#include <nlohmann/json.hpp>

#include <algorithm>
#include <cmath>
#include <string>
#include <vector>

using namespace jointrom;
using nlohmann::json;

namespace {

ReadingOptions options_of(const json& given) {
    ReadingOptions options;
    options.time_column = given.value("time", "");
    options.angle_column = given.value("angle", "");
    options.angle_unit = given.value("angle_unit", "");
    if (given.contains("rate")) {
        options.rate = Hertz(given.at("rate").get<double>());
    }
    for (const json& rate : given.value("rates", json::array())) {
        options.channel_rates.push_back({rate.at(0).get<std::string>(), Hertz(rate.at(1).get<double>())});
    }
    options.missing_values = given.value("missing", std::vector<double>());
    if (given.contains("trial")) {
        options.trial = given.at("trial").get<std::size_t>();
    }
    return options;
}

std::vector<std::string> codes_of(const Findings& findings) {
    std::vector<std::string> codes;
    for (const Finding& finding : findings) {
        codes.emplace_back(finding.code());
    }
    std::ranges::sort(codes);
    return codes;
}

void check_angle(const Channel& angle, const json& expected) {
    CHECK(angle.name == expected.at("name").get<std::string>());
    CHECK(angle.unit == expected.at("unit").get<std::string>());
    CHECK(angle.column == expected.at("column").get<std::size_t>());
    CHECK(angle.times.is_regular() == expected.at("regular").get<bool>());
    CHECK_THAT(angle.times.rate().value(), WithinRel(expected.at("rate_hz").get<double>(), 1e-4));
    CHECK_THAT(angle.times.time_s(0), WithinAbs(expected.at("start_s").get<double>(), 1e-3));
    REQUIRE(angle.samples.size() == expected.at("count").get<std::size_t>());
    REQUIRE(angle.times.count() == angle.samples.size());
    const auto missing = std::ranges::count_if(angle.samples, [](double sample) { return std::isnan(sample); });
    CHECK(missing == expected.at("missing").get<std::ptrdiff_t>());
    for (const json& pick : expected.at("values")) {
        const double sample = angle.samples[pick.at(0).get<std::size_t>()];
        CAPTURE(pick.dump(), sample);
        CHECK((pick.at(1).is_null() ? std::isnan(sample) : std::abs(sample - pick.at(1).get<double>()) < 1e-9));
    }
}

void check_recording(const Recording& recording, const json& expected) {
    if (expected.contains("angle")) {
        REQUIRE(recording.angle.has_value());
        check_angle(angle_channel(recording), expected.at("angle"));
    }
    if (expected.contains("channels")) {
        REQUIRE(recording.channels.size() == expected.at("channels").size());
        for (std::size_t k = 0; k < recording.channels.size(); ++k) {
            CHECK(recording.channels[k].name == expected.at("channels")[k].at(0).get<std::string>());
            CHECK(name_of(recording.channels[k].role) == expected.at("channels")[k].at(1).get<std::string>());
            CHECK_THAT(recording.channels[k].times.rate().value(),
                       WithinRel(expected.at("channels")[k].at(2).get<double>(), 1e-4));
        }
    }
    if (expected.contains("findings") && !expected.at("findings").is_null()) {
        CHECK(codes_of(recording.findings) == expected.at("findings").get<std::vector<std::string>>());
    }
    if (expected.contains("time_format")) {
        CHECK(recording.table.time_format == expected.at("time_format").get<std::string>());
    }
    const Inferred inferred = infer_joint_and_side(recording);
    if (expected.contains("joint")) {
        CHECK(inferred.joint == expected.at("joint").get<std::string>());
    }
    if (expected.contains("side")) {
        CHECK(inferred.side == expected.at("side").get<std::string>());
    }
}

}  // namespace

TEST_CASE("exports as loggers write them give what went into them", "[recording][exports]") {
    for (const json& expected : test::reference_json("reference/recording/exports.json")) {
        const std::string file = expected.at("file");
        CAPTURE(file, expected.value("options", json::object()).dump());
        std::string failure;
        try {
            const Recording recording = read_recording(test::tests_path("data/exports/" + file),
                                                       options_of(expected.value("options", json::object())));
            for (const Finding& finding : recording.findings) {
                UNSCOPED_INFO(finding.code() << ": " << finding.text);
            }
            check_recording(recording, expected);
            if (expected.contains("failure_of_angle")) {
                (void)angle_channel(recording);
            }
        } catch (const Failure& caught) {
            failure = caught.code();
            UNSCOPED_INFO(caught.what());
            CHECK_FALSE(caught.advice().empty());
            CHECK_THAT(caught.place().file, ContainsSubstring(file));
        }
        CHECK(failure == expected.value("failure", expected.value("failure_of_angle", "")));
    }
}
