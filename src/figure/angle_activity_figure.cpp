#include <jointrom/figure/angle_activity_figure.hpp>

#include "figure/shown_muscle.hpp"
#include "figure/time_axis.hpp"

#include <jointrom/core/number_text.hpp>
#include <jointrom/figure/panel.hpp>
#include <jointrom/stats/quantile.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

namespace jointrom {
namespace {

constexpr std::size_t most_classes = 15;
constexpr std::size_t least_samples = 3;
constexpr std::array quartile_probabilities{0.25, 0.5, 0.75};

/// Activity by class of angle: the middles of the classes, and quartiles in each.
struct ByAngle {
    std::vector<double> angle_deg;
    std::vector<double> lower;
    std::vector<double> median;
    std::vector<double> upper;
};

struct Hold {
    double angle_deg;
    double activity;
};

class ActivityByAngle {
  public:
    ActivityByAngle(const AngleTrace& trace, const MuscleActivity& muscle, std::span<const Phase> phases)
        : trace_(trace), signal_(muscle.signal), envelope_(shown_envelope(muscle)), phases_(phases) {}

    [[nodiscard]] ByAngle of(PhaseKind kind) const {
        ByAngle result;
        const auto extent = extent_of(trace_.angle_deg());
        if (!extent || !(extent->span() > 0.0)) {
            return result;
        }
        const double width_deg = nice_ticks(*extent, most_classes, TickSteps::degrees).step;
        const double first_deg = width_deg * std::floor(extent->low / width_deg);
        std::vector<std::vector<double>> classes(static_cast<std::size_t>((extent->high - first_deg) / width_deg) + 1);
        for_each_sample(kind, [&](double angle_deg, double activity) {
            classes[static_cast<std::size_t>((angle_deg - first_deg) / width_deg)].push_back(activity);
        });
        for (std::size_t i = 0; i < classes.size(); ++i) {
            if (classes[i].size() < least_samples) {
                continue;
            }
            const std::vector<double> quartiles = quantiles_in_place(classes[i], quartile_probabilities);
            result.angle_deg.push_back(first_deg + (static_cast<double>(i) + 0.5) * width_deg);
            result.lower.push_back(quartiles[0]);
            result.median.push_back(quartiles[1]);
            result.upper.push_back(quartiles[2]);
        }
        return result;
    }

    [[nodiscard]] std::vector<Hold> holds() const {
        std::vector<Hold> holds;
        for (const Phase& phase : phases_) {
            if (phase.kind != PhaseKind::holding) {
                continue;
            }
            double sum_deg = 0.0;
            std::vector<double> activity;
            for_each_sample(phase, [&](double angle_deg, double value) {
                sum_deg += angle_deg;
                activity.push_back(value);
            });
            if (activity.size() >= least_samples) {
                holds.push_back({sum_deg / static_cast<double>(activity.size()), quantile(activity, 0.5)});
            }
        }
        return holds;
    }

  private:
    template <typename Use>
    void for_each_sample(const Phase& phase, const Use& use) const {
        for (std::size_t i = phase.span.first; i < phase.span.last; ++i) {
            const double at = std::round((trace_.time(i) - signal_.start).value() * signal_.rate.value());
            if (!(at >= 0.0) || at >= static_cast<double>(envelope_.size())) {
                continue;
            }
            const double activity = envelope_[static_cast<std::size_t>(at)];
            if (std::isfinite(activity) && std::isfinite(trace_.angle_deg()[i])) {
                use(trace_.angle_deg()[i], activity);
            }
        }
    }

    template <typename Use>
    void for_each_sample(PhaseKind kind, const Use& use) const {
        for (const Phase& phase : phases_) {
            if (phase.kind == kind) {
                for_each_sample(phase, use);
            }
        }
    }

    const AngleTrace& trace_;
    const EmgSignal& signal_;
    std::vector<double> envelope_;
    std::span<const Phase> phases_;
};

/// What one panel shows.
struct MusclePicture {
    ByAngle raising;
    ByAngle lowering;
    std::vector<Hold> holds;

    [[nodiscard]] std::optional<Interval> extent() const {
        std::optional<Interval> all = joined(extent_of(raising.upper), extent_of(lowering.upper));
        for (const Hold& hold : holds) {
            all = joined(all, Interval{hold.activity, hold.activity});
        }
        return all;
    }
};

void draw_direction(Panel& panel, const ByAngle& by_angle, Marker marker, const std::string& number,
                    const char* more_classes) {
    panel.band(by_angle.angle_deg, by_angle.lower, by_angle.upper, "band band" + number);
    panel.line(by_angle.angle_deg, by_angle.median, "line line" + number + more_classes);
    for (std::size_t i = 0; i < by_angle.angle_deg.size(); ++i) {
        panel.mark(by_angle.angle_deg[i], by_angle.median[i], marker, "mark mark" + number);
    }
}

void draw(Panel& panel, const MusclePicture& picture) {
    if (!picture.extent()) {
        panel.say("no movement with activity");
        return;
    }
    draw_direction(panel, picture.lowering, Marker::triangle_down, "2", " dash");
    draw_direction(panel, picture.raising, Marker::triangle_up, "1", "");
    for (const Hold& hold : picture.holds) {
        panel.mark(hold.angle_deg, hold.activity, Marker::square, "mark mark0");
    }
}

}  // namespace

std::string angle_activity_figure(const AngleTrace& trace, std::span<const Phase> phases,
                                  std::span<const MuscleActivity> muscles, const FigureStyle& style) {
    const auto shown = shown_muscles(muscles);
    std::string names;
    std::vector<MusclePicture> pictures;
    std::vector<PanelRow> rows;
    for (const MuscleActivity& muscle : shown) {
        const ActivityByAngle by_angle(trace, muscle, phases);
        pictures.push_back({by_angle.of(PhaseKind::raising), by_angle.of(PhaseKind::lowering), by_angle.holds()});
        const auto extent = joined(pictures.back().extent(), Interval{0.0, 0.0});
        rows.push_back({.y = {.label = fmt::format("{}, envelope ({})", muscle.signal.name, muscle.unit),
                              .range = axis_interval(extent, {0.0, 0.08, 0.0})}});
        names += (names.empty() ? "" : ", ") + muscle.signal.name;
    }
    Drawing drawing(style,
                    {trace_name(trace) + ": muscle activity against angle",
                     fmt::format("The envelope of {} against the joint angle, while the angle rises, while it falls "
                                 "and while it is held.",
                                 names)},
                    640, 160 + 190 * shown.size());
    drawing.legend(std::vector<LegendEntry>{
        {LegendEntry::Kind::marker, "mark mark1", name_of(PhaseKind::raising, trace.motion()), Marker::triangle_up},
        {LegendEntry::Kind::marker, "mark mark2", name_of(PhaseKind::lowering, trace.motion()), Marker::triangle_down},
        {LegendEntry::Kind::marker, "mark mark0", "a hold", Marker::square},
        {LegendEntry::Kind::band, "band band0", "middle half of the samples"}});
    drawing.note(muscles_left_out(muscles));
    const Axis x{.label = motion_label(trace, "angle", "deg"),
                 .range = axis_interval(extent_of(trace.angle_deg()), {0.04, 0.04, 10.0}),
                 .steps = TickSteps::degrees};
    std::vector<Panel> panels = stacked_panels(drawing, x, rows);
    for (std::size_t i = 0; i < panels.size(); ++i) {
        draw(panels[i], pictures[i]);
    }
    return drawing.svg();
}

}  // namespace jointrom
