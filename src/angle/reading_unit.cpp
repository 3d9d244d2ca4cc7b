#include "reading_unit.hpp"

#include <jointrom/core/failure.hpp>
#include <jointrom/core/number_text.hpp>

#include <array>
#include <cmath>
#include <numbers>

namespace jointrom {
namespace {

enum class Quantity { angle, voltage, counts };

struct Unit {
    std::string_view name;
    Quantity quantity;
    double factor;  ///< to degrees, volts, counts
};

constexpr double degrees_per_radian = 180.0 / std::numbers::pi;

constexpr auto units = std::to_array<Unit>({
    {"deg", Quantity::angle, 1.0},
    {"degree", Quantity::angle, 1.0},
    {"degrees", Quantity::angle, 1.0},
    {"\u00b0", Quantity::angle, 1.0},
    {"rad", Quantity::angle, degrees_per_radian},
    {"radian", Quantity::angle, degrees_per_radian},
    {"radians", Quantity::angle, degrees_per_radian},
    {"mrad", Quantity::angle, degrees_per_radian / 1000.0},
    {"v", Quantity::voltage, 1.0},
    {"volt", Quantity::voltage, 1.0},
    {"volts", Quantity::voltage, 1.0},
    {"mv", Quantity::voltage, 1e-3},
    {"uv", Quantity::voltage, 1e-6},
    {"\u00b5v", Quantity::voltage, 1e-6},
    {"\u03bcv", Quantity::voltage, 1e-6},
    {"count", Quantity::counts, 1.0},
    {"counts", Quantity::counts, 1.0},
    {"adc", Quantity::counts, 1.0},
    {"raw", Quantity::counts, 1.0},
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
    if (!a || !b || a->quantity != b->quantity) {
        throw Failure(FailureKind::usage, "calibration-unit",
                      "the angle channel is in '" + std::string(from) + "', the calibration is for '" +
                          std::string(to) + "'",
                      "Choose the calibration of this sensor, another column with --angle, or state --angle-unit.");
    }
    return a->factor / b->factor;
}

ReadingScale calibrated_scale(std::string_view unit, const Calibration& calibration) {
    const double factor = conversion(unit, calibration.unit);
    return {calibration.gain_deg_per_unit * factor, calibration.offset_deg,
            "calibrated: " + fixed_text(calibration.gain_deg_per_unit, 4) + " deg per " + calibration.unit + ", " +
                fixed_text(calibration.offset_deg, 2) + " deg at 0"};
}

ReadingScale uncalibrated_scale(std::string_view unit) {
    const std::optional<Unit> known = find_unit(unit);
    if (!known || known->quantity != Quantity::angle) {
        throw Failure(FailureKind::usage, "calibration-needed",
                      "the angle channel is in '" + std::string(unit) + "', which is no angle",
                      "Give --calibration FILE (make one with `calibrate`), or --angle-unit if it is an angle.");
    }
    return {known->factor, 0.0, known->factor == 1.0 ? "" : "converted from " + std::string(unit) + " to degrees"};
}

}  // namespace

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
