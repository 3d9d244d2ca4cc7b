#include <jointrom/movement/angle_uncertainty.hpp>

#include "movement_scale.hpp"

#include <cmath>
#include <limits>

namespace jointrom {
namespace {

/// So many degrees of freedom that the normal distribution holds.
double or_infinite(double degrees_of_freedom) {
    return degrees_of_freedom < 1e9 ? degrees_of_freedom : std::numeric_limits<double>::infinity();
}

void add_if_known(Budget& budget, BudgetLine line) {
    if (line.contribution() > 0.0) {
        budget.add(std::move(line));
    }
}

}  // namespace

Budget angle_budget(const AngleTrace& trace, Degrees angle, MomentaryNoise noise) {
    const TraceUncertainty& known = trace.uncertainty();
    const auto basis = [](bool measured) { return std::string(measured ? ", from the calibration" : ", assumed"); };
    const auto repeats = [](bool measured) { return std::string(measured ? "calibration" : ""); };
    Budget budget;
    add_if_known(budget, {.input = "gain of the sensor" + basis(known.gain_is_measured),
                          .u = known.gain_relative,
                          .sensitivity = (angle - known.gain_centre).value(),
                          .degrees_of_freedom = or_infinite(known.gain_dof),
                          .common_to = CommonTo::calibration,
                          .repeats = repeats(known.gain_is_measured)});
    add_if_known(budget, {.input = "linearity of the sensor" + basis(known.linearity_is_measured),
                          .u = known.linearity.value(),
                          .degrees_of_freedom = or_infinite(known.linearity_dof),
                          .repeats = repeats(known.linearity_is_measured)});
    if (known.zero_is_read) {
        add_if_known(budget, {.input = "linearity of the sensor at neutral" + basis(known.linearity_is_measured),
                              .u = known.linearity.value(),
                              .degrees_of_freedom = or_infinite(known.linearity_dof),
                              .common_to = CommonTo::recording,
                              .repeats = repeats(known.linearity_is_measured)});
    }
    if (noise == MomentaryNoise::included) {
        add_if_known(budget, {.input = "noise left by the low-pass filter", .u = trace_noise(trace).angle_deg});
    }
    add_if_known(budget, {.input = known.zero_is_calibrated ? "zero of the calibration" : "neutral zero",
                          .u = known.zero.value(),
                          .degrees_of_freedom = or_infinite(known.zero_dof),
                          .common_to = known.zero_is_calibrated ? CommonTo::calibration : CommonTo::recording,
                          .repeats = repeats(known.zero_is_calibrated)});
    return budget;
}

Budget arc_budget(const AngleTrace& trace, Degrees arc, MomentaryNoise noise) {
    const Degrees from = trace.uncertainty().gain_centre;
    return difference(angle_budget(trace, from + arc, noise), angle_budget(trace, from, noise), CommonTo::recording);
}

double acceleration_noise_deg_s2(const AngleTrace& trace) {
    return trace_noise(trace).acceleration_deg_s2;
}

}  // namespace jointrom
