#include <jointrom/stats/subject_means.hpp>

#include "stats/order_free_sum.hpp"

#include <algorithm>
#include <cassert>
#include <cmath>

namespace jointrom {

struct SubjectMeans::Entry {
    OrderFreeScale::Sum sum;
    double mean = 0.0;
    std::uint32_t count = 0;
};

SubjectMeans::SubjectMeans(std::size_t subjects) : entries_(subjects) {}
SubjectMeans::~SubjectMeans() = default;

SubjectMeanList SubjectMeans::of(std::span<const double> values, std::span<const std::uint32_t> subjects) {
    assert(values.size() == subjects.size());
    SubjectMeanList result;
    double largest = 0.0;
    for (const double value : values) {
        largest = std::max(largest, std::isnan(value) ? 0.0 : std::abs(value));
    }
    const OrderFreeScale scale(largest, values.size());
    for (std::size_t i = 0; i < values.size(); ++i) {
        if (!std::isnan(values[i])) {
            Entry& entry = entries_[subjects[i]];
            if (entry.count == 0) {
                result.means.push_back({subjects[i], 0, 0.0});
            }
            scale.add(values[i], entry.sum);
            ++entry.count;
        }
    }
    std::ranges::sort(result.means, {}, &SubjectMean::subject);
    std::size_t count = 0;
    for (SubjectMean& subject : result.means) {
        Entry& entry = entries_[subject.subject];
        entry.mean = scale.value_of(entry.sum) / entry.count;
        subject.mean = entry.mean;
        subject.count = entry.count;
        count += entry.count;
    }
    result.within_dof = count - result.means.size();
    if (result.within_dof > 0) {
        OrderFreeSum squares(4.0 * largest * largest, values.size());
        for (std::size_t i = 0; i < values.size(); ++i) {
            const double distance = values[i] - entries_[subjects[i]].mean;
            if (!std::isnan(distance)) {
                squares.add(distance * distance);
            }
        }
        result.within_squares = squares.value();
    }
    for (const SubjectMean& subject : result.means) {
        entries_[subject.subject] = {};
    }
    return result;
}

}  // namespace jointrom
