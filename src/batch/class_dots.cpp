#include "batch/class_extents.hpp"
#include "batch/class_figure_parts.hpp"

#include <jointrom/batch/class_figures.hpp>
#include <jointrom/norms/norm_band.hpp>
#include <jointrom/stats/descriptive.hpp>
#include <jointrom/stats/t_test.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <set>

namespace jointrom {
namespace {

constexpr std::size_t most_ranges = 4;

void fill_mean(ClassGroup& group) {
    std::vector<double> values;
    for (const ClassLane& lane : group.lanes) {
        for (const NamedValue& value : lane.values) {
            values.push_back(value.value);
        }
    }
    const Description described = describe(values);
    group.mean = described.mean;
    group.mean_ci = mean_interval(described);
}

/// Reference rows with a normal range that apply to each participant, by source.
std::vector<std::map<std::string, const NormRow*>> applying_rows(const GroupExtents& group, const NormTable& norms,
                                                                 const NormComparisonOptions& options,
                                                                 std::string& reason) {
    std::vector<std::map<std::string, const NormRow*>> rows;
    for (const ParticipantExtent& participant : group.participants) {
        ApplyingNorms applying = norms_for(participant, group, norms, options);
        const auto& own = rows.emplace_back(std::move(applying.with_range));
        if (own.empty() && reason.empty()) {
            reason = !applying.reason.empty() ? applying.reason
                     : options.mode           ? "the rows that apply state no spread."
                                              : "rows that apply without a mode (active, passive) state no spread.";
        }
    }
    return rows;
}

/// Authors and year: up to the first number of four digits.
std::string short_citation(const std::string& citation) {
    std::size_t digits = 0;
    for (std::size_t i = 0; i < citation.size(); ++i) {
        digits = citation[i] >= '0' && citation[i] <= '9' ? digits + 1 : 0;
        if (digits == 4) {
            return citation.substr(0, i + 1);
        }
    }
    return citation;
}

std::string row_text(const NormRow& row) {
    std::string text = row.sex ? std::string(name_of(*row.sex)) : "F and M";
    if (std::isfinite(row.age_min_years) && std::isfinite(row.age_max_years)) {
        text += fmt::format(" {:g}\u2013{:g} years", row.age_min_years, row.age_max_years);
    }
    return text;
}

/// The extents of a class with the normal ranges of its people.
class ExtentDots {
  public:
    ExtentDots(const LongTable& table, const NormTable& norms, const NormComparisonOptions& options)
        : norms_(norms), groups_(class_extents(table, {}, options)) {
        for (const GroupExtents& group : groups_) {
            rows_.push_back(applying_rows(group, norms, options, reason_));
        }
    }

    ClassDots dots() {
        choose_source();
        ClassDots dots;
        std::vector<std::vector<std::string>> texts;
        std::set<std::string> names, directions;
        for (std::size_t g = 0; g < groups_.size(); ++g) {
            const GroupExtents& group = groups_[g];
            ClassGroup& drawn = dots.groups.emplace_back();
            drawn.lanes = lanes_of(g);
            fill_mean(drawn);
            texts.push_back(group.group);
            names.insert(quantity_of(group.quantity, group.motion, group.part).name);
            directions.insert(name_of(group.part, *group.motion));
        }
        const std::vector<std::string> telling = telling_names(texts);
        for (std::size_t g = 0; g < groups_.size(); ++g) {
            dots.groups[g].name = telling[g];
        }
        dots.quantity = names.size() == 1        ? capitalised(*names.begin()) + " (deg)"
                        : directions.size() == 1 ? capitalised(*directions.begin()) + " (deg)"
                                                 : "Extent (deg)";
        dots.note = note();
        return dots;
    }

  private:
    /// That with ranges for the most participants.
    void choose_source() {
        std::map<std::string, std::size_t> counts;
        for (const auto& group : rows_) {
            for (const auto& own : group) {
                for (const auto& [source, row] : own) {
                    ++counts[source];
                }
            }
        }
        std::size_t most = 0;
        for (const NormSource& source : norms_.sources()) {
            if (const auto found = counts.find(source.key); found != counts.end() && found->second > most) {
                most = found->second;
                source_ = source.key;
            }
        }
    }

    /// The participants by the row that applies to them; those without one last.
    std::vector<ClassLane> lanes_of(std::size_t g) {
        const std::vector<ParticipantExtent>& participants = groups_[g].participants;
        std::vector<const NormRow*> row_of;
        std::vector<const NormRow*> used;
        for (const auto& own : rows_[g]) {
            const auto found = own.find(source_);
            row_of.push_back(found == own.end() ? nullptr : found->second);
            if (row_of.back() != nullptr && std::ranges::find(used, row_of.back()) == used.end()) {
                used.push_back(row_of.back());
            }
        }
        if (used.size() > most_ranges) {
            has_many_ = true;
            used.clear();
            std::ranges::fill(row_of, nullptr);
        }
        std::ranges::sort(used, {}, [](const NormRow* row) { return row->line; });
        used.push_back(nullptr);
        std::vector<ClassLane> lanes;
        for (const NormRow* const row : used) {
            ClassLane lane;
            for (std::size_t i = 0; i < participants.size(); ++i) {
                if (row_of[i] == row) {
                    lane.values.push_back({participants[i].name, participants[i].extent_deg});
                }
            }
            if (row != nullptr) {
                const NormBand band = *normal_band(*row);
                lane.text = row_text(*row);
                lane.lower = band.lower_deg;
                lane.upper = band.upper_deg;
            } else if (used.size() > 1) {
                lane.text = "no normal range";
            }
            if (!lane.values.empty()) {
                lanes.push_back(std::move(lane));
            }
        }
        return lanes;
    }

    [[nodiscard]] std::string note() const {
        if (has_many_) {
            return "No normal ranges: more than four of them apply within a group.";
        }
        if (source_.empty()) {
            return reason_.empty() ? std::string() : "No normal range: " + reason_;
        }
        const std::string& citation = norms_.source(source_).citation;  // a table of one's own may have none
        return "Normal ranges: " + (citation.empty() ? source_ : short_citation(citation)) + ".";
    }

    const NormTable& norms_;
    std::vector<GroupExtents> groups_;
    std::vector<std::vector<std::map<std::string, const NormRow*>>> rows_;  ///< by group and participant, by source
    std::string source_;
    std::string reason_;
    bool has_many_ = false;
};

ClassDots value_dots(const LongTable& table, const NormComparisonOptions& options) {
    const RowGroups groups = groups_by(table, options.by);
    ClassDots dots;
    dots.quantity = quantity_of(table.numbers.front().name).text();
    std::vector<std::vector<std::string>> texts;
    for (std::size_t g = 0; g < groups.size(); ++g) {
        if (groups.rows_of(g).empty()) {
            continue;
        }
        ClassGroup& group = dots.groups.emplace_back();
        group.lanes = {{.text = {}, .values = participant_means(table, groups.rows_of(g), options.participant)}};
        fill_mean(group);
        texts.push_back(groups.texts_of(g));
    }
    const std::vector<std::string> telling = telling_names(texts);
    for (std::size_t g = 0; g < telling.size(); ++g) {
        dots.groups[g].name = telling[g];
    }
    return dots;
}

}  // namespace

ClassDots class_dots(const LongTable& table, const NormTable& norms, const NormComparisonOptions& options) {
    const TextColumn* const joint = table.find_text("joint");
    const bool has_joint = joint != nullptr && joint->named() > 0 && table.find_text("motion") != nullptr;
    ClassDots dots = has_joint && extent_in_column(table.numbers.front().name)
                         ? ExtentDots(table, norms, options).dots()
                         : value_dots(table, options);
    dots.title = "Class: " + dots.quantity.substr(0, dots.quantity.rfind(" ("));
    return dots;
}

}  // namespace jointrom
