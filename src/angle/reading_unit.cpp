#include "reading_unit.hpp"

#include <jointrom/core/failure.hpp>
#include <jointrom/core/number_text.hpp>

#include <array>
#include <cmath>
#include <numbers>

namespace jointrom {
namespace {

enum class UnitKind { angle, voltage, counts };

struct Unit {
    std::string_view name;
    UnitKind kind;
    double factor;  ///< to degrees, volts, counts
};

constexpr double degrees_per_radian = 180.0 / std::numbers::pi;

constexpr auto units = std::to_array<Unit>({
    {"deg", UnitKind::angle, 1.0},
    {"degree", UnitKind::angle, 1.0},
    {"degrees", UnitKind::angle, 1.0},
    {"\u00b0", UnitKind::angle, 1.0},
    {"rad", UnitKind::angle, degrees_per_radian},
    {"radian", UnitKind::angle, degrees_per_radian},
    {"radians", UnitKind::angle, degrees_per_radian},
    {"mrad", UnitKind::angle, degrees_per_radian / 1000.0},
    {"v", UnitKind::voltage, 1.0},
    {"volt", UnitKind::voltage, 1.0},
    {"volts", UnitKind::voltage, 1.0},
    {"mv", UnitKind::voltage, 1e-3},
    {"uv", UnitKind::voltage, 1e-6},
    {"\u00b5v", UnitKind::voltage, 1e-6},
    {"\u03bcv", UnitKind::voltage, 1e-6},
    {"count", UnitKind::counts, 1.0},
    {"counts", UnitKind::counts, 1.0},
    {"adc", UnitKind::counts, 1.0},
    {"raw", UnitKind::counts, 1.0},
});

std::optional<Unit> find_unit(std::string_view text) {
    std::string name(text);
    for (char& c : name) {
        c = c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
    }
    for (const Unit& unit : units) {
        if (unit.name == name) {
            return unit;
        }
    }
    return std::nullopt;
}

/// The factor from one unit to another of the same quantity.
double conversion(std::string_view from, std::string_view to) {
    const std::optional<Unit> a = find_unit(from), b = find_unit(to);
    if (from == to) {
        return 1.0;
    }
    if (!a || !b || a->kind != b->kind) {
        throw Failure(FailureKind::usage, "calibration-unit",
                      "the angle channel is in '" + std::string(from) + "', the calibration is for '" +
                          std::string(to) + "'",
                      "Choose the calibration of this sensor, another column with --angle, or state --angle-unit.");
    }
    return a->factor / b->factor;
}

ReadingScale calibrated_scale(std::string_view unit, const Calibration& calibration) {
    const double factor = conversion(unit, calibration.unit);
    return {calibration.gain_deg_per_unit * factor, calibration.offset_deg, full_turn_in(unit),
            "calibrated: " + fixed_text(calibration.gain_deg_per_unit, 4) + " deg per " + calibration.unit + ", " +
                fixed_text(calibration.offset_deg, 2) + " deg at 0"};
}

ReadingScale uncalibrated_scale(std::string_view unit) {
    const std::optional<Unit> known = find_unit(unit);
    if (!known || known->kind != UnitKind::angle) {
        throw Failure(FailureKind::usage, "calibration-needed",
                      "the angle channel is in '" + std::string(unit) + "', which is no angle",
                      "Give --calibration FILE (make one with `calibrate`), or --angle-unit if it is an angle.");
    }
    return {known->factor, 0.0, full_turn_in(unit),
            known->factor == 1.0 ? "" : "converted from " + std::string(unit) + " to degrees"};
}

}  // namespace

double full_turn_in(std::string_view unit) {
    const std::optional<Unit> known = find_unit(unit);
    return known && known->kind == UnitKind::angle ? 360.0 / known->factor : std::numeric_limits<double>::quiet_NaN();
}

ReadingScale reading_scale(std::string_view channel_unit, std::string_view stated_unit,
                           const std::optional<Calibration>& calibration, Findings& findings) {
    if (!stated_unit.empty() && !find_unit(stated_unit) && !(calibration && calibration->unit == stated_unit)) {
        throw Failure(FailureKind::usage, "angle-unit-unknown",
                      "'" + std::string(stated_unit) + "' is no unit of a reading", "Write deg, rad, V, mV or counts.");
    }
    std::string unit(stated_unit.empty() ? channel_unit : stated_unit);
    if (unit.empty()) {
        unit = calibration ? calibration->unit : "deg";
        findings.emplace_back("unit-assumed", "the angle column names no unit; " + unit + " was taken");
    }
    return calibration ? calibrated_scale(unit, *calibration) : uncalibrated_scale(unit);
}

}  // namespace jointrom
