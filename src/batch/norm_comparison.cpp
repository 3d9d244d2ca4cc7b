#include <jointrom/batch/norm_comparison.hpp>

#include "batch/class_extents.hpp"

#include <jointrom/core/conformity.hpp>
#include <jointrom/norms/norm_band.hpp>
#include <jointrom/stats/descriptive.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <functional>
#include <limits>
#include <map>

namespace jointrom {
namespace {

/// What is gathered for one source.
struct Gathered {
    NormComparison row;
    std::vector<double> extents;
    std::vector<double> norms;
    std::vector<double> z;
};

void judge(const ParticipantExtent& participant, const NormRow& norm, Gathered& gathered) {
    const NormBand band = *normal_band(norm);
    NormComparison& row = gathered.row;
    ++row.participants;
    switch (conformity(participant.extent_deg, {band.lower_deg, band.upper_deg}, participant.expanded_deg)) {
    case Conformity::inside:
        ++row.inside;
        break;
    case Conformity::outside:
        ++(participant.extent_deg < band.lower_deg ? row.below : row.above);
        break;
    case Conformity::undecided:
        ++row.undecided;
        break;
    }
    gathered.extents.push_back(participant.extent_deg);
    gathered.norms.push_back(norm.value_deg);
    const auto place = standing(norm, participant.extent_deg);
    gathered.z.push_back(place ? place->z : std::numeric_limits<double>::quiet_NaN());
}

/// The most frequent reasons and how often each applies: "No norm covers that (12); others (3)".
std::string counted(const std::map<std::string, std::size_t>& reasons) {
    constexpr std::size_t most = 3;
    std::vector<std::pair<std::size_t, std::string_view>> frequent;
    for (const auto& [reason, count] : reasons) {
        frequent.emplace_back(count, std::string_view(reason).substr(0, reason.find_last_not_of('.') + 1));
    }
    std::ranges::stable_sort(frequent, std::greater{}, [](const auto& entry) { return entry.first; });
    std::string text;
    std::size_t others = 0;
    for (std::size_t i = 0; i < frequent.size(); ++i) {
        const auto& [count, words] = frequent[i];
        if (i < most) {
            text += fmt::format("{}{} ({})", text.empty() ? "" : "; ", words, count);
        } else {
            others += count;
        }
    }
    return others == 0 ? text : fmt::format("{}; others ({})", text, others);
}

}  // namespace

NormComparisons compare_with_norms(const LongTable& table, std::span<const NumberColumn> expanded,
                                   const NormTable& norms, const NormComparisonOptions& options) {
    NormComparisons result{.by = columns_with_joint(options.by), .rows = {}, .findings = {}};
    std::size_t unmatched = 0;
    std::size_t all = 0;
    std::map<std::string, std::size_t> reasons;
    for (const GroupExtents& group : class_extents(table, expanded, options)) {
        std::map<std::string, Gathered> sources;
        for (const ParticipantExtent& participant : group.participants) {
            const ApplyingNorms applying = norms_for(participant, group, norms, options);
            ++all;
            if (applying.with_range.empty()) {
                ++unmatched;
                ++reasons[applying.reason.empty() ? "the rows that apply state no range" : applying.reason];
            }
            for (const auto& [source, row] : applying.with_range) {
                judge(participant, *row, sources[source]);
            }
        }
        for (auto& [source, gathered] : sources) {
            NormComparison row = std::move(gathered.row);
            row.group = group.group;
            row.direction = name_of(group.part, *group.motion);
            row.quantity = group.quantity;
            row.source = source;
            row.mean = describe(gathered.extents).mean;
            row.norm_mean = describe(gathered.norms).mean;
            row.mean_z = describe(gathered.z).mean;
            result.rows.push_back(std::move(row));
        }
    }
    if (unmatched > 0) {
        result.findings.emplace_back("norms-unmatched",
                                     fmt::format("for {} of {} participants' extents no source has a normal range: {}",
                                                 unmatched, all, counted(reasons)));
    }
    return result;
}

}  // namespace jointrom
