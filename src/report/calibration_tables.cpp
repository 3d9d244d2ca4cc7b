#include <jointrom/report/calibration_tables.hpp>

#include <cmath>

namespace jointrom {

ResultTable calibration_table(const Calibration& c) {
    ResultTable table("calibration", {"quantity", "value", "figure_unit", "degrees_of_freedom"});
    const double k = student_factor(0.95, c.degrees_of_freedom);
    const Cell dof = std::isfinite(c.degrees_of_freedom) ? Cell(c.degrees_of_freedom) : Cell(std::monostate());
    const auto add = [&](const char* quantity, Cell value, std::string unit, Cell freedom) {
        table.add_row({std::string(quantity), std::move(value), std::move(unit), std::move(freedom)});
    };
    add("gain", Measured{c.gain_deg_per_unit, c.u_gain_deg_per_unit, k * c.u_gain_deg_per_unit}, "deg per " + c.unit,
        dof);
    add("offset", Measured{c.offset_deg, c.u_offset_deg, k * c.u_offset_deg}, "deg", dof);
    add("correlation of gain and offset", c.correlation, "", std::monostate());
    add("scatter about the line", c.residual_sd_deg, "deg", std::monostate());
    add("non-linearity", c.nonlinearity_deg, "deg", std::monostate());
    add("non-linearity", c.nonlinearity_pct, "% of span", std::monostate());
    add("hysteresis", c.hysteresis_deg, "deg", std::monostate());
    return table;
}

ResultTable calibration_point_table(const Calibration& calibration) {
    ResultTable table("points", {"known_deg", "reading", "residual_deg", "approach", "source"});
    for (const CalibrationPoint& point : calibration.points) {
        table.add_row({point.known_deg, point.reading, calibration.residual_deg(point),
                       std::string(name_of(point.approach)), point.source});
    }
    return table;
}

ResultTable control_table(std::span<const ControlResult> results) {
    ResultTable table("control", {"known_deg", "reading", "error_deg", "tolerance_deg", "verdict", "source"});
    for (const ControlResult& result : results) {
        table.add_row({result.point.known_deg, result.point.reading,
                       Measured{result.error_deg.value, result.error_deg.u, result.expanded_u_deg},
                       result.tolerance_deg, std::string(name_of(result.verdict)), result.point.source});
    }
    return table;
}

}  // namespace jointrom
