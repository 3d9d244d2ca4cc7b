#include "figure/shown_muscle.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace jointrom {

std::span<const MuscleActivity> shown_muscles(std::span<const MuscleActivity> muscles) {
    return muscles.first(std::min(muscles.size(), most_muscles));
}

std::string muscles_left_out(std::span<const MuscleActivity> muscles) {
    return muscles.size() > most_muscles ? fmt::format("The first {} of {} muscles.", most_muscles, muscles.size())
                                         : std::string();
}

std::vector<double> shown_envelope(const MuscleActivity& muscle) {
    std::vector<double> envelope = muscle.signal.envelope;
    if (std::isfinite(muscle.reference) && muscle.reference > 0.0) {
        std::ranges::for_each(envelope, [&](double& value) { value *= 100.0 / muscle.reference; });
    }
    return envelope;
}

}  // namespace jointrom
