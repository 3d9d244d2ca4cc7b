#include <jointrom/figure/agreement_figure.hpp>

#include <jointrom/core/number_text.hpp>
#include <jointrom/figure/panel.hpp>
#include <jointrom/stats/limits_of_agreement.hpp>

#include <fmt/format.h>

#include <cmath>

namespace jointrom {
namespace {

struct Point {
    const ScorePair* pair;
    double mean;
    double difference;
};

std::vector<Point> points_of(const ScorePairs& scores) {
    std::vector<Point> points;
    for (const ScorePair& pair : scores.pairs) {
        if (std::isfinite(pair.first) && std::isfinite(pair.second)) {
            points.push_back({&pair, 0.5 * pair.first + 0.5 * pair.second, pair.second - pair.first});
        }
    }
    return points;
}

LimitsOfAgreement limits_of(const std::vector<Point>& points) {
    std::vector<double> first;
    std::vector<double> second;
    for (const Point& point : points) {
        first.push_back(point.pair->first);
        second.push_back(point.pair->second);
    }
    return limits_of_agreement(first, second);
}

std::string signed_value(double value) {
    return (value > 0.0 ? "+" : "") + Ticks{.values = {}, .step = 1.0, .decimals = 1}.text(value);
}

std::string description(const ScorePairs& scores, const LimitsOfAgreement& limits) {
    return fmt::format("Differences ({} less {}) of {} of {} subjects against their means. Bias {} {}, limits of "
                       "agreement {} to {} {}.",
                       scores.second, scores.first, scores.quantity, limits.count, fixed_text(limits.bias, 2),
                       scores.unit, fixed_text(limits.lower, 2), fixed_text(limits.upper, 2), scores.unit);
}

std::optional<Interval> shown_differences(const std::vector<Point>& points, const LimitsOfAgreement& limits) {
    std::vector<double> all{0.0, limits.lower, limits.upper, limits.lower_ci.low, limits.upper_ci.high};
    for (const Point& point : points) {
        all.push_back(point.difference);
    }
    return extent_of(all);
}

void draw_limits(Panel& panel, const LimitsOfAgreement& limits, std::string_view unit) {
    const auto band = [&](const ConfidenceInterval& interval, const char* classes) {
        if (std::isfinite(interval.low) && std::isfinite(interval.high)) {
            panel.y_span(interval.low, interval.high, classes);
        }
    };
    band(limits.bias_ci, "band band0");
    band(limits.lower_ci, "band band0");
    band(limits.upper_ci, "band band0");
    panel.y_rule(0.0, "zero");
    panel.y_rule(limits.bias, "line line1");
    panel.y_rule(limits.lower, "line dash line2");
    panel.y_rule(limits.upper, "line dash line2");
    const auto label = [&](double value, std::string_view name) {
        if (std::isfinite(value)) {
            panel.label(panel.x_range().high, value, fmt::format("{} {} {}", name, signed_value(value), unit),
                        Panel::Place::above, 2.0);
        }
    };
    label(limits.bias, "bias");
    label(limits.lower, "lower limit");
    label(limits.upper, "upper limit");
}

void draw_points(Panel& panel, const std::vector<Point>& points, const LimitsOfAgreement& limits) {
    const auto is_outside = [&](const Point& point) {
        return point.difference < limits.lower || point.difference > limits.upper;
    };
    for (const Point& point : points) {
        panel.mark(point.mean, point.difference, is_outside(point) ? Marker::diamond : Marker::circle,
                   is_outside(point) ? "mark mark2" : "mark mark1",
                   fmt::format("{}: mean {}, difference {}", point.pair->name, fixed_text(point.mean, 1),
                               fixed_text(point.difference, 1)));
    }
    for (const Point& point : points) {
        if (is_outside(point)) {
            panel.label(point.mean, point.difference, point.pair->name, Panel::Place::right) ||
                panel.label(point.mean, point.difference, point.pair->name, Panel::Place::left);
        }
    }
}

}  // namespace

std::string agreement_figure(const ScorePairs& scores, const FigureStyle& style) {
    const std::vector<Point> points = points_of(scores);
    const LimitsOfAgreement limits = limits_of(points);
    Drawing drawing(style, {scores.title, description(scores, limits)}, 640, 480);
    drawing.legend(std::vector<LegendEntry>{{LegendEntry::Kind::marker, "mark mark1", "a subject"},
                                            {LegendEntry::Kind::line, "line line1", "bias"},
                                            {LegendEntry::Kind::line, "line dash line2", "bias \u00b1 1.96 SD"},
                                            {LegendEntry::Kind::band, "band band0", "their 95 % intervals"}});
    std::vector<double> means;
    for (const Point& point : points) {
        means.push_back(point.mean);
    }
    const TickSteps steps = scores.unit == "deg" ? TickSteps::degrees : TickSteps::decimal;
    const Axis x{.label = fmt::format("Mean of both: {} ({})", scores.quantity, scores.unit),
                 .range = axis_interval(extent_of(means), {0.06, 0.06, 1.0}),
                 .steps = steps};
    const std::vector<PanelRow> rows{
        {.y = {.label = fmt::format("Difference: {} less {} ({})", scores.second, scores.first, scores.unit),
               .range = axis_interval(shown_differences(points, limits), {0.06, 0.1, 1.0})}}};
    Panel panel = stacked_panels(drawing, x, rows).front();
    if (points.empty()) {
        panel.say("nobody has both measurements");
        return drawing.svg();
    }
    draw_limits(panel, limits, scores.unit);
    draw_points(panel, points, limits);
    return drawing.svg();
}

}  // namespace jointrom
