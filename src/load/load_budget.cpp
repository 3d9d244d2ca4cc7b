#include "load_budget.hpp"

#include <jointrom/movement/angle_uncertainty.hpp>

#include <fmt/format.h>

#include <cmath>
#include <limits>
#include <numbers>

namespace jointrom {
namespace {

constexpr double radians_per_deg = std::numbers::pi / 180.0;

void add_if_any(Budget& budget, BudgetLine line) {
    if (line.contribution() > 0.0) {
        budget.add(std::move(line));
    }
}

/// What one kilogram at distance L contributes to the result is `first` * L + `second` * L^2.
struct MassEffect {
    double first;
    double second;
};

void add_masses(Budget& budget, const LoadModel& model, MassEffect effect) {
    const auto numbered = [&](const char* what, std::size_t i) {
        return model.masses.size() == 1 ? std::string(what) : fmt::format("{} {}", what, i + 1);
    };
    for (std::size_t i = 0; i < model.masses.size(); ++i) {
        const HeldMass& held = model.masses[i];
        add_if_any(budget, {.input = numbered("mass of the load", i),
                            .u = held.u_mass_kg,
                            .sensitivity = effect.first * held.at_m + effect.second * held.at_m * held.at_m});
        add_if_any(budget, {.input = numbered("distance of the load", i),
                            .u = held.u_at_m,
                            .sensitivity = held.mass_kg * (effect.first + 2.0 * effect.second * held.at_m)});
    }
    const Limb& limb = model.limb;
    const double weight_part = effect.first * limb.mass_kg * limb.com_m;
    const double inertia_part = effect.second * limb.inertia_kg_m2;
    add_if_any(
        budget,
        {.input = "mass of the limb, relative", .u = limb.u_mass_relative, .sensitivity = weight_part + inertia_part});
    add_if_any(budget, {.input = "centre of mass of the limb, relative",
                        .u = limb.u_com_relative,
                        .sensitivity = weight_part + 2.0 * inertia_part});
}

/// The budget of `factor` times the result.
Budget scaled(const Budget& budget, double factor) {
    Budget result;
    for (BudgetLine line : budget.lines()) {
        line.sensitivity *= factor;
        result.add(std::move(line));
    }
    return result;
}

/// Mean of the largest of `count` standard normal values (G. Blom 1958); 0 for one.
double mean_largest(double count) {
    if (count <= 1.0) {
        return 0.0;
    }
    const double probability = (count - 0.375) / (count + 0.25);
    return student_factor(2.0 * probability - 1.0, std::numeric_limits<double>::infinity());
}

}  // namespace

Budget static_moment_budget(const LoadModel& model, Degrees joint_angle) {
    const double hanging = model.hanging_deg(joint_angle) * radians_per_deg;
    Budget budget;
    add_masses(budget, model, {model.gravity_m_s2 * std::sin(hanging), 0.0});
    add_if_any(budget, {.input = "posture of the near part (deg)",
                        .u = model.u_from_hanging.value(),
                        .sensitivity = model.horizontal_moment_nm() * std::cos(hanging) * radians_per_deg});
    return budget;
}

Budget moment_budget(const AngleTrace& trace, const LoadModel& model, const LoadSeries& series, std::size_t sample,
                     double chances) {
    const Degrees angle(trace.angle_deg()[sample]);
    const double hanging = model.hanging_deg(angle) * radians_per_deg;
    const bool accelerated = series.moment_nm[sample] != series.gravity_nm[sample];
    const double acceleration = accelerated ? trace.acceleration_deg_s2(sample) * radians_per_deg : 0.0;
    Budget budget;
    add_masses(budget, model, {model.gravity_m_s2 * std::sin(hanging), acceleration});
    const double per_deg = model.horizontal_moment_nm() * std::cos(hanging) * radians_per_deg;
    const Budget sensor = angle_budget(trace, angle);
    add_if_any(budget, {.input = "joint angle (deg)",
                        .u = sensor.standard_uncertainty(),
                        .sensitivity = per_deg,
                        .degrees_of_freedom = sensor.effective_degrees_of_freedom()});
    add_if_any(budget,
               {.input = "posture of the near part (deg)", .u = model.u_from_hanging.value(), .sensitivity = per_deg});
    if (accelerated) {
        const double noise = series.acceleration_u_deg_s2 * radians_per_deg;
        add_if_any(budget,
                   {.input = "noise of the acceleration (rad/s2)", .u = noise, .sensitivity = model.inertia_kg_m2()});
        add_if_any(budget, {.input = "picking the largest of noisy samples (rad/s2)",
                            .u = noise * mean_largest(chances),
                            .sensitivity = model.inertia_kg_m2()});
    }
    return budget;
}

Budget work_budget(const AngleTrace& trace, const LoadModel& model, std::size_t first, std::size_t last) {
    const Degrees from(trace.angle_deg()[first]);
    const Degrees to(trace.angle_deg()[last]);
    const double from_hanging = model.hanging_deg(from) * radians_per_deg;
    const double to_hanging = model.hanging_deg(to) * radians_per_deg;
    const auto half_square = [&](std::size_t i) {
        const double speed = trace.velocity_deg_s()[i] * radians_per_deg;
        return model.with_inertia ? speed * speed / 2.0 : 0.0;
    };
    Budget budget;
    add_masses(
        budget, model,
        {model.gravity_m_s2 * (std::cos(from_hanging) - std::cos(to_hanging)), half_square(last) - half_square(first)});

    const double per_deg = model.horizontal_moment_nm() * radians_per_deg;
    const double from_per_deg = per_deg * std::sin(from_hanging);
    const double to_per_deg = per_deg * std::sin(to_hanging);
    const Budget angles = difference(scaled(angle_budget(trace, to), to_per_deg),
                                     scaled(angle_budget(trace, from), from_per_deg), CommonTo::recording);
    for (const BudgetLine& line : angles.lines()) {
        add_if_any(budget, line);
    }
    add_if_any(budget, {.input = "posture of the near part (deg)",
                        .u = model.u_from_hanging.value(),
                        .sensitivity = to_per_deg - from_per_deg});
    return budget;
}

}  // namespace jointrom
