#include <jointrom/signal/unwrap.hpp>

#include <cassert>
#include <cmath>
#include <limits>

namespace jointrom {

Unwrapped unwrap(std::span<const double> samples, double period) {
    assert(period > 0.0);
    Unwrapped result{{samples.begin(), samples.end()}, 0};
    double previous = std::numeric_limits<double>::quiet_NaN();
    double turns = 0.0;
    for (double& sample : result.samples) {
        if (std::isnan(sample)) {
            continue;
        }
        const double step_in_periods = (sample - previous) / period;
        const double whole = std::ceil(std::abs(step_in_periods) - 0.5);  // NaN at the first sample
        if (whole > 0.0) {
            turns -= std::copysign(whole, step_in_periods);
            ++result.jump_count;
        }
        previous = sample;
        sample += turns * period;
    }
    return result;
}

}  // namespace jointrom
