#include "batch/row_groups.hpp"

#include <algorithm>
#include <numeric>
#include <unordered_map>

namespace jointrom {
namespace {

constexpr std::uint64_t largest_map = std::uint64_t{1} << 22U;

/// Numbers keys from 0 in their own order, by a table of all possible ones.
RowNumbers numbered_by_table(const std::vector<std::uint64_t>& sizes, const std::vector<std::uint32_t>& first,
                             const std::vector<std::uint32_t>& second) {
    const std::uint64_t width = sizes[1];
    std::vector<std::uint32_t> number(sizes[0] * width, 0);
    for (std::size_t row = 0; row < first.size(); ++row) {
        number[first[row] * width + second[row]] = 1;
    }
    RowNumbers result;
    for (std::uint32_t& entry : number) {
        entry = entry == 0 ? 0U : static_cast<std::uint32_t>(result.count++);
    }
    result.of_row.resize(first.size());
    for (std::size_t row = 0; row < first.size(); ++row) {
        result.of_row[row] = number[first[row] * width + second[row]];
    }
    return result;
}

/// The same where there are too many possible keys for a table.
RowNumbers numbered_by_search(std::uint64_t width, const std::vector<std::uint32_t>& first,
                              const std::vector<std::uint32_t>& second) {
    const auto key_of = [&](std::size_t row) { return first[row] * width + second[row]; };
    std::vector<std::uint64_t> keys(first.size());
    for (std::size_t row = 0; row < keys.size(); ++row) {
        keys[row] = key_of(row);
    }
    std::ranges::sort(keys);
    keys.erase(std::unique(keys.begin(), keys.end()), keys.end());
    std::unordered_map<std::uint64_t, std::uint32_t> numbers;
    numbers.reserve(keys.size());
    for (const std::uint64_t key : keys) {
        numbers.emplace(key, static_cast<std::uint32_t>(numbers.size()));
    }
    RowNumbers result{std::vector<std::uint32_t>(first.size()), keys.size()};
    for (std::size_t row = 0; row < first.size(); ++row) {
        result.of_row[row] = numbers.at(key_of(row));
    }
    return result;
}

}  // namespace

std::span<const std::uint32_t> RowGroups::rows_of(std::size_t group) const {
    return std::span(rows).subspan(begins[group], begins[group + 1] - begins[group]);
}

std::vector<std::string> RowGroups::texts_of(std::size_t group) const {
    std::vector<std::string> texts;
    for (const TextColumn* const column : by) {
        texts.push_back(column->text(rows_of(group).front()));
    }
    return texts;
}

RowNumbers row_numbers(std::span<const TextColumn* const> columns, std::size_t rows) {
    RowNumbers result{std::vector<std::uint32_t>(rows, 0), 1};
    for (const TextColumn* const column : columns) {
        const std::uint64_t width = column->texts.size();
        if (result.count == 1) {
            result = {column->codes, column->texts.size()};
        } else if (result.count * width <= largest_map) {
            result = numbered_by_table({result.count, width}, result.of_row, column->codes);
        } else {
            result = numbered_by_search(width, result.of_row, column->codes);
        }
    }
    return result;
}

RowGroups row_groups(std::span<const TextColumn* const> columns, std::size_t rows) {
    const RowNumbers numbers = row_numbers(columns, rows);
    RowGroups groups{{columns.begin(), columns.end()}, std::vector<std::size_t>(numbers.count + 1, 0), {}};
    for (const std::uint32_t number : numbers.of_row) {
        ++groups.begins[number + 1];
    }
    std::partial_sum(groups.begins.begin(), groups.begins.end(), groups.begins.begin());
    std::vector<std::size_t> next(groups.begins.begin(), groups.begins.end() - 1);
    groups.rows.resize(rows);
    for (std::uint32_t row = 0; row < rows; ++row) {
        groups.rows[next[numbers.of_row[row]]++] = row;
    }
    return groups;
}

}  // namespace jointrom
