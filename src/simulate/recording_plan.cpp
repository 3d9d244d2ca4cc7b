#include <jointrom/core/failure.hpp>
#include <jointrom/simulate/simulated_recording.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <set>

namespace jointrom {
namespace {

constexpr double most_recordings = 1e5;

[[noreturn]] void refuse(const std::string& text, std::string advice) {
    throw Failure(FailureKind::usage, "simulation-invalid", text, std::move(advice));
}

void replace(std::string& text, const std::string& from, std::string_view to) {
    for (std::size_t at = text.find(from); at != std::string::npos; at = text.find(from, at + to.size())) {
        text.replace(at, from.size(), to);
    }
}

std::string file_of(const Simulation& simulation, const PlannedRecording& plan) {
    std::string file = simulation.file;
    std::string joint = plan.motion->joint;
    std::ranges::replace(joint, ' ', '-');
    replace(file, "{participant}", plan.participant);
    replace(file, "{side}", name_of(plan.side));
    replace(file, "{joint}", joint);
    replace(file, "{trial}", std::to_string(plan.trial));
    if (file.empty() || file == "manifest.csv" || std::string(".=+-@").find(file.front()) != std::string::npos ||
        file.find_first_of("/\\{},;\"\r\n") != std::string::npos) {
        refuse(fmt::format("\"{}\" is no name for a recording", file),
               "Names are plain, without folders; {participant}, {side}, {joint} and {trial} are filled in.");
    }
    return file;
}

void judge(const Simulation& simulation) {
    const MovementPlan& plan = simulation.movement;
    const LoggerModel& logger = simulation.logger;
    if (plan.top_deg.empty() || plan.bottom_deg.empty() || plan.raising.empty() || plan.lowering.empty()) {
        refuse("there is no angle to move to, or no time to do so",
               "Give --top-deg, --bottom-deg, --raising-s and --lowering-s.");
    }
    const auto students = static_cast<double>(std::max<std::size_t>(1, simulation.people.students));
    const double recordings =
        students * static_cast<double>(simulation.sides.size()) * static_cast<double>(simulation.trials);
    if (recordings > most_recordings) {
        refuse(fmt::format("{:g} recordings; {:g} are as many as can be made at once", recordings, most_recordings),
               "Lower --students or --trials.");
    }
    if (logger.angle_rate.is_set() &&
        std::abs(logger.rate / logger.angle_rate - std::round(logger.rate / logger.angle_rate)) > 1e-9) {
        refuse(fmt::format("an angle at {:g} Hz does not fit into rows at {:g} Hz", logger.angle_rate.value(),
                           logger.rate.value()),
               "Let --rate-hz be a multiple of --angle-rate-hz.");
    }
    for (const MuscleModel& muscle : simulation.muscles) {
        if (muscle.median_frequency < Hertz(10.0) || muscle.median_frequency > Hertz(400.0)) {
            refuse(fmt::format("a median frequency of {:g} Hz for {}", muscle.median_frequency.value(), muscle.name),
                   "Give 10 to 400 Hz; a surface electromyogram has about 50 to 150.");
        }
    }
}

std::vector<std::string> participants(const Simulation& simulation) {
    if (simulation.people.students == 0) {
        return {simulation.participant};
    }
    std::vector<std::string> names;
    const std::size_t width = std::max<std::size_t>(2, std::to_string(simulation.people.students).size());
    for (std::size_t i = 1; i <= simulation.people.students; ++i) {
        names.push_back(fmt::format("P{:0{}}", i, width));
    }
    return names;
}

}  // namespace

std::vector<PlannedRecording> planned_recordings(const Simulation& simulation) {
    judge(simulation);
    const JointMotion& motion = joint_motion(simulation.joint, simulation.motion);
    std::vector<PlannedRecording> plans;
    std::set<std::string> files;
    for (const std::string& participant : participants(simulation)) {
        for (const Side side : simulation.sides) {
            for (std::size_t trial = 1; trial <= simulation.trials; ++trial) {
                PlannedRecording plan{{}, participant, &motion, side, trial};
                plan.file = file_of(simulation, plan);
                if (!files.insert(plan.file).second) {
                    refuse(fmt::format("two recordings would be called {}", plan.file),
                           "Tell them apart in --file with {participant}, {side} or {trial}.");
                }
                plans.push_back(std::move(plan));
            }
        }
    }
    return plans;
}

}  // namespace jointrom
