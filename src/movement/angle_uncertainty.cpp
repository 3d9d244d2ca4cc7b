#include <jointrom/movement/angle_uncertainty.hpp>

#include <jointrom/movement/movement_scale.hpp>

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

/// `ends` is 1 for an angle, 2 for the arc between two.
Budget common_budget(const AngleTrace& trace, Degrees distance, double ends, MomentaryNoise noise) {
    const TraceUncertainty& known = trace.uncertainty();
    const auto basis = [](bool measured) { return std::string(measured ? ", from the calibration" : ", assumed"); };
    Budget budget;
    add_if_known(budget, {.input = "gain of the sensor" + basis(known.gain_is_measured),
                          .u = known.gain_relative,
                          .sensitivity = distance.value(),
                          .degrees_of_freedom = or_infinite(known.gain_dof)});
    add_if_known(budget, {.input = "linearity of the sensor" + basis(known.linearity_is_measured),
                          .u = known.linearity.value(),
                          .sensitivity = std::sqrt(ends),
                          .degrees_of_freedom = or_infinite(known.linearity_dof)});
    if (noise == MomentaryNoise::included) {
        add_if_known(budget, {.input = "noise left by the low-pass filter",
                              .u = trace_noise(trace).angle_deg,
                              .sensitivity = std::sqrt(ends)});
    }
    return budget;
}

}  // namespace

Budget angle_budget(const AngleTrace& trace, Degrees angle, MomentaryNoise noise) {
    Budget budget = common_budget(trace, angle, 1.0, noise);
    add_if_known(budget, {.input = "neutral zero",
                          .u = trace.uncertainty().zero.value(),
                          .degrees_of_freedom = or_infinite(trace.uncertainty().zero_dof)});
    return budget;
}

Budget arc_budget(const AngleTrace& trace, Degrees arc, MomentaryNoise noise) {
    return common_budget(trace, arc, 2.0, noise);
}

double acceleration_noise_deg_s2(const AngleTrace& trace) {
    return trace_noise(trace).acceleration_deg_s2;
}

}  // namespace jointrom
