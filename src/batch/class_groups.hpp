#pragma once

/// \file
/// Recordings of a class that belong together, and what most of them have.

#include <jointrom/batch/trial_row.hpp>

#include <cstddef>
#include <map>
#include <optional>
#include <span>
#include <string>
#include <vector>

namespace jointrom {

/// Indices of rows by a key, in the order of keys.
using Groups = std::map<std::string, std::vector<std::size_t>>;

/// Rows whose key is empty belong to no group.
template <typename KeyOf>
[[nodiscard]] Groups grouped(std::span<const TrialRow> rows, const KeyOf& key_of) {
    Groups groups;
    for (std::size_t i = 0; i < rows.size(); ++i) {
        groups[key_of(rows[i])].push_back(i);
    }
    groups.erase("");
    return groups;
}

[[nodiscard]] inline std::string participant_of(const TrialRow& row) {
    return row.subject.participant;
}

/// The value that more than half of the rows have, and at least `least` of them; nothing when there is none. Rows
/// without a value do not count.
template <typename ValueOf>
[[nodiscard]] std::optional<std::string> majority(std::span<const TrialRow> rows, std::span<const std::size_t> members,
                                                  const ValueOf& value_of, std::size_t least = 3) {
    std::map<std::string, std::size_t> counts;
    std::size_t all = 0;
    for (const std::size_t i : members) {
        if (std::string value = value_of(rows[i]); !value.empty()) {
            ++counts[std::move(value)];
            ++all;
        }
    }
    for (const auto& [value, count] : counts) {
        if (2 * count > all && count >= least) {
            return value;
        }
    }
    return std::nullopt;
}

}  // namespace jointrom
