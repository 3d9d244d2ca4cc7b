#include <jointrom/movement/angle_uncertainty.hpp>
#include <jointrom/report/movement_tables.hpp>

namespace jointrom {
namespace {

Cell number(Seconds time) { return time.value(); }
Cell number(Degrees angle) { return angle.value(); }
Cell number(DegreesPerSecond speed) { return speed.value(); }

}  // namespace

ResultTable posture_table(std::span<const StillPosture> postures) {
    ResultTable table("postures", {"posture", "start_s", "end_s", "duration_s", "angle_deg", "sd_deg", "drift_deg_s"});
    for (std::size_t i = 0; i < postures.size(); ++i) {
        const StillPosture& posture = postures[i];
        table.add_row({count_cell(i + 1), number(posture.start), number(posture.end), number(posture.duration()),
                       measured(posture.mean.value(), posture.budget), number(posture.sd), number(posture.drift)});
    }
    return table;
}

ResultTable expected_table(std::span<const StillPosture> postures, const ExpectedMatches& matches) {
    ResultTable table("expected", {"expected_deg", "posture", "angle_deg", "deviation_deg"});
    for (const ExpectedMatch& match : matches.matches) {
        if (!match.posture) {
            table.add_row({number(match.expected), std::monostate(), std::monostate(), std::monostate()});
            continue;
        }
        const StillPosture& posture = postures[*match.posture];
        table.add_row({number(match.expected), count_cell(*match.posture + 1),
                       measured(posture.mean.value(), posture.budget), number(match.deviation)});
    }
    return table;
}

ResultTable turning_point_table(const AngleTrace& trace, std::span<const TurningPoint> points) {
    ResultTable table("turning_points",
                      {"kind", "at_s", "angle_deg", "prominence_deg", "held_from_s", "held_to_s", "at_edge"});
    for (const TurningPoint& point : points) {
        const std::string kind = point.kind == TurningPointKind::maximum ? trace.motion().positive : trace.motion().negative;
        table.add_row({"toward " + kind, number(point.time),
                       measured(point.angle.value(), angle_budget(trace, point.angle)), number(point.prominence),
                       number(trace.time(point.plateau.first)), number(trace.time(point.plateau.last)), point.at_edge});
    }
    return table;
}

ResultTable phase_table(const AngleTrace& trace, std::span<const Phase> phases) {
    ResultTable table("phases", {"phase", "direction", "start_s", "end_s", "duration_s", "start_deg", "end_deg",
                                 "excursion_deg", "peak_velocity_deg_s", "mean_velocity_deg_s"});
    for (const Phase& phase : phases) {
        const bool moving = phase.kind == PhaseKind::raising || phase.kind == PhaseKind::lowering;
        const std::string direction = moving ? name_of(phase.kind, trace.motion()) : std::string();
        table.add_row({std::string(name_of(phase.kind)), direction, number(phase.start), number(phase.end),
                       number(phase.duration()), number(phase.start_angle), number(phase.end_angle),
                       number(phase.excursion), number(phase.peak_velocity), number(phase.mean_velocity)});
    }
    return table;
}

}  // namespace jointrom
