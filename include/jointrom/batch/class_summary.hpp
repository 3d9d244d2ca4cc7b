#pragma once

/// \file
/// What a class measured, group by group: middle, spread, extremes, and the values that stand out.

#include <jointrom/batch/long_table.hpp>
#include <jointrom/core/finding.hpp>
#include <jointrom/stats/confidence_interval.hpp>
#include <jointrom/stats/descriptive.hpp>

#include <cstddef>
#include <limits>
#include <string>
#include <vector>

namespace jointrom {

struct SummaryOptions {
    std::vector<std::string> by = {};  ///< columns to group by, which the table has
    std::string participant = {};      ///< column that says whose a value is; empty when there is none
    double confidence = 0.95;
    double outlier_limit = 3.5;  ///< of the modified z score
};

/// One quantity in one group.
struct GroupSummary {
    std::vector<std::string> group;  ///< one text a column that it was grouped by
    std::string quantity;            ///< name of the column
    Description values;
    std::size_t participants = 0;     ///< with a value; 0 when nothing says whose the values are
    ConfidenceInterval mean_ci = {};  ///< of the participants' means where there are participants, else of the values
    double median = std::numeric_limits<double>::quiet_NaN();
    double lower_quartile = std::numeric_limits<double>::quiet_NaN();  ///< Hyndman and Fan's type 7
    double upper_quartile = std::numeric_limits<double>::quiet_NaN();
    std::size_t outliers = 0;
};

/// A value far from the median of its group.
struct OutlyingValue {
    std::vector<std::string> group;
    std::string quantity;
    std::string id;  ///< empty when the table has no ids
    std::string participant;
    double value;
    double median;
    double modified_z;
};

struct ClassSummary {
    std::vector<GroupSummary> groups;  ///< by group, then by quantity
    std::vector<OutlyingValue> outliers;
    Findings findings;
};

/// Describes every number column of `table` in every group.
///
/// Method: exact quantiles; outliers by median and median absolute deviation. Several values of one participant are not
/// independent, so the interval of the mean is that of the participants' means, each counting once. The order of the
/// rows makes no difference.
/// Missing samples: counted and left out; a group of missing values alone has no figures.
/// \par Reference stats/robust.hpp, stats/quantile.hpp
[[nodiscard]] ClassSummary class_summary(const LongTable& table, const SummaryOptions& options);

}  // namespace jointrom
