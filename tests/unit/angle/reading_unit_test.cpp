#include <angle/reading_unit.hpp>

#include <jointrom/core/failure.hpp>

#include <support/catch.hpp>

using namespace jointrom;

namespace {

ReadingScale scale_of(std::string_view channel, std::string_view stated = {},
                      const std::optional<Calibration>& calibration = std::nullopt) {
    Findings findings;
    return reading_scale(channel, stated, calibration, findings);
}

std::string code_of(std::string_view channel, std::string_view stated = {},
                    const std::optional<Calibration>& calibration = std::nullopt) {
    try {
        (void)scale_of(channel, stated, calibration);
    } catch (const Failure& failure) {
        CHECK(failure.kind() == FailureKind::usage);
        return failure.code();
    }
    return "accepted";
}

Calibration in_volts() {
    Calibration calibration;
    calibration.unit = "V";
    calibration.gain_deg_per_unit = 80.0;
    calibration.offset_deg = -51.6;
    return calibration;
}

}  // namespace

TEST_CASE("angles become degrees without a calibration", "[angle][reading_unit]") {
    CHECK(scale_of("deg").gain_deg == 1.0);
    CHECK(scale_of("\u00b0").gain_deg == 1.0);
    CHECK(scale_of("Degrees").gain_deg == 1.0);
    CHECK_THAT(scale_of("rad").gain_deg, WithinRel(57.29577951308232, 1e-14));
    CHECK_THAT(scale_of("", "rad").gain_deg, WithinRel(57.29577951308232, 1e-14));
    CHECK(scale_of("deg").step.empty());
    CHECK_FALSE(scale_of("rad").step.empty());
}

TEST_CASE("volts and counts need a calibration", "[angle][reading_unit]") {
    CHECK(code_of("V") == "calibration-needed");
    CHECK(code_of("mV") == "calibration-needed");
    CHECK(code_of("counts") == "calibration-needed");
    CHECK(code_of("furlongs") == "calibration-needed");
    CHECK(code_of("V", "deg") == "accepted");
    CHECK(code_of("deg", "furlongs") == "angle-unit-unknown");
}

TEST_CASE("a calibration fits its unit with another prefix and no other quantity", "[angle][reading_unit]") {
    CHECK_THAT(scale_of("V", {}, in_volts()).gain_deg, WithinRel(80.0, 1e-14));
    CHECK_THAT(scale_of("mV", {}, in_volts()).gain_deg, WithinRel(0.08, 1e-14));
    CHECK_THAT(scale_of("mV", {}, in_volts()).offset_deg, WithinRel(-51.6, 1e-14));
    CHECK(code_of("deg", {}, in_volts()) == "calibration-unit");
    CHECK(code_of("counts", {}, in_volts()) == "calibration-unit");
    Calibration odd = in_volts();
    odd.unit = "clicks";
    CHECK(scale_of("clicks", {}, odd).gain_deg == 80.0);
    CHECK(code_of("V", "clicks", odd) == "accepted");
}

TEST_CASE("a unit that is not named is assumed and said", "[angle][reading_unit]") {
    Findings findings;
    CHECK(reading_scale("", "", std::nullopt, findings).gain_deg == 1.0);
    REQUIRE(findings.size() == 1);
    CHECK(findings[0].code() == "unit-assumed");
    findings.clear();
    CHECK(reading_scale("", "", in_volts(), findings).gain_deg == 80.0);
    CHECK(contains(findings, "unit-assumed"));
    CHECK_THAT(findings[0].text, ContainsSubstring("V was taken"));
}
