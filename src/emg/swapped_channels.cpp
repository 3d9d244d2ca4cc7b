#include "emg/swapped_channels.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace jointrom {

void judge_swapped(const JointMotion& motion, ActivityResult& result) {
    constexpr double clearly = 0.1;
    constexpr double clearly_alone = 0.33;
    std::string names;
    std::size_t known = 0;
    double least = 1.0;
    for (const MuscleActivity& muscle : result.muscles) {
        const double sum = muscle.raising_mean + muscle.lowering_mean;
        if (!muscle.action || !(sum > 0.0)) {
            continue;
        }
        const double more_raising = (muscle.raising_mean - muscle.lowering_mean) / sum;
        least = std::min(least, *muscle.action == Toward::positive ? -more_raising : more_raising);
        ++known;
        names += fmt::format("{}'{}' works {:.1f} times as much toward {}", names.empty() ? "" : ", ",
                             muscle.signal.name, std::max(muscle.rise_to_fall, 1.0 / muscle.rise_to_fall),
                             more_raising > 0.0 ? motion.positive : motion.negative);
    }
    if (known > 0 && least > (known > 1 ? clearly : clearly_alone)) {
        result.findings.emplace_back("emg-swapped", names + ", against what its name says");
    }
}

}  // namespace jointrom
