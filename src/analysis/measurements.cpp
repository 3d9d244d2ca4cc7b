#include <jointrom/analysis/measurements.hpp>

#include <algorithm>
#include <cmath>

namespace jointrom {

Findings Measurements::findings() const {
    Findings all = repetitions.findings;
    for (const Finding& finding : range.findings) {
        if (std::ranges::find(all, finding) == all.end()) {
            all.push_back(finding);
        }
    }
    return all;
}

DegreesPerSecond Measurements::peak_velocity() const {
    DegreesPerSecond peak;
    for (const Phase& phase : phases.phases) {
        const bool moving = phase.kind == PhaseKind::raising || phase.kind == PhaseKind::lowering;
        if (moving && !(std::abs(phase.peak_velocity.value()) <= std::abs(peak.value()))) {
            peak = phase.peak_velocity;
        }
    }
    return peak;
}

Measurements measure(const AngleTrace& trace, const Settings& settings, bool with_smoothness) {
    MovementPhases phases = movement_phases(trace, settings.phases);
    Repetitions found = repetitions(trace, phases, {.with_smoothness = with_smoothness});
    RangeOfMotion range = range_of_motion(trace, found.rows);
    return {std::move(phases), std::move(found), std::move(range)};
}

}  // namespace jointrom
