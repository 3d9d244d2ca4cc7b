#pragma once

/// \file
/// The load of a joint, as tables of the column catalogue and as a series.

#include <jointrom/load/joint_load.hpp>
#include <jointrom/load/static_load.hpp>
#include <jointrom/report/result_table.hpp>

#include <functional>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace jointrom {

/// What the tables show: a load, what it was computed from, and the muscle whose force is wanted.
struct LoadView {
    const AngleTrace& trace;
    const LoadModel& model;
    const JointLoad& load;
    std::optional<MuscleAttachment> muscle = std::nullopt;  ///< belongs to the group that has the largest moment
    std::vector<std::string> active_muscles = {};  ///< one text a phase, as active_muscles(); empty: not measured
};

/// A row for each phase, with the number of its repetition.
[[nodiscard]] ResultTable load_phase_table(const LoadView& view);

/// A row for each repetition.
[[nodiscard]] ResultTable load_repetition_table(const LoadView& view);

/// What hangs on the joint and what the recording asked for in all, a row each.
[[nodiscard]] ResultTable load_summary_table(const LoadView& view);

/// What was assumed, in sentences, the caution last.
[[nodiscard]] std::vector<std::string> load_remarks(const LoadView& view);

/// Uncertainty budgets of the largest moment, of the largest work of a phase, and of the muscle's force.
[[nodiscard]] std::vector<NamedBudget> load_budgets(const LoadView& view);

/// The load of a limb held still at some angles, without a recording.
struct StaticLoadView {
    const JointMotion& motion;
    const LoadModel& model;
    std::span<const StaticLoad> loads;
    std::optional<MuscleAttachment> muscle = std::nullopt;
};

/// A row for each angle.
[[nodiscard]] ResultTable static_load_table(const StaticLoadView& view);
/// As load_remarks().
[[nodiscard]] std::vector<std::string> static_load_remarks(const StaticLoadView& view);
/// Of each moment, and of each muscle force.
[[nodiscard]] std::vector<NamedBudget> static_load_budgets(const StaticLoadView& view);

/// One CSV row a sample: time_s, angle_deg, moment_nm, gravity_moment_nm, power_w, energy_j; empty cells in gaps.
/// Passed to `sink` in blocks.
void load_series_csv(const LoadView& view, const std::function<void(std::string_view)>& sink);

/// The envelope of `report` with the same series as arrays in `result`; null in gaps.
[[nodiscard]] std::string load_series_json(const LoadView& view, const Report& report);

}  // namespace jointrom
