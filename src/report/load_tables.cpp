#include "report/load_remarks.hpp"

#include <jointrom/report/load_tables.hpp>

#include <fmt/format.h>

#include <cmath>
#include <utility>

namespace jointrom {
namespace {

using Columns = std::vector<std::string_view>;
using Cells = std::vector<Cell>;

MuscleGroup group_with_the_largest_moment(const LoadView& view) {
    return view.load.whole.peak_moment_nm < 0.0 ? MuscleGroup::negative : MuscleGroup::positive;
}

void add_force_columns(const LoadView& view, Columns& columns) {
    if (view.muscle) {
        columns.emplace_back("muscle_force_n");
        if (view.muscle->pull.is_set()) {
            columns.emplace_back("joint_force_n");
        }
    }
}

/// Where the moment leaves the acceleration out, so does the force.
Cell joint_force(const LoadView& view, const SpanLoad& load) {
    const std::size_t i = load.peak_sample;
    LimbMotion motion{.joint_angle = Degrees(view.trace.angle_deg()[i])};
    if (view.load.series.moment_nm[i] != view.load.series.gravity_nm[i]) {
        motion.velocity_deg_s = view.trace.velocity_deg_s()[i];
        motion.acceleration_deg_s2 = view.trace.acceleration_deg_s2(i);
    }
    return joint_force_n(view.model, motion, load.peak_moment_nm, *view.muscle);
}

/// At the largest moment; empty where that is of other muscles than those whose arm is known.
void add_force_cells(const LoadView& view, const SpanLoad& load, Cells& cells) {
    if (!view.muscle) {
        return;
    }
    const bool same_group =
        (load.peak_moment_nm < 0.0) == (group_with_the_largest_moment(view) == MuscleGroup::negative);
    const bool told = load.group != MuscleGroup::undecided && same_group;
    cells.push_back(told ? Cell(measured(muscle_force_n(load.peak_moment_nm, *view.muscle),
                                         muscle_force_budget(load.peak_moment_nm, load.peak_budget, *view.muscle)))
                         : Cell());
    if (view.muscle->pull.is_set()) {
        cells.push_back(told ? joint_force(view, load) : Cell());
    }
}

Cell angle_at_peak(const LoadView& view, const SpanLoad& load) {
    return view.trace.angle_deg()[load.peak_sample];
}

const PhaseLoad* phase_with_most_work(const LoadView& view) {
    const PhaseLoad* most = nullptr;
    for (const PhaseLoad& row : view.load.phases) {
        if (std::isfinite(row.load.work_j) &&
            (most == nullptr || std::abs(row.load.work_j) > std::abs(most->load.work_j))) {
            most = &row;
        }
    }
    return most;
}

}  // namespace

ResultTable load_phase_table(const LoadView& view) {
    Columns columns{"repetition", "phase",      "direction",    "start_s",
                    "end_s",      "duration_s", "muscle_group", "contraction"};
    if (!view.active_muscles.empty()) {
        columns.emplace_back("active_muscles");
    }
    columns.insert(columns.end(), {"peak_moment_nm", "peak_moment_at_deg", "mean_moment_nm", "peak_power_w",
                                   "mean_power_w", "work_j"});
    add_force_columns(view, columns);
    ResultTable table("phases", columns);
    const JointMotion& motion = view.trace.motion();
    for (std::size_t i = 0; i < view.load.phases.size(); ++i) {
        const PhaseLoad& row = view.load.phases[i];
        const Phase& phase = row.phase;
        const bool moving = phase.kind == PhaseKind::raising || phase.kind == PhaseKind::lowering;
        Cells cells{row.repetition ? count_cell(*row.repetition) : Cell(),
                    std::string(name_of(phase.kind)),
                    moving ? name_of(phase.kind, motion) : std::string(),
                    phase.start.value(),
                    phase.end.value(),
                    phase.duration().value(),
                    name_of(row.load.group, motion),
                    std::string(name_of(row.contraction))};
        if (!view.active_muscles.empty()) {
            cells.emplace_back(view.active_muscles[i]);
        }
        cells.insert(cells.end(), {measured(row.load.peak_moment_nm, row.load.peak_budget),
                                   angle_at_peak(view, row.load), row.load.mean_moment_nm, row.load.peak_power_w,
                                   row.load.mean_power_w, measured(row.load.work_j, row.load.work_budget)});
        add_force_cells(view, row.load, cells);
        table.add_row(std::move(cells));
    }
    return table;
}

ResultTable load_repetition_table(const LoadView& view) {
    Columns columns{"repetition",         "start_s",         "end_s",
                    "duration_s",         "muscle_group",    "peak_moment_nm",
                    "peak_moment_at_deg", "mean_moment_nm",  "peak_power_w",
                    "concentric_work_j",  "eccentric_work_j"};
    add_force_columns(view, columns);
    ResultTable table("repetitions", columns);
    for (const auto& [repetition, load] : view.load.repetitions) {
        Cells cells{count_cell(repetition.number),
                    repetition.start.value(),
                    repetition.end.value(),
                    repetition.duration().value(),
                    name_of(load.group, view.trace.motion()),
                    measured(load.peak_moment_nm, load.peak_budget),
                    angle_at_peak(view, load),
                    load.mean_moment_nm,
                    load.peak_power_w,
                    load.concentric_work_j,
                    load.eccentric_work_j};
        add_force_cells(view, load, cells);
        table.add_row(std::move(cells));
    }
    return table;
}

ResultTable load_summary_table(const LoadView& view) {
    ResultTable table("summary", {"quantity", "figure_unit", "figure"});
    const auto add = [&](const char* quantity, const char* unit, double value) {
        table.add_row({std::string(quantity), std::string(unit), value});
    };
    const LoadModel& model = view.model;
    const double limb_nm = model.gravity_m_s2 * model.limb.mass_kg * model.limb.com_m;
    add("moment to hold it horizontal", "N m", model.horizontal_moment_nm());
    add("of that, the limb itself", "N m", limb_nm);
    add("of that, the load", "N m", model.horizontal_moment_nm() - limb_nm);
    add("mass of the limb", "kg", model.limb.mass_kg);
    add("moment of inertia", "kg m2", model.inertia_kg_m2());
    add("largest moment", "N m", view.load.whole.peak_moment_nm);
    add("largest power", "W", view.load.whole.peak_power_w);
    add("concentric work in all", "J", view.load.whole.concentric_work_j);
    add("eccentric work in all", "J", view.load.whole.eccentric_work_j);
    return table;
}

std::vector<std::string> load_remarks(const LoadView& view) {
    std::vector<std::string> remarks = model_remarks(view.trace.motion(), view.model);
    if (view.muscle) {
        remarks.push_back(
            muscle_remark(name_of(group_with_the_largest_moment(view), view.trace.motion()) + " ", *view.muscle));
    }
    remarks.emplace_back(load_caution);
    return remarks;
}

std::vector<NamedBudget> load_budgets(const LoadView& view) {
    const SpanLoad& whole = view.load.whole;
    std::vector<NamedBudget> budgets{{"the largest moment", whole.peak_budget, "N m"}};
    if (const PhaseLoad* const most = phase_with_most_work(view)) {
        budgets.push_back(
            {fmt::format("the work of {} from {:.2f} s", name_of(most->phase.kind), most->phase.start.value()),
             most->load.work_budget, "J"});
    }
    if (view.muscle) {
        budgets.push_back({"the largest muscle force",
                           muscle_force_budget(whole.peak_moment_nm, whole.peak_budget, *view.muscle), "N"});
    }
    return budgets;
}

}  // namespace jointrom
