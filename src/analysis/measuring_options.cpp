#include <jointrom/analysis/measuring_options.hpp>

namespace jointrom {
namespace {

/// Takes over a setting where the user chose one.
template <typename Quantity>
void choose(Quantity& option, Quantity setting) {
    if (setting.is_set()) {
        option = setting;
    }
}

}  // namespace

StillPostureOptions still_posture_options(const Settings& settings) {
    StillPostureOptions options;
    choose(options.min_duration, settings.hold);
    choose(options.max_speed, settings.still_speed);
    return options;
}

TurningPointOptions turning_point_options(const Settings& settings) {
    TurningPointOptions options;
    choose(options.prominence, settings.prominence);
    return options;
}

PhaseOptions phase_options(const Settings& settings) {
    PhaseOptions options;
    choose(options.min_hold, settings.hold);
    choose(options.min_speed, settings.still_speed);
    return options;
}

}  // namespace jointrom
