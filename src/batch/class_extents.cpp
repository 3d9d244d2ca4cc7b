#include "batch/class_extents.hpp"

#include "batch/row_groups.hpp"

#include <jointrom/core/failure.hpp>
#include <jointrom/core/number_text.hpp>
#include <jointrom/norms/measured_person.hpp>
#include <jointrom/norms/norm_band.hpp>
#include <jointrom/stats/subject_means.hpp>

#include <algorithm>
#include <cmath>
#include <numeric>

namespace jointrom {
namespace {

std::optional<MotionPart> part_of(const std::string& quantity) {
    if (quantity == "positive_deg") {
        return MotionPart::positive;
    }
    if (quantity == "negative_deg") {
        return MotionPart::negative;
    }
    return quantity == "arc_deg" ? std::optional(MotionPart::arc) : std::nullopt;
}

const NumberColumn* expanded_of(std::span<const NumberColumn> expanded, const std::string& quantity) {
    const std::string name = quantity.substr(0, quantity.rfind("_deg")) + "_u95_deg";
    const auto found = std::ranges::find(expanded, name, &NumberColumn::name);
    return found == expanded.end() ? nullptr : &*found;
}

class ExtentMaker {
  public:
    ExtentMaker(const LongTable& table, std::span<const NumberColumn> expanded, const NormComparisonOptions& options)
        : table_(table), expanded_(expanded), options_(options) {
        for (const std::string& name : columns_with_joint(options.by)) {
            by_.push_back(table.find_text(name));
        }
        if (const TextColumn* const participants = table.find_text(options.participant)) {
            participants_ = participants->codes;
        } else {
            participants_.resize(table.rows);
            std::iota(participants_.begin(), participants_.end(), 0U);
        }
        participant_count_ =
            participants_.empty() ? 0 : *std::max_element(participants_.begin(), participants_.end()) + std::size_t{1};
    }

    std::vector<GroupExtents> extents() {
        std::vector<GroupExtents> result;
        const RowGroups groups = row_groups(by_, table_.rows);
        for (std::size_t group = 0; group < groups.size(); ++group) {
            const auto rows = groups.rows_of(group);
            if (rows.empty() || joint_of(rows.front()).empty()) {
                continue;
            }
            const JointMotion& motion =
                joint_motion(joint_of(rows.front()), table_.find_text("motion")->text(rows.front()));
            for (const NumberColumn& column : table_.numbers) {
                if (const auto part = part_of(column.name)) {
                    result.push_back(
                        {groups.texts_of(group), &motion, *part, column.name, participants_of(rows, column, *part)});
                }
            }
        }
        return result;
    }

  private:
    [[nodiscard]] const std::string& joint_of(std::uint32_t row) const { return table_.find_text("joint")->text(row); }

    std::vector<ParticipantExtent> participants_of(std::span<const std::uint32_t> rows, const NumberColumn& column,
                                                   MotionPart part) const {
        const NumberColumn* const expanded = expanded_of(expanded_, column.name);
        std::vector<std::uint32_t> who;
        std::vector<double> values;
        std::vector<double> uncertainties;
        std::vector<std::uint32_t> first_row(participant_count_, 0);
        for (const std::uint32_t row : rows) {
            who.push_back(participants_[row]);
            values.push_back(column.values[row]);
            uncertainties.push_back(expanded == nullptr || std::isnan(column.values[row]) ? 0.0
                                                                                          : expanded->values[row]);
            first_row[participants_[row]] = row;
        }
        SubjectMeans means(participant_count_);
        std::vector<double> expanded_by_participant(participant_count_, 0.0);
        for (const SubjectMean& mean : means.of(uncertainties, who).means) {
            expanded_by_participant[mean.subject] = mean.mean;
        }
        std::vector<ParticipantExtent> result;
        for (const SubjectMean& mean : means.of(values, who).means) {
            const double extent = part == MotionPart::negative ? -mean.mean : mean.mean;
            result.push_back({extent, expanded_by_participant[mean.subject], sex_of(first_row[mean.subject]),
                              age_of(first_row[mean.subject]), name_of_participant(first_row[mean.subject])});
        }
        return result;
    }

    [[nodiscard]] std::string name_of_participant(std::uint32_t row) const {
        const TextColumn* const column = table_.find_text(options_.participant);
        return column == nullptr ? std::string(table_.id(row)) : column->text(row);
    }

    [[nodiscard]] std::optional<Sex> sex_of(std::uint32_t row) const {
        const TextColumn* const column = table_.find_text("sex");
        return column == nullptr || column->text(row).empty() ? options_.sex
                                                              : std::optional(sex_named(column->text(row)));
    }

    [[nodiscard]] std::optional<double> age_of(std::uint32_t row) const {
        const TextColumn* const column = table_.find_text("age_years");
        if (column == nullptr || column->text(row).empty()) {
            return options_.age_years;
        }
        const auto age = parse_number(column->text(row));
        if (!age) {
            throw Failure(FailureKind::unreadable_data, "not-a-number",
                          "'" + column->text(row) + "' in column age_years is not a number",
                          "Write ages in years with a decimal point, or leave the cell empty.");
        }
        return age;
    }

    const LongTable& table_;
    std::span<const NumberColumn> expanded_;
    const NormComparisonOptions& options_;
    std::vector<const TextColumn*> by_;
    std::vector<std::uint32_t> participants_;
    std::size_t participant_count_ = 0;
};

}  // namespace

std::vector<std::string> columns_with_joint(const std::vector<std::string>& by) {
    std::vector<std::string> columns = by;
    for (const char* const name : {"motion", "joint"}) {
        if (std::ranges::find(columns, name) == columns.end()) {
            columns.insert(columns.begin(), name);
        }
    }
    return columns;
}

std::vector<GroupExtents> class_extents(const LongTable& table, std::span<const NumberColumn> expanded,
                                        const NormComparisonOptions& options) {
    return ExtentMaker(table, expanded, options).extents();
}

namespace {

/// The mode of a group.
std::optional<MotionMode> mode_of(const GroupExtents& group, const NormComparisonOptions& options) {
    const std::vector<std::string> columns = columns_with_joint(options.by);
    const auto condition = std::ranges::find(columns, "condition");
    std::optional<MotionMode> told;
    if (options.condition_tells_mode && condition != columns.end()) {
        told = find_mode_in(group.group[static_cast<std::size_t>(condition - columns.begin())]);
    }
    return told ? told : options.mode;
}

}  // namespace

ApplyingNorms norms_for(const ParticipantExtent& participant, const GroupExtents& group, const NormTable& norms,
                        const NormComparisonOptions& options) {
    NormLookup lookup = find_norms(norms, {.motion = group.motion,
                                           .part = group.part,
                                           .sex = participant.sex,
                                           .age_years = participant.age_years,
                                           .mode = mode_of(group, options),
                                           .source = options.source});
    ApplyingNorms applying{.with_range = {}, .reason = std::move(lookup.reason)};
    for (const NormMatch& match : lookup.matches) {
        if (normal_band(*match.row)) {
            applying.with_range.emplace(match.row->source, match.row);
        }
    }
    return applying;
}

}  // namespace jointrom
