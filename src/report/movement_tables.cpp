#include <jointrom/movement/angle_uncertainty.hpp>
#include <jointrom/movement/neutral_zero_notation.hpp>
#include <jointrom/report/movement_tables.hpp>
#include <jointrom/stats/descriptive.hpp>

#include <fmt/format.h>

namespace jointrom {
namespace {

Cell number(Seconds time) {
    return time.value();
}
Cell number(Degrees angle) {
    return angle.value();
}
Cell number(DegreesPerSecond speed) {
    return speed.value();
}

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
        const std::string kind =
            point.kind == TurningPointKind::maximum ? trace.motion().positive : trace.motion().negative;
        table.add_row({"toward " + kind, number(point.time),
                       measured(point.angle.value(), angle_budget(trace, point.angle)), number(point.prominence),
                       number(trace.time(point.plateau.first)), number(trace.time(point.plateau.last)), point.at_edge});
    }
    return table;
}

ResultTable phase_table(const AngleTrace& trace, std::span<const Phase> phases,
                        std::span<const Repetition> repetitions) {
    ResultTable table("phases", {"repetition", "phase", "direction", "start_s", "end_s", "duration_s", "start_deg",
                                 "end_deg", "excursion_deg", "peak_velocity_deg_s", "mean_velocity_deg_s"});
    for (const Phase& phase : phases) {
        const bool moving = phase.kind == PhaseKind::raising || phase.kind == PhaseKind::lowering;
        const std::string direction = moving ? name_of(phase.kind, trace.motion()) : std::string();
        const Repetition* const repetition = repetition_with(phase, repetitions);
        table.add_row({repetition == nullptr ? Cell() : count_cell(repetition->number),
                       std::string(name_of(phase.kind)), direction, number(phase.start), number(phase.end),
                       number(phase.duration()), number(phase.start_angle), number(phase.end_angle),
                       number(phase.excursion), number(phase.peak_velocity), number(phase.mean_velocity)});
    }
    return table;
}

ResultTable repetition_table(const AngleTrace& trace, const Repetitions& repetitions) {
    ResultTable table("repetitions", {"repetition", "start_s", "turn_s", "end_s", "duration_s", "start_deg", "turn_deg",
                                      "end_deg", "arc_deg", "raising_s", "holding_s", "lowering_s",
                                      "raising_velocity_deg_s", "lowering_velocity_deg_s", "spectral_arc", "log_jerk"});
    for (const Repetition& row : repetitions.rows) {
        table.add_row({count_cell(row.number), number(row.start), number(row.turn), number(row.end),
                       number(row.duration()), number(row.start_angle),
                       measured(row.turn_angle.value(), angle_budget(trace, row.turn_angle)), number(row.end_angle),
                       measured(row.arc.value(), arc_budget(trace, row.arc)), number(row.raising), number(row.holding),
                       number(row.lowering), number(row.raising_peak_velocity), number(row.lowering_peak_velocity),
                       row.smoothness.spectral_arc_length, row.smoothness.log_dimensionless_jerk});
    }
    return table;
}

ResultTable repetition_summary_table(const Repetitions& repetitions) {
    ResultTable table("summary", {"quantity", "figure_unit", "mean", "sd", "count"});
    const auto add = [&](const char* quantity, const char* unit, const auto& value_of) {
        std::vector<double> values;
        for (const Repetition& row : repetitions.rows) {
            values.push_back(value_of(row));
        }
        const Description d = describe(values);
        table.add_row({std::string(quantity), std::string(unit), d.mean, d.sd, count_cell(d.count)});
    };
    add("arc", "deg", [](const Repetition& row) { return row.arc.value(); });
    add("turn", "deg", [](const Repetition& row) { return row.turn_angle.value(); });
    add("duration", "s", [](const Repetition& row) { return row.duration().value(); });
    add("raising peak velocity", "deg/s", [](const Repetition& row) { return row.raising_peak_velocity.value(); });
    add("lowering peak velocity", "deg/s", [](const Repetition& row) { return row.lowering_peak_velocity.value(); });
    const auto add_single = [&](const char* quantity, const char* unit, double value) {
        table.add_row({std::string(quantity), std::string(unit), value, std::monostate(), std::monostate()});
    };
    add_single("cadence", "1/min", repetitions.cadence_per_min);
    add_single("variation of arc", "%", repetitions.arc_cv_pct);
    add_single("variation of duration", "%", repetitions.duration_cv_pct);
    return table;
}

ResultTable range_table(const AngleTrace& trace, const RangeOfMotion& range) {
    ResultTable table("range",
                      {"quantity", "extent_deg", "at_s", "at_edge", "held_deg", "mean_deg", "sd_deg", "count"});
    const auto add = [&](const std::string& quantity, Measured extent, Cell time, Cell at_edge,
                         const std::optional<StillPosture>& held, const std::optional<RepeatedValue>& repeated) {
        std::vector<Cell> row{quantity, extent, std::move(time), std::move(at_edge)};
        row.push_back(held ? Cell(measured(held->mean.value(), held->budget)) : Cell());
        row.push_back(repeated ? Cell(measured(repeated->mean.value(), repeated->budget)) : Cell());
        row.push_back(repeated ? number(repeated->sd) : Cell());
        row.push_back(repeated ? count_cell(repeated->count) : Cell());
        table.add_row(std::move(row));
    };
    const auto add_extreme = [&](const std::string& direction, const Extreme& extreme, const auto& held,
                                 const auto& repeated) {
        add(direction, measured(extreme.angle.value(), extreme.budget), number(extreme.time), extreme.at_edge, held,
            repeated);
    };
    add_extreme(trace.motion().positive, range.positive, range.held_positive, range.mean_positive);
    add_extreme(trace.motion().negative, range.negative, range.held_negative, range.mean_negative);
    add("arc", measured(range.arc.value(), range.arc_budget), Cell(), Cell(), std::nullopt, range.mean_arc);
    return table;
}

std::string neutral_zero_sentence(const JointMotion& motion, const RangeOfMotion& range) {
    const Degrees low = range.negative.angle;
    const Degrees high = range.positive.angle;
    return fmt::format("Neutral zero notation: {}; {}, {}.", neutral_zero_notation(low, high, motion).text(),
                       range_end_in_words(low, RangeEnd::negative, motion),
                       range_end_in_words(high, RangeEnd::positive, motion));
}

ResultTable curve_table(const EnsembleCurve& curve) {
    ResultTable table("curve", {"percent_pct", "mean_deg", "sd_deg", "count"});
    for (std::size_t i = 0; i < curve.mean_deg.size(); ++i) {
        table.add_row({curve.percent(i), curve.mean_deg[i], curve.sd_deg[i], count_cell(curve.curves_deg.size())});
    }
    return table;
}

ResultTable curve_figures_table(const EnsembleCurve& curve) {
    ResultTable table("likeness", {"quantity", "figure_unit", "value"});
    const auto add = [&](const char* quantity, const char* unit, Cell value) {
        table.add_row({std::string(quantity), std::string(unit), std::move(value)});
    };
    add("average SD", "deg", curve.average_sd_deg);
    add("coefficient of variation", "%", curve.cv_pct);
    add("coefficient of multiple correlation", "", curve.cmc ? Cell(*curve.cmc) : Cell());
    return table;
}

}  // namespace jointrom
