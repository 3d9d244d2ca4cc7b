#pragma once

/// \file
/// For which people a table has norms, and for which it has none.

#include <jointrom/norms/norm_lookup.hpp>

#include <string>
#include <vector>

namespace jointrom {

/// Completed years of age, from 0 to 99.
struct AgeSpan {
    int first_years;
    int last_years;
    friend bool operator==(const AgeSpan&, const AgeSpan&) = default;
};

/// "2-69, 80-99"; empty for no span.
[[nodiscard]] std::string span_text(const std::vector<AgeSpan>& spans);

/// One direction, sex and mode. The rows counted are those that find_norms() would match.
struct NormCoverage {
    const JointMotion* motion;
    MotionPart part;
    Sex sex;
    MotionMode mode;
    std::vector<AgeSpan> with_band;     ///< ages for which some row has a normal range
    std::vector<AgeSpan> without_band;  ///< ages for which rows have a mean only
    std::vector<AgeSpan> uncovered;     ///< ages that no row holds, apart from rows for any age
    bool has_any_age = false;           ///< a row for any age, such as a handbook's single number
};

/// A row for each direction of each known joint, each sex and mode that passes the filter, in the order of the joints.
/// Without joint and motion, joints of which the table knows nothing give one row each way too.
/// \throws Failure as filtered_norms()
[[nodiscard]] std::vector<NormCoverage> norm_coverage(const NormTable& table, const NormFilter& filter);

}  // namespace jointrom
