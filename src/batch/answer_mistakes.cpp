#include "answer_mistakes.hpp"

#include <jointrom/core/number_text.hpp>

#include <fmt/format.h>

#include <cmath>
#include <numbers>
#include <optional>

namespace jointrom {
namespace {

bool is_angular(const WrongReading& r) {
    return r.unit == "deg" || r.unit == "deg/s";
}

/// Whether the reading comes right when it is multiplied.
bool fits_scaled(const WrongReading& r, double factor) {
    const double allowed = r.allowed + (std::abs(factor) - 1.0) * r.half_last_digit;
    return std::abs(factor * r.value - r.computed) <= std::max(allowed, 0.0);
}

bool fits(const WrongReading& r, double treated) {
    return std::abs(treated - r.computed) <= r.allowed;
}

std::optional<Diagnosis> wrong_sense(const WrongReading& r) {
    if (fits(r, -r.value)) {
        return Diagnosis{Mistake::sign, "The size is right, the sign is not: mind which direction counts as positive."};
    }
    if (r.unit == "deg" && (fits(r, 180.0 - r.value) || fits(r, r.value - 180.0))) {
        return Diagnosis{Mistake::supplement, "This is the angle between the segments: the anatomical angle is 180 deg "
                                              "less that, counted from the neutral posture."};
    }
    if (is_angular(r) && fits_scaled(r, 180.0 / std::numbers::pi)) {
        return Diagnosis{Mistake::radians, "This is in radians: multiply by 180/pi for degrees."};
    }
    return std::nullopt;
}

std::optional<Diagnosis> something_else(const WrongReading& r) {
    const auto other = [&](const std::vector<WrongReading::Other>& candidates, Mistake mistake,
                           const char* format) -> std::optional<Diagnosis> {
        for (const auto& [name, value] : candidates) {
            if (std::abs(r.value - value) <= r.allowed) {
                return Diagnosis{mistake, fmt::format(fmt::runtime(format), name)};
            }
        }
        return std::nullopt;
    };
    if (auto found =
            other(r.other_sides, Mistake::other_side, "This is the value of {}: left and right were exchanged.")) {
        return found;
    }
    if (auto found =
            other(r.other_quantities, Mistake::other_quantity, "This is the {}: check which quantity is asked for.")) {
        return found;
    }
    return other(r.other_trials, Mistake::other_trial, "This is the value of {}: check which recording was read.");
}

std::optional<Diagnosis> wrong_size(const WrongReading& r) {
    for (const double factor : {10.0, 100.0, 1000.0}) {
        if (fits_scaled(r, factor) || fits_scaled(r, 1.0 / factor)) {
            return Diagnosis{Mistake::decimal_point, fmt::format("Off by a factor of {:g}: check the decimal point and "
                                                                 "the unit.",
                                                                 factor)};
        }
    }
    if (fits_scaled(r, 2.0)) {
        return Diagnosis{Mistake::half, "This is half of it: read from one end of the movement to the other."};
    }
    if (fits_scaled(r, 0.5)) {
        return Diagnosis{Mistake::twice, "This is twice as much: the way there counts, not there and back."};
    }
    return std::nullopt;
}

std::optional<Diagnosis> not_careful(const WrongReading& r) {
    for (const double step : {5.0, 10.0}) {
        if (std::fmod(r.value, step) == 0.0 && std::abs(r.value - r.computed) <= r.allowed + step / 2.0) {
            return Diagnosis{Mistake::rounded,
                             fmt::format("Rounded to {:g}: read the scale to the nearest division.", step)};
        }
    }
    if (std::abs(r.value - r.computed) <= 2.0 * r.allowed) {
        return Diagnosis{Mistake::near, "Close, but outside what the measurement allows: read it once more."};
    }
    return std::nullopt;
}

}  // namespace

Diagnosis diagnosis(const WrongReading& reading) {
    for (const auto rule : {wrong_sense, something_else, wrong_size, not_careful}) {
        if (auto found = rule(reading)) {
            return *std::move(found);
        }
    }
    return {Mistake::unexplained, reading.value > reading.computed
                                      ? "Too large, and no usual mistake explains it: measure again."
                                      : "Too small, and no usual mistake explains it: measure again."};
}

}  // namespace jointrom
