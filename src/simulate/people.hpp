#pragma once

/// \file
/// How people and mountings differ from what was planned. Private.

#include <jointrom/simulate/random_numbers.hpp>
#include <jointrom/simulate/simulation.hpp>

#include <string>

namespace jointrom {

/// Normal about 0, but never farther than three SD: nobody's elbow bends backwards by chance.
[[nodiscard]] double spread(RandomNumbers& random, double sd);

/// As a reading of angles would be noted, so that the truth is short.
[[nodiscard]] double tenth(double value);

struct Person {
    double top_deg = 0.0;  ///< to be added to the plan
    double bottom_deg = 0.0;
    double tempo = 1.0;
};

/// As planned, where there is no class.
[[nodiscard]] Person person(const Simulation& simulation, const std::string& participant, Side side);

/// By how many degrees the reading at neutral is off as the sensor happens to be strapped on; 0 where there is no
/// class.
[[nodiscard]] double mounting_deg(const Simulation& simulation, const std::string& file);

}  // namespace jointrom
