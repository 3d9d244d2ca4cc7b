#pragma once

/// \file
/// Two levels of one column compared: left with right, before with after.

#include <jointrom/batch/long_table.hpp>
#include <jointrom/core/finding.hpp>
#include <jointrom/stats/t_test.hpp>

#include <cstddef>
#include <limits>
#include <string>
#include <vector>

namespace jointrom {

struct ComparisonOptions {
    std::vector<std::string> by = {};  ///< columns to group by; that of the levels is left out of them
    std::string participant = {};      ///< column that says whose a value is; empty when there is none
    std::string column = {};           ///< of the levels, e.g. "condition"
    std::string first = {};            ///< e.g. "before"
    std::string second = {};
    bool with_independent = true;  ///< also the test that does not pair
    double confidence = 0.95;
    /// Least change of one participant that is more than error of measurement, where it is known; else it is estimated
    /// from participants' repeated values.
    double known_change = std::numeric_limits<double>::quiet_NaN();
};

enum class Design {
    paired,      ///< differences of participants who have both
    independent  ///< Welch: as if nobody had both
};

/// Second minus first, in one group. A participant counts with the mean of the own values.
struct Comparison {
    std::vector<std::string> group;
    std::string quantity;
    Design design;
    Description first;
    Description second;
    TTest test;
    EffectSize effect;
    double detectable_change;  ///< of one participant's mean, 95 %; missing when nothing tells it
    std::size_t changed = 0;   ///< participants who differ by more than that; of paired designs
};

struct Comparisons {
    std::vector<Comparison> rows;  ///< by group, then by quantity
    Findings findings;
};

/// Compares the two levels in every group.
///
/// Method: paired and Welch t tests of the participants' means. The detectable change is
/// 1.96 SD_within sqrt(1/m1 + 1/m2) for means of m1 and m2 values, SD_within being pooled over participants with
/// several values that are alike in everything else; it holds what changes from one trial to the next, and not what
/// changes from one session to the next. Missing samples: left out. \throws Failure usage "no-such-level" when a level
/// does not occur, naming those that do
[[nodiscard]] Comparisons compare_levels(const LongTable& table, const ComparisonOptions& options);

}  // namespace jointrom
