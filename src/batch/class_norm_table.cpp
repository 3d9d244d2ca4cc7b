#include "batch/class_extents.hpp"

#include <jointrom/core/failure.hpp>
#include <jointrom/core/number_text.hpp>
#include <jointrom/report/render.hpp>
#include <jointrom/stats/descriptive.hpp>
#include <jointrom/stats/quantile.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

namespace jointrom {
namespace {

constexpr std::size_t least_for_percentiles = 20;
constexpr std::array<double, 5> percentiles{0.05, 0.25, 0.5, 0.75, 0.95};

std::string_view sex_cell(std::optional<Sex> sex) {
    return sex ? name_of(*sex) : "both";
}

/// Side, condition and whatever else the class was grouped by, in words.
std::string position_of(const std::vector<std::string>& group, const std::vector<std::string>& by) {
    std::vector<std::string> words;
    for (std::size_t i = 0; i < by.size(); ++i) {
        if (by[i] != "joint" && by[i] != "motion" && by[i] != "sex" && !group[i].empty()) {
            words.push_back(group[i]);
        }
    }
    return fmt::format("{}", fmt::join(words, ", "));
}

/// The cells from value_deg on.
std::string figures(const std::vector<double>& extents, const std::vector<double>& ages) {
    const Description about = describe(extents);
    std::string text = fmt::format("{},{},{}", fixed_text(about.mean, 2),
                                   about.sd > 0.005 ? fixed_text(about.sd, 2) : "", about.count);
    const bool with_percentiles = extents.size() >= least_for_percentiles;
    const std::vector<double> found = quantiles(extents, percentiles);
    text += "," + (with_percentiles ? fixed_text(about.min, 2) : "");
    for (const double value : found) {
        text += "," + (with_percentiles ? fixed_text(value, 2) : "");
    }
    text += "," + (with_percentiles ? fixed_text(about.max, 2) : "");
    const bool all_ages = ages.size() == extents.size();
    const Description age = describe(ages);
    text += "," + (all_ages ? fixed_text(std::floor(age.min), 0) : "");
    return text + "," + (all_ages ? fixed_text(std::floor(age.max), 0) : "");
}

}  // namespace

std::string class_norm_table(const LongTable& table, const NormComparisonOptions& options,
                             const std::string& source_key) {
    const std::vector<std::string> by = columns_with_joint(options.by);
    std::string text = "source,joint,motion,sex,mode,position,kind,value_deg,sd_deg,n,min_deg,p5_deg,p25_deg,p50_deg,"
                       "p75_deg,p95_deg,max_deg,age_min_years,age_max_years\n";
    std::size_t rows = 0;
    for (const GroupExtents& group : class_extents(table, {}, options)) {
        for (const std::optional<Sex> sex :
             {std::optional(Sex::female), std::optional(Sex::male), std::optional<Sex>()}) {
            std::vector<double> extents;
            std::vector<double> ages;
            for (const ParticipantExtent& participant : group.participants) {
                if (participant.sex == sex) {
                    extents.push_back(participant.extent_deg);
                    if (participant.age_years) {
                        ages.push_back(*participant.age_years);
                    }
                }
            }
            if (extents.size() >= 2) {
                text += fmt::format("{},{},{},{},{},{},mean,{}\n", csv_text(source_key), csv_text(group.motion->joint),
                                    csv_text(name_of(group.part, *group.motion)), sex_cell(sex),
                                    options.mode ? name_of(*options.mode) : "unstated",
                                    csv_text(position_of(group.group, by)), figures(extents, ages));
                ++rows;
            }
        }
    }
    if (rows == 0) {
        throw Failure(FailureKind::usage, "norm-table-empty",
                      "no group has two participants with arc_deg, positive_deg or negative_deg",
                      "A table of reference values needs the joint and several participants of one sex.");
    }
    return text;
}

}  // namespace jointrom
