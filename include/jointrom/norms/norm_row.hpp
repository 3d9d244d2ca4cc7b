#pragma once

/// \file
/// One line of a reference table: how far one group of people can move one joint in one direction.

#include <jointrom/angle/joint_motion.hpp>
#include <jointrom/core/units.hpp>

#include <cstddef>
#include <limits>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace jointrom {

/// No age beyond it is believed.
inline constexpr double oldest_years = 120.0;

enum class Sex { female, male };

/// "F", "female", "m" and so on, in any case. \throws Failure usage "sex-unknown" for anything else.
[[nodiscard]] Sex sex_named(std::string_view text);
[[nodiscard]] std::string_view name_of(Sex sex);  ///< "F" or "M"

/// Who moves the joint: the person (active) or the examiner (passive), who gets farther.
enum class MotionMode { active, passive };

/// \throws Failure usage "mode-unknown"
[[nodiscard]] MotionMode mode_named(std::string_view text);
[[nodiscard]] std::string_view name_of(MotionMode mode);

/// How the author of the table in use came by a number.
enum class Provenance {
    found,      ///< read in the source itself
    secondary,  ///< read where somebody else quotes the source
    memory      ///< not read anywhere
};

[[nodiscard]] std::string_view name_of(Provenance provenance);

enum class NormValueKind {
    mean,     ///< of the group
    median,   ///< of the group
    single,   ///< one number that a handbook or regulation calls normal, without spread
    at_least  ///< the least that a handbook calls normal, without spread
};

[[nodiscard]] std::string_view name_of(NormValueKind kind);

enum class SdBasis {
    none,
    reported,  ///< printed by the source
    derived    ///< from the confidence interval of the mean (sd_from_interval.hpp)
};

[[nodiscard]] std::string_view name_of(SdBasis basis);

/// 0 is the least and 100 the greatest value that was seen.
struct NormPercentile {
    double percent;
    double value_deg;
};

/// Extents count in the direction that the row names, beyond neutral positive, degrees. Missing numbers are NaN.
struct NormRow {
    std::string source;  ///< key of the source, e.g. "soucie2011"
    const JointMotion* motion = nullptr;
    MotionPart part = MotionPart::positive;
    std::optional<Sex> sex;  ///< unset: both sexes together
    double age_min_years = std::numeric_limits<double>::quiet_NaN();
    double age_max_years = std::numeric_limits<double>::quiet_NaN();  ///< completed years, so 44 goes on to 44.99
    std::optional<MotionMode> mode;                                   ///< unset: the source does not say
    std::string position;                                             ///< how it was measured, in words; may be empty
    NormValueKind kind = NormValueKind::mean;
    double value_deg = std::numeric_limits<double>::quiet_NaN();
    double sd_deg = std::numeric_limits<double>::quiet_NaN();
    SdBasis sd_basis = SdBasis::none;
    double sd_lo_deg = std::numeric_limits<double>::quiet_NaN();  ///< least SD that rounding of the interval allows
    double sd_hi_deg = std::numeric_limits<double>::quiet_NaN();
    double ci_low_deg = std::numeric_limits<double>::quiet_NaN();  ///< 95 % interval of the mean: no limit for people
    double ci_high_deg = std::numeric_limits<double>::quiet_NaN();
    std::optional<std::size_t> n;
    std::vector<NormPercentile> percentiles;  ///< rising in both
    bool is_skewed = false;                   ///< mean and SD do not describe the people; percentiles do
    Provenance provenance = Provenance::found;
    Provenance spread_provenance = Provenance::found;  ///< of SD, interval and n; the worst of them
    std::string note;
    std::size_t line = 0;  ///< in the table's file

    [[nodiscard]] const std::string& direction() const { return name_of(part, *motion); }
    [[nodiscard]] bool has_age() const noexcept;
    /// Whether the value, or the spread that goes with it, was not read anywhere.
    [[nodiscard]] bool is_from_memory() const noexcept;
};

/// "20-44 y", "18 y and over", "up to 9 y", or "any age" where the source gives none.
[[nodiscard]] std::string age_text(const NormRow& row);
/// "F", "M" or "both".
[[nodiscard]] std::string_view sex_text(const NormRow& row);
/// "active", "passive" or "unstated".
[[nodiscard]] std::string_view mode_text(const NormRow& row);

}  // namespace jointrom
