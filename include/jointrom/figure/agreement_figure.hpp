#pragma once

/// \file
/// Two measurements of the same subjects: difference against mean, with the limits of agreement.

#include <jointrom/figure/figure_style.hpp>

#include <string>
#include <vector>

namespace jointrom {

/// Both measurements of one subject.
struct ScorePair {
    std::string name;
    double first;
    double second;
};

struct ScorePairs {
    std::string title;
    std::string quantity;  ///< without its unit: "arc"
    std::string unit = "deg";
    std::string first;  ///< name of the first measurement, e.g. "trial 1"
    std::string second;
    std::vector<ScorePair> pairs;
};

/// Difference (second less first) against mean as SVG: bias and limits of agreement (1.96 SD) with their 95 %
/// intervals (limits_of_agreement()). Subjects outside the limits are diamonds with their name.
/// Missing values: the pair is left out.
[[nodiscard]] std::string agreement_figure(const ScorePairs& scores, const FigureStyle& style = {});

}  // namespace jointrom
