#include <jointrom/figure/cutoff_figure.hpp>

#include <jointrom/core/number_text.hpp>
#include <jointrom/figure/panel.hpp>

#include <fmt/format.h>

#include <algorithm>

namespace jointrom {
namespace {

/// Cut-offs between which the line is fitted, in parts of the highest (residual_analysis()).
constexpr double fit_from = 0.56;
constexpr double fit_to = 0.96;

std::string description(const ResidualAnalysis& analysis, std::string_view unit) {
    return fmt::format("Residual of the low-pass against its cut-off. The noise of a sample is {} {}; {}.",
                       fixed_text(analysis.noise_rms, 3), unit,
                       analysis.cutoff ? fmt::format("the cut-off at which as much is taken away is {} Hz",
                                                     fixed_text(analysis.cutoff->value(), 1))
                                       : "no cut-off takes away just as much");
}

/// The curve below the upper edge of the panel.
void draw_residual(Panel& panel, const ResidualAnalysis& analysis) {
    const double top = panel.y_range().high;
    std::vector<double> cutoff_hz;
    std::vector<double> residual;
    for (std::size_t i = 0; i < analysis.cutoff_hz.size(); ++i) {
        if (!(analysis.rms_residual[i] <= top)) {
            continue;
        }
        if (residual.empty() && i > 0) {
            const double part =
                (top - analysis.rms_residual[i]) / (analysis.rms_residual[i - 1] - analysis.rms_residual[i]);
            cutoff_hz.push_back(analysis.cutoff_hz[i] - part * (analysis.cutoff_hz[i] - analysis.cutoff_hz[i - 1]));
            residual.push_back(top);
        }
        cutoff_hz.push_back(analysis.cutoff_hz[i]);
        residual.push_back(analysis.rms_residual[i]);
    }
    panel.line(cutoff_hz, residual, "line line1");
}

}  // namespace

std::string cutoff_figure(const ResidualAnalysis& analysis, std::string_view unit, Hertz in_use,
                          const FigureStyle& style) {
    Drawing drawing(style, {"Residual analysis: where to put the low-pass", description(analysis, unit)}, 640, 420);
    const double highest_hz = analysis.cutoff_hz.back();
    std::vector<LegendEntry> entries{
        {LegendEntry::Kind::line, "line line1", "taken away by the filter"},
        {LegendEntry::Kind::line, "line dash line2", "noise, as fitted in the shaded part"}};
    if (analysis.cutoff) {
        entries.push_back({LegendEntry::Kind::marker, "mark mark3",
                           fmt::format("as much as noise: {} Hz", fixed_text(analysis.cutoff->value(), 1)),
                           Marker::diamond});
    }
    if (in_use.is_set()) {
        entries.push_back(
            {LegendEntry::Kind::line, "line dot ink", fmt::format("in use: {} Hz", fixed_text(in_use.value(), 1))});
    }
    drawing.legend(entries);
    if (!analysis.cutoff) {
        drawing.note("No cut-off follows from this recording: hardly any noise, no movement, or a movement that "
                     "reaches into the shaded part.");
    }
    const Axis x{.label = "Cut-off (Hz)", .range = {0.0, std::max(highest_hz, in_use.is_set() ? in_use.value() : 0.0)}};
    const auto extent = joined(extent_of(analysis.rms_residual), Interval{0.0, analysis.noise_rms});
    // The first residuals hold the movement itself and are far larger than the rest.
    const double top = std::min(extent->high, 4.0 * std::max(analysis.noise_rms, analysis.rms_residual.back()));
    const Interval shown{0.0, top > 0.0 ? top : extent->high};
    const std::vector<PanelRow> rows{{.y = {.label = fmt::format("Root mean square of the residual ({})", unit),
                                            .range = axis_interval(shown, {0.0, 0.06, 0.0})}}};
    Panel panel = stacked_panels(drawing, x, rows).front();
    panel.x_span(fit_from * highest_hz, fit_to * highest_hz, "band band0");
    draw_residual(panel, analysis);
    panel.segment(0.0, analysis.noise_rms, highest_hz, analysis.noise_rms + analysis.slope * highest_hz,
                  "line dash line2");
    if (analysis.cutoff) {
        panel.segment(0.0, analysis.noise_rms, analysis.cutoff->value(), analysis.noise_rms, "zero");
        panel.segment(analysis.cutoff->value(), 0.0, analysis.cutoff->value(), analysis.noise_rms, "zero");
        panel.mark(analysis.cutoff->value(), analysis.noise_rms, Marker::diamond, "mark mark3", {}, 5.5);
    }
    if (in_use.is_set()) {
        panel.x_rule(in_use.value(), "line dot ink");
    }
    return drawing.svg();
}

}  // namespace jointrom
