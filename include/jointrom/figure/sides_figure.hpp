#pragma once

/// \file
/// Left against right, participant by participant.

#include <jointrom/figure/figure_style.hpp>

#include <limits>
#include <string>
#include <vector>

namespace jointrom {

/// Both sides of one participant.
struct SideValues {
    std::string name;
    double left;
    double right;
};

struct SidePairs {
    std::string title;
    std::string quantity;  ///< without its unit: "flexion"
    std::string unit = "deg";
    std::vector<SideValues> pairs;
    double limit = std::numeric_limits<double>::quiet_NaN();  ///< a larger difference is more than measurement error
    std::string note;                                         ///< where the limit comes from
};

/// Right against left as SVG, with the line of equal sides and, when there is a limit, the strip of differences within
/// it. Participants outside the strip are diamonds with their name.
/// Missing values: the pair is left out.
[[nodiscard]] std::string sides_figure(const SidePairs& sides, const FigureStyle& style = {});

}  // namespace jointrom
