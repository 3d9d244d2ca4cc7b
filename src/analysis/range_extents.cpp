#include <jointrom/analysis/range_extents.hpp>

#include "setting_text.hpp"

namespace jointrom {
namespace {

MeasuredExtent in_direction(MotionPart part, Degrees angle, const Budget& budget) {
    return {.part = part, .extent = extent_of_angle(angle, part), .budget = budget};
}

}  // namespace

RangeFigure range_figure_named(std::string_view text) {
    if (text == "extreme") {
        return RangeFigure::extreme;
    }
    if (text != "held" && text != "mean") {
        refuse_setting("--figure", text, "extreme, held or mean");
    }
    return text == "held" ? RangeFigure::held : RangeFigure::mean;
}

std::vector<MeasuredExtent> measured_extents(const RangeOfMotion& range, RangeFigure figure) {
    const auto all = [](Degrees positive, const Budget& positive_budget, Degrees negative,
                        const Budget& negative_budget, Degrees arc, const Budget& arc_budget) {
        return std::vector<MeasuredExtent>{in_direction(MotionPart::positive, positive, positive_budget),
                                           in_direction(MotionPart::negative, negative, negative_budget),
                                           {.part = MotionPart::arc, .extent = arc, .budget = arc_budget}};
    };
    switch (figure) {
    case RangeFigure::held:
        if (!range.held_positive || !range.held_negative) {
            return {};
        }
        return all(range.held_positive->mean, range.held_positive->budget, range.held_negative->mean,
                   range.held_negative->budget, range.held_positive->mean - range.held_negative->mean,
                   difference(range.held_positive->budget, range.held_negative->budget, CommonTo::recording));
    case RangeFigure::mean:
        if (!range.mean_positive) {
            return {};
        }
        return all(range.mean_positive->mean, range.mean_positive->budget, range.mean_negative->mean,
                   range.mean_negative->budget, range.mean_arc->mean, range.mean_arc->budget);
    case RangeFigure::extreme:
        break;
    }
    return all(range.positive.angle, range.positive.budget, range.negative.angle, range.negative.budget, range.arc,
               range.arc_budget);
}

}  // namespace jointrom
