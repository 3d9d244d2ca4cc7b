#include "report/json_envelope.hpp"

#include <jointrom/report/load_tables.hpp>

#include <fmt/compile.h>
#include <fmt/format.h>

#include <cmath>
#include <iterator>

namespace jointrom {
namespace {

constexpr std::string_view header = "time_s,angle_deg,moment_nm,gravity_moment_nm,power_w,energy_j\n";

/// Minus zero, and what rounds to it, becomes zero.
double tidy(double value) {
    return std::abs(value) < 5e-5 ? 0.0 : value;
}

}  // namespace

void load_series_csv(const LoadView& view, const std::function<void(std::string_view)>& sink) {
    constexpr std::size_t block = std::size_t{1} << 16;
    const LoadSeries& series = view.load.series;
    fmt::memory_buffer text;
    text.append(header);
    for (std::size_t i = 0; i < view.trace.size(); ++i) {
        const double time_s = view.trace.time(i).value();
        if (std::isnan(series.moment_nm[i])) {
            fmt::format_to(std::back_inserter(text), FMT_COMPILE("{:.6f},,,,,\n"), time_s);
        } else {
            fmt::format_to(std::back_inserter(text), FMT_COMPILE("{:.6f},{:.4f},{:.4f},{:.4f},{:.4f},{:.4f}\n"), time_s,
                           tidy(view.trace.angle_deg()[i]), tidy(series.moment_nm[i]), tidy(series.gravity_nm[i]),
                           tidy(series.power_w[i]), tidy(series.energy_j[i]));
        }
        if (text.size() > block) {
            sink({text.data(), text.size()});
            text.clear();
        }
    }
    sink({text.data(), text.size()});
}

std::string load_series_json(const LoadView& view, const Report& report) {
    nlohmann::ordered_json root = json_envelope(report);
    nlohmann::ordered_json& result = root["result"];
    result["start_s"] = view.trace.start().value();
    result["rate_hz"] = view.trace.rate().value();
    const auto add = [&](const char* key, std::span<const double> values) {
        nlohmann::ordered_json& list = result[key] = nlohmann::ordered_json::array();
        for (const double value : values) {
            list.push_back(json_number(value, 4));
        }
    };
    add("angle_deg", view.trace.angle_deg());
    add("moment_nm", view.load.series.moment_nm);
    add("gravity_moment_nm", view.load.series.gravity_nm);
    add("power_w", view.load.series.power_w);
    add("energy_j", view.load.series.energy_j);
    return json_text(root);
}

}  // namespace jointrom
