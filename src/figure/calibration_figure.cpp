#include <jointrom/figure/calibration_figure.hpp>

#include <jointrom/core/number_text.hpp>
#include <jointrom/figure/panel.hpp>

#include <fmt/format.h>

#include <array>
#include <cmath>

namespace jointrom {
namespace {

struct PointLook {
    Approach approach;
    Marker marker;
    const char* classes;
    const char* text;
};
constexpr std::array point_looks{
    PointLook{Approach::rising, Marker::triangle_up, "mark mark1", "known angle, rising"},
    PointLook{Approach::falling, Marker::triangle_down, "mark mark2", "known angle, falling"},
    PointLook{Approach::unknown, Marker::circle, "mark mark1", "known angle"}};

const PointLook& look_of(const CalibrationPoint& point) {
    for (const PointLook& look : point_looks) {
        if (look.approach == point.approach) {
            return look;
        }
    }
    return point_looks.back();
}

/// What is drawn, by reading.
struct Picture {
    std::vector<double> reading;
    std::vector<double> line_deg;
    std::vector<double> expanded_deg;  ///< of one reading; missing where nothing tells it
    std::vector<double> minus_expanded_deg;
    std::optional<Interval> known_deg;
    std::optional<Interval> residual_deg;
};

Picture picture_of(const Calibration& calibration, Interval readings) {
    constexpr std::size_t steps = 60;
    Picture picture;
    for (std::size_t i = 0; i <= steps; ++i) {
        const double reading = readings.low + readings.span() * static_cast<double>(i) / steps;
        const double expanded = reading_budget(calibration, reading).expanded_uncertainty();
        picture.reading.push_back(reading);
        picture.line_deg.push_back(calibration.offset_deg + calibration.gain_deg_per_unit * reading);
        picture.expanded_deg.push_back(expanded > 0.0 ? expanded : std::nan(""));
        picture.minus_expanded_deg.push_back(-picture.expanded_deg.back());
    }
    std::vector<double> known;
    std::vector<double> residuals{0.0};
    for (const CalibrationPoint& point : calibration.points) {
        known.push_back(point.known_deg);
        residuals.push_back(calibration.residual_deg(point));
    }
    picture.known_deg = joined(extent_of(known), extent_of(picture.line_deg));
    picture.residual_deg =
        joined(extent_of(residuals), joined(extent_of(picture.expanded_deg), extent_of(picture.minus_expanded_deg)));
    return picture;
}

std::string description(const Calibration& calibration) {
    std::string text =
        fmt::format("{} known angles against the readings taken at them, and the line through them: "
                    "angle = {:.6g} deg + {:.6g} deg per {} times reading. Beneath: the residuals",
                    calibration.points.size(), calibration.offset_deg, calibration.gain_deg_per_unit, calibration.unit);
    if (std::isfinite(calibration.nonlinearity_deg)) {
        text += fmt::format(", at most {:.2g} deg", calibration.nonlinearity_deg);
    }
    return text + ".";
}

std::string title_of(const Calibration& calibration) {
    return calibration.joint.empty()
               ? "Calibration of the sensor"
               : fmt::format("Calibration of the sensor: {} {}", calibration.joint, calibration.motion);
}

std::string line_words(const Calibration& calibration) {
    return fmt::format("angle = {}{:.5g} {} {:.5g} \u00d7 reading", calibration.offset_deg < 0.0 ? "\u2212" : "",
                       std::abs(calibration.offset_deg), calibration.gain_deg_per_unit < 0.0 ? "\u2212" : "+",
                       std::abs(calibration.gain_deg_per_unit));
}

void draw_points(const Calibration& calibration, Panel& fit, Panel& residuals) {
    for (const CalibrationPoint& point : calibration.points) {
        const PointLook& look = look_of(point);
        const double residual = calibration.residual_deg(point);
        const std::string tip =
            fmt::format("{} deg, residual {} deg", shortest_text(point.known_deg), fixed_text(residual, 3));
        fit.mark(point.reading, point.known_deg, look.marker, look.classes, tip);
        residuals.mark(point.reading, residual, look.marker, look.classes, tip);
    }
}

}  // namespace

std::string calibration_figure(const Calibration& calibration, const FigureStyle& style) {
    std::vector<double> taken;
    for (const CalibrationPoint& point : calibration.points) {
        taken.push_back(point.reading);
    }
    const Interval readings = axis_interval(extent_of(taken), {0.06, 0.06, 0.0});
    const Picture picture = picture_of(calibration, readings);
    Drawing drawing(style, {title_of(calibration), description(calibration)}, 640, 560);
    std::vector<LegendEntry> entries{{LegendEntry::Kind::line, "line ink", line_words(calibration)}};
    for (const PointLook& look : point_looks) {
        for (const CalibrationPoint& point : calibration.points) {
            if (point.approach == look.approach) {
                entries.push_back({LegendEntry::Kind::marker, look.classes, look.text, look.marker});
                break;
            }
        }
    }
    const bool has_band = extent_of(picture.expanded_deg).has_value();
    if (has_band) {
        entries.push_back({LegendEntry::Kind::band, "band band3", "95 % of single readings"});
    }
    drawing.legend(entries);
    const Axis x{.label = fmt::format("Reading ({})", calibration.unit), .range = readings};
    const std::vector<PanelRow> rows{
        {.y = {.label = "Known angle (deg)", .range = axis_interval(picture.known_deg), .steps = TickSteps::degrees},
         .share = 1.7},
        {.y = {.label = "Residual: known less calculated (deg)",
               .range = axis_interval(picture.residual_deg, {0.1, 0.1, 1e-6})}}};
    std::vector<Panel> panels = stacked_panels(drawing, x, rows);
    panels[1].band(picture.reading, picture.minus_expanded_deg, picture.expanded_deg, "band band3");
    panels[1].y_rule(0.0, "zero");
    panels[0].line(picture.reading, picture.line_deg, "line ink");
    draw_points(calibration, panels[0], panels[1]);
    return drawing.svg();
}

}  // namespace jointrom
