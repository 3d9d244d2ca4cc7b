#include <jointrom/analysis/active_muscles.hpp>

#include <support/catch.hpp>

#include <cmath>

using namespace jointrom;

namespace {

MuscleActivity muscle(const std::string& name, const std::vector<double>& active_pct) {
    MuscleActivity result;
    result.signal.name = name;
    for (const double pct : active_pct) {
        PhaseActivity phase;
        phase.figures.active_pct = pct;
        result.phases.push_back(phase);
    }
    return result;
}

}  // namespace

TEST_CASE("active muscles are those whose bursts cover half of the phase", "[analysis][active_muscles]") {
    ActivityResult activity;
    activity.muscles = {muscle("Biceps", {0.0, 93.0, 50.0, 49.9, std::nan("")}),
                        muscle("Triceps", {3.0, 20.0, 71.0, 60.0, std::nan("")})};
    CHECK(active_muscles(activity, 5) == std::vector<std::string>{"", "Biceps", "Triceps + Biceps", "Triceps", ""});
    CHECK(active_muscles({}, 2) == std::vector<std::string>{"", ""});
}
