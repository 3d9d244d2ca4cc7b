#include "batch/class_pictures.hpp"

#include <jointrom/core/natural_order.hpp>
#include <jointrom/figure/class_figure.hpp>
#include <jointrom/figure/sides_figure.hpp>
#include <jointrom/report/page_parts.hpp>
#include <jointrom/stats/descriptive.hpp>
#include <jointrom/stats/t_test.hpp>

#include <fmt/format.h>

#include <map>
#include <set>
#include <utility>

namespace jointrom {
namespace {

using MeanOf = std::pair<double, double>;  ///< sum and count
using ByName = std::map<std::string, MeanOf, decltype(&natural_less)>;

std::string group_of(const TrialRow& row) {
    const TrialSubject& s = row.subject;
    const std::string joint = s.joint.empty() ? std::string("joint") : s.joint;
    return fmt::format("{}{}{}{}", s.side, s.side.empty() ? "" : " ", joint,
                       s.condition.empty() ? "" : ", " + s.condition);
}

ClassGroup group_figures(const std::string& name, const ByName& people) {
    ClassLane lane;
    std::vector<double> values;
    for (const auto& [person, mean] : people) {
        values.push_back(mean.first / mean.second);
        lane.values.push_back({person, values.back()});
    }
    const Description described = describe(values);
    return {.name = name, .lanes = {std::move(lane)}, .mean = described.mean, .mean_ci = mean_interval(described)};
}

ClassDots dots_of(const ClassResults& results) {
    std::map<std::string, ByName, decltype(&natural_less)> groups(&natural_less);
    std::set<std::string> directions;
    for (const TrialOutcome& outcome : results.outcomes) {
        const TrialRow& row = outcome.row;
        if (!row.done) {
            continue;
        }
        directions.insert(row.positive_direction);
        const std::string& name = row.subject.participant.empty() ? row.subject.file : row.subject.participant;
        auto& [sum, count] = groups.try_emplace(group_of(row), &natural_less).first->second[name];
        sum += row.positive.value;
        count += 1.0;
    }
    const std::string quantity = directions.size() == 1 ? *directions.begin() : "positive direction";
    ClassDots dots{.title = "Farthest angles of the class",
                   .quantity = with_capital(quantity) + " (deg)",
                   .groups = {},
                   .note = {}};
    for (const auto& [name, people] : groups) {
        dots.groups.push_back(group_figures(name, people));
    }
    return dots;
}

SidePairs sides_of(const ClassComparison& comparison) {
    SidePairs sides{.title = "Left against right", .quantity = "farthest angle", .pairs = {}, .note = {}};
    std::set<const JointMotion*> motions;
    for (const SidePair& pair : comparison.sides) {
        if (pair.part != MotionPart::positive) {
            continue;
        }
        motions.insert(pair.motion);
        const std::string name = pair.participant + (pair.condition.empty() ? "" : " " + pair.condition);
        sides.pairs.push_back({name, pair.comparison.left.value(), pair.comparison.right.value()});
        sides.limit = pair.comparison.limit.limit.value();
        sides.note = fmt::format("Limit: {}.", pair.comparison.limit.basis);
    }
    if (motions.size() == 1) {
        sides.quantity = (*motions.begin())->positive;
    } else {
        sides.limit = std::numeric_limits<double>::quiet_NaN();
        sides.note.clear();
    }
    return sides;
}

}  // namespace

Markup class_pictures(const ClassPage& page) {
    Markup pictures;
    if (const ClassDots dots = dots_of(page.results); !dots.groups.empty()) {
        pictures += figure_markup("class-figure", [&](const FigureStyle& style) { return class_figure(dots, style); });
    }
    if (const SidePairs sides = sides_of(page.comparison); sides.pairs.size() > 1) {
        pictures += figure_markup("sides-figure", [&](const FigureStyle& style) { return sides_figure(sides, style); });
    }
    return pictures;
}

}  // namespace jointrom
