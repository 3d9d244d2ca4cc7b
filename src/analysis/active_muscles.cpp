#include <jointrom/analysis/active_muscles.hpp>

#include <algorithm>
#include <functional>
#include <utility>

namespace jointrom {

std::vector<std::string> active_muscles(const ActivityResult& activity, std::size_t phase_count) {
    constexpr double least_pct = 50.0;
    std::vector<std::string> names(phase_count);
    for (std::size_t phase = 0; phase < phase_count; ++phase) {
        std::vector<std::pair<double, std::string>> active;
        for (const MuscleActivity& muscle : activity.muscles) {
            if (phase < muscle.phases.size() && muscle.phases[phase].figures.active_pct >= least_pct) {
                active.emplace_back(muscle.phases[phase].figures.active_pct, muscle.signal.name);
            }
        }
        std::ranges::stable_sort(active, std::greater(), &std::pair<double, std::string>::first);
        for (const auto& [share_pct, name] : active) {
            names[phase] += (names[phase].empty() ? "" : " + ") + name;
        }
    }
    return names;
}

}  // namespace jointrom
