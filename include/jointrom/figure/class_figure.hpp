#pragma once

/// \file
/// A class at a glance: every participant a dot, by group, beside the normal range.

#include <jointrom/figure/figure_style.hpp>
#include <jointrom/stats/confidence_interval.hpp>

#include <limits>
#include <string>
#include <vector>

namespace jointrom {

/// A value and whose it is.
struct NamedValue {
    std::string name;
    double value;
};

/// Those people of a group to whom one normal range applies.
struct ClassLane {
    std::string text;  ///< who they are: "F 20-44 years"; may be empty when there is one lane
    std::vector<NamedValue> values;
    double lower = std::numeric_limits<double>::quiet_NaN();  ///< of their normal range; missing where there is none
    double upper = std::numeric_limits<double>::quiet_NaN();
};

struct ClassGroup {
    std::string name;
    std::vector<ClassLane> lanes;
    double mean = std::numeric_limits<double>::quiet_NaN();
    ConfidenceInterval mean_ci = {};
};

struct ClassDots {
    std::string title;
    std::string quantity;  ///< with its unit: "Flexion (deg)"
    std::vector<ClassGroup> groups;
    std::string note;  ///< where the ranges come from
};

/// A panel for each group as SVG, with a lane for each normal range: the range as a band, the people to whom it applies
/// as dots; beneath, the mean of the group with its 95 % interval. Values outside their range are diamonds with their
/// name. Thirty groups at most.
/// Missing values: left out.
[[nodiscard]] std::string class_figure(const ClassDots& dots, const FigureStyle& style = {});

}  // namespace jointrom
