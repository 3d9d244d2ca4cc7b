#include <jointrom/recording/time_base.hpp>

#include <algorithm>
#include <cassert>
#include <cmath>
#include <utility>

namespace jointrom {
namespace {

double median_interval(const std::vector<double>& time_s) {
    std::vector<double> intervals;
    intervals.reserve(time_s.size() - 1);
    for (std::size_t i = 1; i < time_s.size(); ++i) {
        intervals.push_back(time_s[i] - time_s[i - 1]);
    }
    const auto middle = intervals.begin() + static_cast<std::ptrdiff_t>(intervals.size() / 2);
    std::ranges::nth_element(intervals, middle);
    return *middle;
}

}  // namespace

TimeBase TimeBase::regular(Seconds start, Hertz rate, std::size_t count) {
    assert(rate.value() > 0.0);
    TimeBase result;
    result.start_ = start;
    result.rate_ = rate;
    result.count_ = count;
    return result;
}

TimeBase TimeBase::stamped(std::vector<double> time_s) {
    assert(time_s.size() >= 2);
    TimeBase result = regular(Seconds(time_s.front()), Hertz(1.0 / median_interval(time_s)), time_s.size());
    result.stamps_s_ = std::make_shared<const std::vector<double>>(std::move(time_s));
    return result;
}

double TimeBase::time_s(std::size_t i) const {
    assert(i < count_);
    return is_regular() ? start_.value() + static_cast<double>(i) / rate_.value() : (*stamps_s_)[i];
}

SampleSpan TimeBase::span(TimeWindow window) const {
    if (count_ == 0) {
        return {};
    }
    // A thousandth of an interval of tolerance, so that 0.3 s finds the sample stamped 3 * 0.1 s.
    const double slack = 1e-3 / rate_.value();
    const auto samples_before = [&](double time) {
        if (!is_regular()) {
            return static_cast<std::size_t>(std::ranges::lower_bound(*stamps_s_, time) - stamps_s_->begin());
        }
        const double position = std::ceil((time - start_.value()) * rate_.value());
        return static_cast<std::size_t>(std::clamp(position, 0.0, static_cast<double>(count_)));
    };
    const std::size_t first = samples_before(window.start.value() - slack);
    return {first, std::max(first, samples_before(window.end.value() + slack))};
}

}  // namespace jointrom
