#include "batch/class_pictures.hpp"

#include <jointrom/batch/class_figures.hpp>
#include <jointrom/report/page_parts.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <limits>
#include <set>

namespace jointrom {
namespace {

ClassDots dots_of(const ClassPage& page) {
    const std::vector<TrialRow> rows = page.results.rows();
    if (std::ranges::none_of(rows, &TrialRow::done)) {
        return {};
    }
    const TrialTable trials = trial_table(rows, {"positive_deg"});
    const ClassComparisonOptions& compared = page.compared;
    return class_dots(trials.table, compared.norms == nullptr ? built_in_norms() : *compared.norms,
                      {.by = trials.by,
                       .participant = trials.participant,
                       .mode = compared.judging.against ? compared.judging.against : compared.person.mode,
                       .condition_tells_mode = !compared.judging.against,
                       .sex = compared.person.sex,
                       .age_years = compared.person.age_years,
                       .source = compared.judging.source});
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
    if (const ClassDots dots = dots_of(page); !dots.groups.empty()) {
        pictures += figure_markup("class-figure", [&](const FigureStyle& style) { return class_figure(dots, style); });
    }
    if (const SidePairs sides = sides_of(page.comparison); sides.pairs.size() > 1) {
        pictures += figure_markup("sides-figure", [&](const FigureStyle& style) { return sides_figure(sides, style); });
    }
    return pictures;
}

}  // namespace jointrom
