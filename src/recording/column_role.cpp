#include <jointrom/recording/column_role.hpp>

#include "column_content.hpp"
#include "role_words.hpp"
#include "words.hpp"

#include <jointrom/recording/column_name.hpp>
#include <jointrom/table/heading.hpp>

#include <algorithm>
#include <filesystem>
#include <numbers>
#include <span>
#include <string_view>

namespace jointrom {
namespace {

bool is_time_unit(const std::string& unit) {
    return unit == "s" || unit == "ms" || unit == "us" || unit == "min" || unit == "h";
}

ColumnRole role_of(Naming naming, const std::string& unit) {
    if (naming == Naming::something_else) {
        return ColumnRole::other;
    }
    if (unit == "deg" || unit == "rad") {
        return ColumnRole::angle;
    }
    const bool small_voltage = unit == "mV" || unit == "uV";
    if (unit.empty() || unit == "V" || unit == "counts" || small_voltage) {
        if (naming == Naming::angle) {
            return ColumnRole::angle;
        }
        if (naming == Naming::muscle || small_voltage) {
            return ColumnRole::emg;
        }
        return naming == Naming::motion || naming == Naming::joint ? ColumnRole::angle : ColumnRole::other;
    }
    return unit == "%" && naming == Naming::muscle ? ColumnRole::emg : ColumnRole::other;
}

class RoleFinder {
  public:
    RoleFinder(const Table& table, const StatedRoles& stated, const std::string& source)
        : table_(table), stated_(stated), source_words_(words_of(std::filesystem::path(source).stem().string())) {
        roles_.of.assign(table.columns.size(), ColumnRole::other);
        for (std::size_t i = 0; i < table.columns.size(); ++i) {
            namings_.push_back(naming_of(column_name(table, i)));
        }
    }

    ColumnRoles find() {
        find_times();
        for (std::size_t i = 0; i < table_.columns.size(); ++i) {
            if (roles_.of[i] == ColumnRole::other) {
                roles_.of[i] = role_of(namings_[i], unit(i));
            }
        }
        for (const std::size_t i : stated_.emg) {
            roles_.of[i] = ColumnRole::emg;
        }
        match_times();
        if (stated_.angle) {
            take_angle(*stated_.angle, {});
        } else if (!choose_named_angle()) {
            choose_angle_by_content();
        }
        return std::move(roles_);
    }

  private:
    [[nodiscard]] const std::string& unit(std::size_t i) const { return table_.description.units[i]; }
    [[nodiscard]] std::span<const double> values(std::size_t i) const { return table_.columns[i].values; }
    [[nodiscard]] bool has_values(std::size_t i) const {
        return table_.columns[i].is_numeric && table_.columns[i].missing < table_.columns[i].values.size();
    }
    [[nodiscard]] bool is_channel(std::size_t i) const {
        return roles_.of[i] == ColumnRole::angle || roles_.of[i] == ColumnRole::emg ||
               roles_.of[i] == ColumnRole::other;
    }
    /// What the middle of the values spans, in degrees where the unit is one of angle.
    [[nodiscard]] double range_of(std::size_t i) const {
        return middle_range(values(i)) * (unit(i) == "rad" ? 180.0 / std::numbers::pi : 1.0);
    }
    [[nodiscard]] bool has_heading(std::size_t i) const {
        return table_.description.headings[i] != "column " + std::to_string(table_.columns[i].number);
    }

    void find_times();
    void match_times();
    [[nodiscard]] bool is_named_time(std::size_t i) const;
    [[nodiscard]] int evidence(std::size_t i) const;
    [[nodiscard]] std::size_t words_shared_with_source(std::size_t i) const;
    bool choose_named_angle();
    void choose_angle_by_content();
    void take_angle(std::size_t i, const std::string& reason);
    [[nodiscard]] std::string others(const std::vector<std::size_t>& candidates) const;

    const Table& table_;
    const StatedRoles& stated_;
    std::vector<std::string> source_words_;
    std::vector<Naming> namings_;
    ColumnRoles roles_;
};

bool RoleFinder::is_named_time(std::size_t i) const {
    if (table_.columns[i].is_time || table_.time_column == i) {
        return true;
    }
    if (is_time_unit(unit(i))) {
        return steps_of(values(i)).is_rising();
    }
    return unit(i).empty() && names_time(column_name(table_, i));
}

void RoleFinder::find_times() {
    bool found = stated_.time.has_value();
    for (std::size_t i = 0; i < table_.columns.size(); ++i) {
        if (!table_.columns[i].is_numeric) {
            roles_.of[i] = ColumnRole::text;
        } else if (stated_.time ? *stated_.time == i : has_values(i) && is_named_time(i)) {
            roles_.of[i] = ColumnRole::time;
            found = true;
        }
    }
    std::optional<std::size_t> rising;
    for (std::size_t i = 0; i < table_.columns.size(); ++i) {
        const bool nameless = namings_[i] == Naming::nothing && unit(i).empty();
        if (roles_.of[i] != ColumnRole::other || !has_values(i) || !(nameless || namings_[i] == Naming::counter)) {
            continue;
        }
        const Steps steps = steps_of(values(i));
        if (steps.values < 3 || !steps.is_rising()) {
            continue;
        }
        if (steps.is_counting()) {
            roles_.of[i] = ColumnRole::counter;
        } else if (!found && nameless && has_even_steps(values(i))) {
            roles_.of[i] = ColumnRole::time;
            found = true;
        } else if (!rising && nameless && steps.rises_all_along()) {
            rising = i;
        }
    }
    if (!found && rising) {
        roles_.of[*rising] = ColumnRole::time;
    }
}

/// Every channel goes with the time column to its left. Time columns side by side say the same; the one that rises
/// most often is the finest.
void RoleFinder::match_times() {
    std::optional<std::size_t> time;
    bool is_side_by_side = false;
    for (std::size_t i = 0; i < table_.columns.size(); ++i) {
        roles_.time_of.push_back(time);
        if (roles_.of[i] == ColumnRole::time) {
            if (!is_side_by_side || steps_of(values(i)).rises > steps_of(values(*time)).rises) {
                time = i;
            }
            is_side_by_side = true;
        } else if (is_channel(i)) {
            is_side_by_side = false;
        }
    }
    // Channels that stand left of every time column go with the first one.
    const auto first = std::ranges::find_if(roles_.time_of, [](const auto& of) { return of.has_value(); });
    std::fill(roles_.time_of.begin(), first, first == roles_.time_of.end() ? time : *first);
}

/// How much speaks for a column being the joint angle.
int RoleFinder::evidence(std::size_t i) const {
    const int of_unit = unit(i) == "deg" || unit(i) == "rad" ? 4 : 0;
    switch (namings_[i]) {
    case Naming::angle:
        return of_unit + 3;
    case Naming::motion:
        return of_unit + 2;
    case Naming::joint:
        return of_unit + 1;
    default:
        return of_unit;
    }
}

std::size_t RoleFinder::words_shared_with_source(std::size_t i) const {
    std::size_t shared = 0;
    for (const std::string& word : words_of(column_name(table_, i))) {
        if (word.size() > 1 && std::ranges::find(source_words_, word) != source_words_.end()) {
            ++shared;
        }
    }
    return shared;
}

std::string RoleFinder::others(const std::vector<std::size_t>& candidates) const {
    constexpr std::size_t most_names = 4;
    std::string list;
    for (std::size_t k = 1; k < candidates.size() && k <= most_names; ++k) {
        list += (k == 1 ? "'" : ", '") + column_name(table_, candidates[k]) + "'";
    }
    if (candidates.size() > most_names + 1) {
        list += " and " + std::to_string(candidates.size() - most_names - 1) + " more";
    }
    return list;
}

void RoleFinder::take_angle(std::size_t i, const std::string& reason) {
    roles_.of[i] = ColumnRole::angle;
    roles_.angle = i;
    roles_.angle_reason = reason;
}

bool RoleFinder::choose_named_angle() {
    struct Candidate {
        std::size_t index;
        int evidence;
        std::size_t shared_words;
        double range;
    };
    std::vector<Candidate> candidates;
    for (std::size_t i = 0; i < table_.columns.size(); ++i) {
        if (roles_.of[i] == ColumnRole::angle && has_values(i)) {
            candidates.push_back({i, evidence(i), words_shared_with_source(i), 0.0});
        }
    }
    if (candidates.empty()) {
        return false;
    }
    if (candidates.size() == 1) {
        const bool plain = candidates.front().evidence >= 2;
        take_angle(candidates.front().index, plain ? "" : "of its name");
        return true;
    }
    for (Candidate& candidate : candidates) {
        candidate.range = range_of(candidate.index);
    }
    std::ranges::stable_sort(candidates, [](const Candidate& a, const Candidate& b) {
        return a.evidence != b.evidence           ? a.evidence > b.evidence
               : a.shared_words != b.shared_words ? a.shared_words > b.shared_words
                                                  : a.range > b.range;
    });
    std::vector<std::size_t> indices;
    for (const Candidate& candidate : candidates) {
        indices.push_back(candidate.index);
    }
    const std::string reason = candidates[0].evidence > candidates[1].evidence ? "its name and unit say most"
                               : candidates[0].shared_words > candidates[1].shared_words
                                   ? "its name has most in common with the file name"
                                   : "it moved furthest";
    take_angle(indices.front(), reason + "; also possible: " + others(indices));
    return true;
}

void RoleFinder::choose_angle_by_content() {
    constexpr double slow_ratio = 0.2;        // common practice, no source: 100 Hz movement < 0.01, raw EMG > 0.3
    constexpr std::size_t marker_values = 8;  // a channel with no more different values is a marker or a switch
    std::vector<std::size_t> nameless;
    for (std::size_t i = 0; i < table_.columns.size(); ++i) {
        const bool unit_fits = unit(i).empty() || unit(i) == "V" || unit(i) == "counts";
        if (roles_.of[i] == ColumnRole::other && has_values(i) && namings_[i] == Naming::nothing && unit_fits) {
            nameless.push_back(i);
        }
    }
    if (nameless.size() == 1) {
        take_angle(nameless.front(), "it is the only channel that can be one");
        return;
    }
    std::vector<std::pair<double, std::size_t>> slow;
    for (const std::size_t i : nameless) {
        const Slowness slowness = slowness_of(values(i));
        if (slowness.distinct_values > marker_values && slowness.ratio < slow_ratio) {
            slow.emplace_back(range_of(i), i);
        } else if (slowness.distinct_values > marker_values && slowness.mean_over_sd < 1.0 && !has_heading(i)) {
            roles_.of[i] = ColumnRole::emg;
        }
    }
    if (slow.empty()) {
        return;
    }
    std::ranges::stable_sort(slow, [](const auto& a, const auto& b) { return a.first > b.first; });
    std::vector<std::size_t> indices;
    for (const auto& [range, index] : slow) {
        indices.push_back(index);
    }
    const std::string rest = others(indices);
    take_angle(indices.front(), "it changes slowly, as a joint does" + (rest.empty() ? "" : "; so do: " + rest));
}

}  // namespace

ColumnRole role_by_name(const std::string& heading, const std::string& unit) {
    return role_of(naming_of(column_name(heading)), unit);
}

ColumnRoles column_roles(const Table& table, const StatedRoles& stated, const std::string& source) {
    return RoleFinder(table, stated, source).find();
}

}  // namespace jointrom
