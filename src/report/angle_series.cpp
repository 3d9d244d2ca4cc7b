#include "report/json_envelope.hpp"

#include <jointrom/movement/angle_uncertainty.hpp>
#include <jointrom/report/angle_series.hpp>

#include <fmt/compile.h>
#include <fmt/format.h>

#include <array>
#include <cmath>
#include <iterator>

namespace jointrom {
namespace {

constexpr auto columns =
    std::to_array<std::string_view>({"time_s", "angle_deg", "angle_u_deg", "velocity_deg_s", "acceleration_deg_s2"});

/// Standard uncertainty of each angle: a part that is the same everywhere and one that grows with the angle.
class AngleUncertainty {
  public:
    explicit AngleUncertainty(const AngleTrace& trace)
        : at_zero_(angle_budget(trace, Degrees(0.0)).standard_uncertainty()),
          per_degree_(trace.uncertainty().gain_relative) {}

    [[nodiscard]] double at(double angle_deg) const { return std::hypot(at_zero_, per_degree_ * angle_deg); }

  private:
    double at_zero_;
    double per_degree_;
};

/// Minus zero, and what rounds to it, becomes zero.
double tidy(double value, double half_step) {
    return std::abs(value) < half_step ? 0.0 : value;
}

}  // namespace

std::string angle_series_header() {
    return fmt::format("{}\n", fmt::join(columns, ","));
}

void angle_series_csv(const AngleTrace& trace, const std::function<void(std::string_view)>& sink) {
    constexpr std::size_t block = std::size_t{1} << 16;
    const AngleUncertainty u(trace);
    fmt::memory_buffer text;
    text.append(angle_series_header());
    for (std::size_t i = 0; i < trace.size(); ++i) {
        const double time_s = trace.time(i).value();
        const double angle_deg = trace.angle_deg()[i];
        if (std::isnan(angle_deg)) {
            fmt::format_to(std::back_inserter(text), FMT_COMPILE("{:.6f},,,,\n"), time_s);
        } else {
            fmt::format_to(std::back_inserter(text), FMT_COMPILE("{:.6f},{:.4f},{:.3f},{:.3f},{:.2f}\n"), time_s,
                           tidy(angle_deg, 5e-5), u.at(angle_deg), tidy(trace.velocity_deg_s()[i], 5e-4),
                           tidy(trace.acceleration_deg_s2(i), 5e-3));
        }
        if (text.size() > block) {
            sink({text.data(), text.size()});
            text.clear();
        }
    }
    sink({text.data(), text.size()});
}

std::string angle_series_json(const AngleTrace& trace, const Report& report) {
    const AngleUncertainty u(trace);
    nlohmann::ordered_json root = json_envelope(report);
    nlohmann::ordered_json& result = root["result"];
    result["start_s"] = trace.start().value();
    result["rate_hz"] = trace.rate().value();
    for (const std::string_view column : columns) {
        result[std::string(column)] = nlohmann::ordered_json::array();
    }
    for (std::size_t i = 0; i < trace.size(); ++i) {
        result["time_s"].push_back(json_number(trace.time(i).value(), 6));
        result["angle_deg"].push_back(json_number(trace.angle_deg()[i], 4));
        result["angle_u_deg"].push_back(json_number(u.at(trace.angle_deg()[i]), 3));
        result["velocity_deg_s"].push_back(json_number(trace.velocity_deg_s()[i], 3));
        result["acceleration_deg_s2"].push_back(json_number(trace.acceleration_deg_s2(i), 2));
    }
    return json_text(root);
}

}  // namespace jointrom
