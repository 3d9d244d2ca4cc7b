#include <jointrom/angle/direction.hpp>

#include <jointrom/core/number_text.hpp>

#include <algorithm>
#include <cmath>

namespace jointrom {
namespace {

constexpr double telling_margin_deg = 15.0;

std::string range_text(Degrees low, Degrees high) {
    return fixed_text(low.value(), 0) + " to " + fixed_text(high.value(), 0) + " deg";
}

std::string limits_text(const JointMotion& motion) {
    return motion.joint + " " + motion.motion + " reaches " + range_text(motion.plausible_min, motion.plausible_max);
}

/// The range after the sign was applied.
std::pair<Degrees, Degrees> turned(Degrees low, Degrees high, int sign) {
    return sign > 0 ? std::pair(low, high) : std::pair(-high, -low);
}

Direction larger_excursion(const JointMotion& motion, Degrees low, Degrees high, Findings& findings) {
    const int sign = std::abs(low.value()) > std::abs(high.value()) ? -1 : 1;
    const auto [from, to] = turned(low, high, sign);
    findings.emplace_back("direction-unknown", "the larger excursion was taken as " + motion.positive + ": " +
                                                   range_text(from, to) + "; state it with --mirror or --no-mirror");
    return {sign,
            std::string("sign ") + (sign > 0 ? "kept" : "turned") + ": larger excursion taken as " + motion.positive};
}

}  // namespace

std::optional<Direction> stated_direction(const DirectionContext& context, Findings& findings) {
    if (context.mirror) {
        return Direction{*context.mirror ? -1 : 1, *context.mirror ? "sign turned as stated" : "sign kept as stated"};
    }
    const Calibration* const calibration = context.calibration;
    if (calibration == nullptr || calibration->rises_with.empty()) {
        return std::nullopt;
    }
    if (context.motion.is_known() &&
        (calibration->joint != context.motion.joint || calibration->motion != context.motion.motion)) {
        findings.emplace_back("calibration-other-joint", "calibrated as " + calibration->joint + " " +
                                                             calibration->motion + ", used for " +
                                                             context.motion.joint + " " + context.motion.motion);
        return std::nullopt;
    }
    const bool sides_known = calibration->side != Side::unknown && context.side != Side::unknown;
    if (sides_known && calibration->side != context.side) {
        const std::string text = "calibrated on the " + std::string(name_of(calibration->side)) + ", worn on the " +
                                 std::string(name_of(context.side));
        findings.emplace_back("calibration-side-changed", text);
        return Direction{-1, "sign turned: " + text};
    }
    return Direction{1, "sign from the calibration: reading rises with " + calibration->rises_with};
}

Degrees plausibility_margin(const JointMotion& motion, Degrees low, Degrees high, int sign) {
    const auto [from, to] = turned(low, high, sign);
    return std::min(from - motion.plausible_min, motion.plausible_max - to);
}

Direction infer_direction(const JointMotion& motion, Degrees low, Degrees high, Findings& findings) {
    if (!motion.is_known()) {
        return larger_excursion(motion, low, high, findings);
    }
    const double kept_deg = plausibility_margin(motion, low, high, 1).value();
    const double turned_deg = plausibility_margin(motion, low, high, -1).value();
    if (std::abs(kept_deg - turned_deg) < telling_margin_deg) {
        return larger_excursion(motion, low, high, findings);
    }
    const int sign = kept_deg > turned_deg ? 1 : -1;
    const auto [from, to] = turned(low, high, sign);
    const auto [other_from, other_to] = turned(low, high, -sign);
    findings.emplace_back("direction-inferred", std::string("sign ") +
                                                    (sign > 0 ? "kept (--no-mirror)" : "turned (--mirror)") + ": " +
                                                    range_text(from, to) + " fits better than " +
                                                    range_text(other_from, other_to) + "; " + limits_text(motion));
    return {sign, std::string("sign ") + (sign > 0 ? "kept" : "turned") + ": " + range_text(from, to) +
                      " is what the joint can do"};
}

void judge_direction(const JointMotion& motion, Degrees low, Degrees high, Findings& findings) {
    if (!motion.is_known() || !(plausibility_margin(motion, low, high, 1) < Degrees(0.0))) {
        return;
    }
    const bool other_fits = plausibility_margin(motion, low, high, -1) >= Degrees(0.0);
    findings.emplace_back(other_fits ? "direction-implausible" : "angle-implausible",
                          "the angle goes from " + range_text(low, high) + ", but " + limits_text(motion));
}

}  // namespace jointrom
