#include <jointrom/norms/norm_lookup.hpp>

#include <jointrom/core/failure.hpp>
#include <jointrom/core/near_miss.hpp>
#include <jointrom/core/number_text.hpp>

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <cassert>
#include <cmath>

namespace jointrom {
namespace {

constexpr std::size_t most_near_rows = 8;

bool is_same_motion(const NormRow& row, const NormQuery& query) {
    return row.motion == query.motion && row.part == query.part;
}

std::vector<NormCriterion> unmet(const NormRow& row, const NormQuery& query) {
    std::vector<NormCriterion> result;
    if (!query.source.empty() && row.source != query.source) {
        result.push_back(NormCriterion::source);
    }
    if (row.sex && row.sex != query.sex) {
        result.push_back(NormCriterion::sex);
    }
    if (row.has_age() && !(query.age_years && holds_age(row, *query.age_years))) {
        result.push_back(NormCriterion::age);
    }
    if (row.mode && row.mode != query.mode) {
        result.push_back(NormCriterion::mode);
    }
    return result;
}

/// How far a row is from the question: another source than the one that was asked for is farther than anything else.
std::size_t distance_of(const std::vector<NormCriterion>& missed) {
    constexpr std::size_t other_source = 10;
    return missed.size() + (missed.front() == NormCriterion::source ? other_source : 0);
}

void check_names(const NormTable& table, std::optional<double> age_years, const std::string& source_key) {
    if (age_years && !(*age_years >= 0.0 && *age_years <= oldest_years)) {
        throw Failure(FailureKind::usage, "age-implausible",
                      fmt::format("nobody is {} years old", shortest_text(*age_years)),
                      fmt::format("Give an age from 0 to {} years.", oldest_years));
    }
    if (source_key.empty()) {
        return;
    }
    std::vector<std::string_view> keys;
    for (const NormSource& source : table.sources()) {
        keys.push_back(source.key);
    }
    if (std::ranges::find(keys, source_key) == keys.end()) {
        const auto meant = nearest(source_key, keys);
        throw Failure(FailureKind::usage, "source-unknown", fmt::format("no source is called '{}'", source_key),
                      (meant ? fmt::format("Did you mean '{}'? ", *meant) : std::string()) +
                          fmt::format("Known: {}.", fmt::join(keys, ", ")));
    }
}

std::string asked_text(const NormQuery& query) {
    std::string text = fmt::format("{} {}", query.motion->joint, name_of(query.part, *query.motion));
    text += query.sex ? fmt::format(", {}", name_of(*query.sex)) : ", sex not given";
    text += query.age_years ? fmt::format(", {} years", shortest_text(*query.age_years)) : ", age not given";
    text += query.mode ? fmt::format(", {}", name_of(*query.mode)) : ", active or passive not given";
    return query.source.empty() ? text : text + ", source " + query.source;
}

std::string row_text(const NormRow& row) {
    return fmt::format("{} ({}, {}, {})", row.source, sex_text(row), age_text(row), mode_text(row));
}

/// Joint or motion is missing altogether.
void explain_unknown_part(const NormTable& table, const NormQuery& query, NormLookup& result) {
    std::vector<std::string> parts;
    for (const NormRow& row : table.rows()) {
        if (row.motion->joint == query.motion->joint && std::ranges::find(parts, row.direction()) == parts.end()) {
            parts.push_back(row.direction());
        }
    }
    result.missing = {parts.empty() ? NormCriterion::joint : NormCriterion::motion};
    if (parts.empty()) {
        result.reason = fmt::format("No norm covers the {}.", query.motion->joint);
        return;
    }
    result.reason = fmt::format("No norm covers {} of the {}; covered are: {}.", name_of(query.part, *query.motion),
                                query.motion->joint, fmt::join(parts, ", "));
    if (query.motion->isb && query.motion->joint == "forearm" && query.motion->motion == "pronation-from-supination") {
        result.reason += " The tables count from the thumb-up posture, not from full supination.";
    }
}

void explain_mismatch(const NormQuery& query, NormLookup& result) {
    std::vector<std::string> names;
    for (const NearNorm& near : result.near) {
        for (const NormCriterion criterion : near.unmet) {
            if (std::ranges::find(result.missing, criterion) == result.missing.end()) {
                result.missing.push_back(criterion);
            }
        }
    }
    std::ranges::sort(result.missing);
    for (const NormCriterion criterion : result.missing) {
        names.emplace_back(name_of(criterion));
    }
    result.reason = fmt::format("No norm matches {}. The nearest rows, where {} does not fit: ", asked_text(query),
                                fmt::join(names, " or "));
    std::vector<std::string> rows;
    for (const NearNorm& near : result.near) {
        const std::string text = row_text(*near.row);
        if (std::ranges::find(rows, text) == rows.end()) {
            rows.push_back(text);
        }
    }
    const std::size_t shown = std::min(rows.size(), most_near_rows);
    result.reason +=
        fmt::format("{}", fmt::join(rows.begin(), rows.begin() + static_cast<std::ptrdiff_t>(shown), "; "));
    result.reason += shown < rows.size() ? fmt::format("; and {} more.", rows.size() - shown) : ".";
}

}  // namespace

std::string_view name_of(NormCriterion criterion) {
    switch (criterion) {
    case NormCriterion::joint:
        return "joint";
    case NormCriterion::motion:
        return "motion";
    case NormCriterion::source:
        return "source";
    case NormCriterion::sex:
        return "sex";
    case NormCriterion::age:
        return "age";
    case NormCriterion::mode:
        break;
    }
    return "mode";
}

std::string NormMatch::remarks() const {
    std::vector<std::string_view> remarks;
    if (sex_pooled) {
        remarks.emplace_back("both sexes together");
    }
    if (age_unstated) {
        remarks.emplace_back("age not stated");
    }
    if (mode_unstated) {
        remarks.emplace_back("active or passive not stated");
    }
    if (row->provenance == Provenance::memory) {
        remarks.emplace_back("value from memory");
    } else if (row->spread_provenance == Provenance::memory) {
        remarks.emplace_back("spread from memory");
    }
    return fmt::format("{}", fmt::join(remarks, ", "));
}

bool holds_age(const NormRow& row, double age_years) {
    const double completed = row.age_max_years == std::floor(row.age_max_years) ? std::floor(age_years) : age_years;
    return !(age_years < row.age_min_years) && !(completed > row.age_max_years);
}

NormLookup find_norms(const NormTable& table, const NormQuery& query) {
    assert(query.motion != nullptr);
    check_names(table, query.age_years, query.source);
    NormLookup result;
    std::size_t nearest_distance = 0;
    for (const NormRow& row : table.rows()) {
        if (!is_same_motion(row, query)) {
            continue;
        }
        std::vector<NormCriterion> missed = unmet(row, query);
        if (missed.empty()) {
            result.matches.push_back({.row = &row,
                                      .sex_pooled = query.sex && !row.sex,
                                      .age_unstated = query.age_years && !row.has_age(),
                                      .mode_unstated = query.mode && !row.mode});
            continue;
        }
        const std::size_t distance = distance_of(missed);
        if (result.near.empty() || distance < nearest_distance) {
            nearest_distance = distance;
            result.near.clear();
        }
        if (distance == nearest_distance) {
            result.near.push_back({&row, std::move(missed)});
        }
    }
    if (!result.matches.empty()) {
        result.near.clear();
        return result;
    }
    if (result.near.empty()) {
        explain_unknown_part(table, query, result);
    } else {
        explain_mismatch(query, result);
    }
    return result;
}

std::vector<NamedPart> filtered_parts(const NormTable& table, const NormFilter& filter) {
    check_names(table, filter.age_years, filter.source);
    std::vector<NamedPart> parts;
    if (!filter.joint.empty() && !filter.motion.empty()) {
        return {motion_part(filter.joint, filter.motion)};
    }
    const std::string joint = filter.joint.empty() ? std::string() : joint_motion(filter.joint).joint;
    for (const JointMotion& motion : joint_motions()) {
        if (!joint.empty() && motion.joint != joint) {
            continue;
        }
        if (filter.motion.empty()) {
            parts.push_back({&motion, MotionPart::arc});
        } else if (const auto part = find_part(motion, filter.motion)) {
            parts.push_back({&motion, *part});
        }
    }
    if (parts.empty()) {
        throw Failure(FailureKind::usage, "motion-unknown",
                      fmt::format("no joint has a motion called '{}'", filter.motion),
                      "Give the joint as well, to see its motions.");
    }
    return parts;
}

std::vector<const NormRow*> filtered_norms(const NormTable& table, const NormFilter& filter) {
    const std::vector<NamedPart> parts = filtered_parts(table, filter);
    std::vector<const NormRow*> result;
    for (const NormRow& row : table.rows()) {
        const bool is_wanted = std::ranges::any_of(parts, [&](const NamedPart& wanted) {
            return wanted.motion == row.motion && (wanted.part == row.part || wanted.part == MotionPart::arc);
        });
        const bool fits = is_wanted && (filter.source.empty() || row.source == filter.source) &&
                          (!filter.sex || !row.sex || row.sex == filter.sex) &&
                          (!filter.mode || !row.mode || row.mode == filter.mode) &&
                          (!filter.age_years || holds_age(row, *filter.age_years));
        if (fits) {
            result.push_back(&row);
        }
    }
    return result;
}

Findings memory_findings(std::span<const NormRow* const> rows) {
    const auto values = std::ranges::count(rows, Provenance::memory, &NormRow::provenance);
    const auto spreads = std::ranges::count_if(rows, [](const NormRow* row) {
        return row->provenance != Provenance::memory && row->spread_provenance == Provenance::memory;
    });
    if (values + spreads == 0) {
        return {};
    }
    std::vector<std::string> parts;
    if (values > 0) {
        parts.push_back(fmt::format("the value of {}", values));
    }
    if (spreads > 0) {
        parts.push_back(fmt::format("the spread of {}", spreads));
    }
    return {Finding("norm-from-memory", fmt::format("from memory: {} of {} row{}", fmt::join(parts, " and "),
                                                    rows.size(), rows.size() == 1 ? "" : "s"))};
}

}  // namespace jointrom
