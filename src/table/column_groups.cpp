#include <table/column_groups.hpp>

#include <algorithm>

namespace jointrom {

std::vector<ColumnGroup> labelled_groups(std::span<const std::string> labels, std::size_t columns) {
    if (labels.size() > columns) {
        return {};
    }
    std::vector<ColumnGroup> groups;
    for (std::size_t c = 0; c < labels.size(); ++c) {
        if (!labels[c].empty()) {
            if (!groups.empty()) {
                groups.back().last = c;
            }
            groups.push_back({c, columns, labels[c]});
        }
    }
    const bool even = groups.size() >= 2 && std::ranges::all_of(groups, [&](const ColumnGroup& group) {
                          const std::size_t size = group.last - group.first;
                          return size >= 2 && size == groups.front().last - groups.front().first;
                      });
    return even ? groups : std::vector<ColumnGroup>();
}

std::vector<ColumnGroup> trials_side_by_side(const std::vector<ColumnGroup>& groups,
                                             std::span<const std::string> headings, const std::vector<bool>& is_time) {
    const std::size_t columns = headings.size();
    if (!groups.empty()) {
        const bool each_has_time =
            groups.front().first == 0 &&
            std::ranges::all_of(groups, [&](const ColumnGroup& group) { return is_time[group.first]; });
        return each_has_time ? groups : std::vector<ColumnGroup>{{0, columns, {}}};
    }
    for (std::size_t period = 2; is_time[0] && !headings[0].empty() && period * 2 <= columns; ++period) {
        const bool repeats = columns % period == 0 && std::equal(headings.begin() + static_cast<std::ptrdiff_t>(period),
                                                                 headings.end(), headings.begin());
        if (repeats) {
            std::vector<ColumnGroup> trials;
            for (std::size_t c = 0; c < columns; c += period) {
                trials.push_back({c, c + period, {}});
            }
            return trials;
        }
    }
    return {{0, columns, {}}};
}

}  // namespace jointrom
