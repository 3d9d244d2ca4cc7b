// A measurement of one's own: for how long the joint was bent beyond an angle. A free function that takes an
// AngleTrace, so it can never be handed a raw reading by mistake.
//
//     own_measurement data/demo/P01_right_elbow.csv 90

#include <jointrom/analysis/trial.hpp>
#include <jointrom/core/failure.hpp>
#include <jointrom/core/number_text.hpp>

#include <iostream>

using namespace jointrom;

namespace {

/// The time that the joint spent beyond a threshold, in the motion's positive direction.
///
/// Method: samples above the threshold times the interval between samples. Missing samples: count as below.
Seconds time_beyond(const AngleTrace& trace, Degrees threshold) {
    std::size_t count = 0;
    for (const double angle_deg : trace.angle_deg()) {
        count += angle_deg > threshold.value() ? 1U : 0U;  // false for NaN
    }
    return Seconds(static_cast<double>(count) / trace.rate().value());
}

}  // namespace

int main(int argc, char** argv) {
    const auto threshold_deg = argc == 3 ? parse_number(argv[2]) : std::nullopt;
    if (!threshold_deg) {
        std::cerr << "which file, and beyond how many degrees?\n";
        return 2;
    }
    try {
        const Trial trial = prepare_trial(argv[1], std::cin, Settings());
        const Seconds time = time_beyond(trial.trace, Degrees(*threshold_deg));
        std::cout << "beyond " << fixed_text(*threshold_deg, 0) << " deg of " << trial.trace.motion().positive << ": "
                  << fixed_text(time.value(), 2) << " s\n";
    } catch (const Failure& failure) {
        std::cerr << failure.what() << '\n' << failure.advice() << '\n';
        return 1;
    }
}
