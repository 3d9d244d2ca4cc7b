#include <jointrom/batch/norm_comparison.hpp>

#include "batch/class_extents.hpp"

#include <jointrom/core/conformity.hpp>
#include <jointrom/norms/norm_band.hpp>
#include <jointrom/stats/descriptive.hpp>

#include <fmt/format.h>

#include <cmath>
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

}  // namespace

NormComparisons compare_with_norms(const LongTable& table, std::span<const NumberColumn> expanded,
                                   const NormTable& norms, const NormComparisonOptions& options) {
    NormComparisons result{.by = columns_with_joint(options.by), .rows = {}, .findings = {}};
    std::size_t unmatched = 0;
    std::size_t all = 0;
    std::string reason;
    for (const GroupExtents& group : class_extents(table, expanded, options)) {
        std::map<std::string, Gathered> sources;
        for (const ParticipantExtent& participant : group.participants) {
            const ApplyingNorms applying = norms_for(participant, group, norms, options);
            ++all;
            if (applying.with_range.empty()) {
                ++unmatched;
                reason = reason.empty() ? applying.reason : reason;
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
                                     fmt::format("for {} of {} participants' extents no source has a normal range{}{}",
                                                 unmatched, all, reason.empty() ? "" : "; the first: ", reason));
    }
    return result;
}

}  // namespace jointrom
