#include <jointrom/batch/class_figures.hpp>

#include "batch/class_figure_parts.hpp"

#include <jointrom/core/failure.hpp>
#include <jointrom/norms/side_comparison.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <cassert>
#include <iterator>
#include <limits>
#include <map>
#include <set>

namespace jointrom {
namespace {

constexpr double missing = std::numeric_limits<double>::quiet_NaN();

/// The only joint motion of a table; nothing where none is named.
const JointMotion* only_motion(const LongTable& table) {
    const TextColumn* const joint = table.find_text("joint");
    const TextColumn* const motion = table.find_text("motion");
    if (joint == nullptr || motion == nullptr) {
        return nullptr;
    }
    std::set<const JointMotion*> motions;
    for (std::size_t row = 0; row < table.rows; ++row) {
        if (!joint->text(row).empty()) {
            motions.insert(&joint_motion(joint->text(row), motion->text(row)));
        }
    }
    if (motions.size() > 1) {
        throw Failure(FailureKind::usage, "joints-mixed",
                      fmt::format("the table holds {} joint motions; one figure shows one", motions.size()),
                      "Choose one, such as --only joint=knee.");
    }
    return motions.empty() ? nullptr : *motions.begin();
}

/// Pairs of the participants in one group of rows.
std::vector<SideValues> pairs_in(const LongTable& table, std::span<const std::uint32_t> rows, const TextColumn& side,
                                 const std::string& participant) {
    std::map<std::string, SideValues> pairs;
    for (const Side which : {Side::left, Side::right}) {
        std::vector<std::uint32_t> own;
        std::ranges::copy_if(rows, std::back_inserter(own),
                             [&](std::uint32_t row) { return side.text(row) == name_of(which); });
        for (const NamedValue& value : participant_means(table, own, participant)) {
            SideValues& pair = pairs.emplace(value.name, SideValues{value.name, missing, missing}).first->second;
            (which == Side::left ? pair.left : pair.right) = value.value;
        }
    }
    std::vector<SideValues> result;
    for (auto& [name, pair] : pairs) {
        result.push_back(std::move(pair));
    }
    return result;
}

/// The title, the quantity and the limit.
SidePairs described_sides(const std::string& column, const JointMotion* motion) {
    const std::optional<MotionPart> part = extent_in_column(column);
    const MeasuredQuantity quantity = quantity_of(column, part ? motion : nullptr, part.value_or(MotionPart::arc));
    SidePairs sides{.title = capitalised(quantity.name) + ": left against right",
                    .quantity = quantity.name,
                    .unit = quantity.unit,
                    .pairs = {},
                    .note = {}};
    if (motion != nullptr && part) {
        const SideLimit limit = side_limit(*motion, *part);
        sides.limit = limit.limit.value();
        sides.note = fmt::format("Limit: {}.", limit.basis);
    }
    return sides;
}

}  // namespace

LongTable filtered_rows(const LongTable& table, std::span<const RowFilter> filters) {
    std::vector<std::uint32_t> kept;
    for (std::uint32_t row = 0; row < table.rows; ++row) {
        kept.push_back(row);
    }
    for (const RowFilter& filter : filters) {
        const TextColumn& column = *table.find_text(filter.column);
        if (std::ranges::find(column.texts, filter.text) == column.texts.end()) {
            throw Failure(FailureKind::usage, "no-such-level",
                          fmt::format("'{}' does not occur in column {} ({})", filter.text, column.name,
                                      fmt::join(column.texts, ", ")),
                          "Name one of these.");
        }
        std::erase_if(kept, [&](std::uint32_t row) { return column.text(row) != filter.text; });
    }
    if (kept.empty()) {
        throw Failure(FailureKind::usage, "no-rows-left", "no row passes all of --only", "Leave one of them out.");
    }
    LongTable result;
    result.headings = table.headings;
    result.rows = kept.size();
    result.failed = table.failed;
    result.repeated = table.repeated;
    result.files = table.files;
    for (const TextColumn& column : table.texts) {
        TextColumn& copy = result.texts.emplace_back(TextColumn{column.name, {}, column.texts});
        for (const std::uint32_t row : kept) {
            copy.codes.push_back(column.codes[row]);
        }
    }
    for (const NumberColumn& column : table.numbers) {
        NumberColumn& copy = result.numbers.emplace_back(NumberColumn{column.name, {}});
        for (const std::uint32_t row : kept) {
            copy.values.push_back(column.values[row]);
        }
    }
    for (const std::uint32_t row : kept) {
        result.ids.add(table.id(row));
    }
    return result;
}

SidePairs side_pairs(const LongTable& table, const NormComparisonOptions& options, const std::string& side) {
    const std::string& column = table.numbers.front().name;
    const JointMotion* const motion = only_motion(table);
    SidePairs sides = described_sides(column, motion);
    std::vector<std::string> by = options.by;
    std::erase(by, side);
    const RowGroups groups = groups_by(table, by);
    std::vector<std::vector<std::string>> texts;
    std::vector<std::vector<SideValues>> pairs;
    for (std::size_t g = 0; g < groups.size(); ++g) {
        if (!groups.rows_of(g).empty()) {
            texts.push_back(groups.texts_of(g));
            pairs.push_back(pairs_in(table, groups.rows_of(g), *table.find_text(side), options.participant));
        }
    }
    const std::vector<std::string> names = telling_names(texts);
    // An extent counts in its own direction, so that beyond neutral is positive.
    const double sign = motion != nullptr && extent_in_column(column) == MotionPart::negative ? -1.0 : 1.0;
    for (std::size_t g = 0; g < pairs.size(); ++g) {
        for (SideValues& pair : pairs[g]) {
            sides.pairs.push_back(
                {names[g].empty() ? pair.name : pair.name + " " + names[g], sign * pair.left, sign * pair.right});
        }
    }
    return sides;
}

ScorePairs score_pairs(const RepeatedScores& scores, const RepeatedOptions& options) {
    assert(scores.scores.columns >= 2);
    const auto text_of = [&](std::string_view column) {
        const auto found = std::ranges::find(options.by, column);
        return found == options.by.end() ? std::string()
                                         : scores.group[static_cast<std::size_t>(found - options.by.begin())];
    };
    const auto part = extent_in_column(scores.quantity);
    const JointMotion* const motion =
        part && !text_of("joint").empty() ? &joint_motion(text_of("joint"), text_of("motion")) : nullptr;
    const MeasuredQuantity quantity = quantity_of(scores.quantity, motion, part.value_or(MotionPart::arc));
    std::string who;
    for (std::size_t i = 0; i < scores.group.size(); ++i) {
        if (options.by[i] != "joint" && options.by[i] != "motion") {
            who += (who.empty() ? ": " : ", ") + scores.group[i];
        }
    }
    ScorePairs pairs{.title = "Agreement of " + quantity.name + who,
                     .quantity = quantity.name,
                     .unit = quantity.unit,
                     .first = options.repeat + " " + scores.columns[0],
                     .second = options.repeat + " " + scores.columns[1],
                     .pairs = {}};
    for (std::size_t row = 0; row < scores.scores.rows(); ++row) {
        pairs.pairs.push_back({scores.subjects[row], scores.scores.at(row, 0), scores.scores.at(row, 1)});
    }
    return pairs;
}

}  // namespace jointrom
