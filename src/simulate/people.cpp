#include "simulate/people.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace jointrom {

double spread(RandomNumbers& random, double sd) {
    return sd * std::clamp(random.normal(), -3.0, 3.0);
}

double tenth(double value) {
    return std::round(value * 10.0) / 10.0;
}

Person person(const Simulation& simulation, const std::string& participant, Side side) {
    Person result;
    if (simulation.people.students == 0) {
        return result;
    }
    const ClassModel& people = simulation.people;
    RandomNumbers own(simulation.seed, "person " + participant);
    result.top_deg = spread(own, people.top_between_sd_deg);
    result.bottom_deg = spread(own, people.bottom_between_sd_deg);
    result.tempo = std::max(0.3, 1.0 + spread(own, people.tempo_between_pct / 100.0));
    RandomNumbers sides(simulation.seed, fmt::format("person {} {}", participant, name_of(side)));
    result.top_deg += spread(sides, people.side_sd_deg);
    return result;
}

double mounting_deg(const Simulation& simulation, const std::string& file) {
    if (simulation.people.students == 0) {
        return 0.0;
    }
    RandomNumbers mounting(simulation.seed, file + " mounting");
    return tenth(spread(mounting, simulation.people.mounting_sd_deg));
}

}  // namespace jointrom
