#include <jointrom/norms/norm_difference.hpp>

#include <algorithm>
#include <cmath>
#include <limits>

namespace jointrom {
namespace {

bool ages_overlap(const NormRow& a, const NormRow& b) {
    // A limit that is NaN is none, and every comparison with it is false.
    return !(a.age_min_years > b.age_max_years) && !(b.age_min_years > a.age_max_years);
}

template <typename Value>
bool exclude(const std::optional<Value>& a, const std::optional<Value>& b) {
    return a && b && *a != *b;
}

bool can_compare(const NormRow& a, const NormRow& b) {
    return a.source != b.source && a.motion == b.motion && a.part == b.part && ages_overlap(a, b) &&
           !exclude(a.sex, b.sex) && !exclude(a.mode, b.mode);
}

double common_sd(const NormRow& a, const NormRow& b) {
    double sum = 0.0;
    int count = 0;
    for (const NormRow* row : {&a, &b}) {
        if (row->sd_deg > 0.0 && !row->is_skewed) {
            sum += row->sd_deg * row->sd_deg;
            ++count;
        }
    }
    return count > 0 ? std::sqrt(sum / count) : std::numeric_limits<double>::quiet_NaN();
}

/// Active, passive, then pairs of which one or both say neither.
int order_of(const NormDifference& pair) {
    const bool is_stated = pair.first->mode && pair.second->mode;
    return is_stated ? static_cast<int>(*pair.first->mode) : 2;
}

}  // namespace

std::vector<NormDifference> norm_differences(std::span<const NormRow* const> rows) {
    std::vector<NormDifference> result;
    for (std::size_t i = 0; i < rows.size(); ++i) {
        for (std::size_t j = i + 1; j < rows.size(); ++j) {
            if (can_compare(*rows[i], *rows[j])) {
                const double difference_deg = rows[j]->value_deg - rows[i]->value_deg;
                result.push_back({rows[i], rows[j], difference_deg, difference_deg / common_sd(*rows[i], *rows[j])});
            }
        }
    }
    std::ranges::stable_sort(result, [](const NormDifference& a, const NormDifference& b) {
        const int first = order_of(a);
        const int second = order_of(b);
        return first != second ? first < second : std::abs(a.difference_deg) > std::abs(b.difference_deg);
    });
    return result;
}

}  // namespace jointrom
