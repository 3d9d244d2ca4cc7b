#include <jointrom/angle/calibration_file.hpp>

#include <jointrom/core/failure.hpp>
#include <jointrom/core/whole_file.hpp>

#include <support/catch.hpp>
#include <support/reference_file.hpp>

#include <cmath>

using namespace jointrom;

namespace {

Calibration example(std::size_t count) {
    const double known_deg[] = {0.0, 45.0, 90.0, 121.5}, readings[] = {0.511, 1.487, 2.512, 3.1845};
    std::vector<CalibrationPoint> points;
    for (std::size_t i = 0; i < count; ++i) {
        points.push_back({.known_deg = known_deg[i],
                          .known_u_deg = 0.25,
                          .reading = readings[i],
                          .reading_sd = 0.0071,
                          .effective_count = 81.5,
                          .approach = Approach::rising,
                          .source = "jig \"north\".csv@2,4"});
    }
    Findings findings;
    return fit_calibration(
        points, {.unit = "V", .motion = joint_motion("elbow"), .side = Side::left, .gain_deg_per_unit = 40.0},
        findings);
}

std::string changed(std::string text, std::string_view from, std::string_view to) {
    const std::size_t at = text.find(from);
    REQUIRE(at != std::string::npos);
    return text.replace(at, from.size(), to);
}

Failure failure_of(std::string_view text) {
    try {
        (void)parse_calibration(text, "elbow.json");
    } catch (const Failure& failure) {
        return failure;
    }
    throw std::logic_error("was accepted");
}

}  // namespace

TEST_CASE("a calibration that is written and read is the same to the last digit", "[angle][calibration_file]") {
    for (const std::size_t count : {1U, 2U, 3U, 4U}) {
        const Calibration before = example(count);
        const std::string text = calibration_text(before);
        const Calibration after = parse_calibration(text);
        CHECK(calibration_text(after) == text);
        CHECK(after.points == before.points);
        CHECK(after.gain_deg_per_unit == before.gain_deg_per_unit);
        CHECK(after.degrees_of_freedom == before.degrees_of_freedom);
        CHECK(std::isnan(after.residual_sd_deg) == (count < 3));
        CHECK(after.side == Side::left);
        CHECK(after.rises_with == "flexion");
    }
}

TEST_CASE("the JSON Schema of the calibration file names its keys and no others", "[angle][calibration_file]") {
    const auto schema = test::reference_json("../data/schemas/calibration.schema.json");
    const auto file = nlohmann::json::parse(calibration_text(example(4)));
    const auto check_keys = [](const nlohmann::json& object_schema, const nlohmann::json& object) {
        CHECK(object_schema["properties"].size() == object.size());
        CHECK(object_schema["required"].size() == object.size());
        for (const auto& [key, value] : object.items()) {
            CAPTURE(key);
            CHECK(object_schema["properties"].contains(key));
        }
    };
    check_keys(schema, file);
    check_keys(schema["properties"]["points"]["items"], file["points"][0]);
    CHECK(schema["additionalProperties"] == false);
}

TEST_CASE("a damaged calibration file is refused with what was expected", "[angle][calibration_file]") {
    const std::string good = calibration_text(example(4));
    const auto check_refused = [&](const std::string& text, const std::string& found, const std::string& expected) {
        const Failure failure = failure_of(text);
        CAPTURE(failure.what(), failure.advice());
        CHECK(failure.code() == "calibration-file-invalid");
        CHECK(failure.kind() == FailureKind::unreadable_data);
        CHECK(failure.place().file == "elbow.json");
        CHECK_THAT(failure.what(), ContainsSubstring(found));
        CHECK_THAT(failure.advice(), ContainsSubstring(expected));
    };
    check_refused(changed(good, "\"offset_deg\"", "\"ofset_deg\""), "no key 'offset_deg'", "this key");
    check_refused(changed(good, "\"unit\"", "\"colour\": 1, \"unit\""), "unknown key 'colour'", "no such key");
    check_refused(changed(good, "\"unit\"", "\"units\": \"V\", \"unit\""), "unknown key 'units'", "'unit'");
    check_refused(changed(good, "\"unit\": \"V\"", "\"unit\": 5"), "'unit'", "text");
    check_refused(changed(good, "\"offset_deg\": ", "\"offset_deg\": \"12\", \"x\": "), "'offset_deg'", "a number");
    check_refused(changed(good, "\"version\": 1", "\"version\": 2"), "version is 2", "version 1");
    check_refused(changed(good, "jointrom-calibration", "something-else"), "something-else", "jointrom-calibration");
    check_refused(changed(good, "\"rising\"", "\"upwards\""), "upwards", "rising or falling");
    check_refused(changed(good, "\"reading\": 1.487", "\"reading\": 1.5"), "residual of point 2", "belong together");
    check_refused(changed(good, "\"rises_with\": \"flexion\"", "\"rises_with\": \"extension\""), "rises_with",
                  "flexion");
    check_refused("[]", "array", "an object");
    check_refused("{}", "schema", "this key");
    check_refused("", "no JSON", "a calibration file");
    check_refused("time;angle\n0;12\n", "no JSON", "a calibration file");
    check_refused(changed(good, "\"reading\": 1.487", "\"reading\": 1e400"), "number overflow parsing '1e400'",
                  "1.8e308");
}

TEST_CASE("broken JSON is placed by line and column", "[angle][calibration_file]") {
    const Failure failure = failure_of("{\n  \"schema\": \"jointrom-calibration\",\n  \"version\" 1\n}\n");
    CHECK(failure.place().line == 3);
    CHECK(failure.place().column == 13);
}

TEST_CASE("a calibration file is read from disk and a missing one is named", "[angle][calibration_file]") {
    const auto path = std::filesystem::temp_directory_path() / "jointrom_calibration_file_test.json";
    write_whole_file(path, calibration_text(example(3)));
    CHECK(read_calibration(path).points.size() == 3);
    std::filesystem::remove(path);
    try {
        (void)read_calibration(path);
        FAIL("was accepted");
    } catch (const Failure& failure) {
        CHECK(failure.kind() == FailureKind::missing_file);
        CHECK(failure.place().file == path.string());
    }
}
