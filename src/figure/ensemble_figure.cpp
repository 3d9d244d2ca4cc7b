#include <jointrom/figure/ensemble_figure.hpp>

#include "figure/time_axis.hpp"

#include <jointrom/core/number_text.hpp>
#include <jointrom/figure/panel.hpp>

#include <fmt/format.h>

namespace jointrom {
namespace {

constexpr std::size_t most_single_curves = 20;

std::optional<Interval> extent(const EnsembleCurve& curve) {
    std::optional<Interval> all = Interval{0.0, 0.0};
    for (const std::vector<double>& single : curve.curves_deg) {
        all = joined(all, extent_of(single));
    }
    for (std::size_t i = 0; i < curve.mean_deg.size(); ++i) {
        const double ends[] = {curve.mean_deg[i] - curve.sd_deg[i], curve.mean_deg[i] + curve.sd_deg[i]};
        all = joined(all, extent_of(ends));
    }
    return all;
}

std::string description(const EnsembleCurve& curve) {
    const auto mean = extent_of(curve.mean_deg);
    if (!mean) {
        return "There is no repetition to draw.";
    }
    return fmt::format("The mean angle of {} repetitions over their duration lies between {} and {} deg.",
                       curve.curves_deg.size(), fixed_text(mean->low, 0), fixed_text(mean->high, 0));
}

void draw(Panel& panel, const EnsembleCurve& curve) {
    std::vector<double> percent;
    std::vector<double> low;
    std::vector<double> high;
    for (std::size_t i = 0; i < curve.mean_deg.size(); ++i) {
        percent.push_back(curve.percent(i));
        low.push_back(curve.mean_deg[i] - curve.sd_deg[i]);
        high.push_back(curve.mean_deg[i] + curve.sd_deg[i]);
    }
    panel.band(percent, low, high, "band band1");
    if (curve.curves_deg.size() > 1 && curve.curves_deg.size() <= most_single_curves) {
        for (const std::vector<double>& single : curve.curves_deg) {
            panel.line(percent, single, "line thin line2");
        }
    }
    panel.line(percent, curve.mean_deg, "line line1");
}

}  // namespace

std::string ensemble_figure(const AngleTrace& trace, const EnsembleCurve& curve, const FigureStyle& style) {
    const std::size_t count = curve.curves_deg.size();
    Drawing drawing(style, {trace_name(trace) + ": mean repetition", description(curve)}, 640, 420);
    if (count > 1) {
        std::vector<LegendEntry> entries{
            {LegendEntry::Kind::line, "line line1", fmt::format("mean of {} repetitions", count)},
            {LegendEntry::Kind::band, "band band1", "\u00b1 1 SD"}};
        if (count <= most_single_curves) {
            entries.push_back({LegendEntry::Kind::line, "line thin line2", "each repetition"});
        }
        drawing.legend(entries);
        drawing.note(fmt::format("SD on average {} deg.", fixed_text(curve.average_sd_deg, 1)));
    } else if (count == 1) {
        drawing.note("One repetition: it has no spread.");
    }
    const Axis x{.label = "Part of the repetition (%)", .range = {0.0, 100.0}};
    const std::vector<PanelRow> rows{{.y = {.label = motion_label(trace, "angle", "deg"),
                                            .range = axis_interval(extent(curve), {0.05, 0.07, 10.0}),
                                            .steps = TickSteps::degrees}}};
    Panel panel = stacked_panels(drawing, x, rows).front();
    panel.y_rule(0.0, "zero");
    if (count == 0) {
        panel.say("no complete repetition");
    } else {
        draw(panel, curve);
    }
    return drawing.svg();
}

}  // namespace jointrom
