#pragma once

/// \file
/// What the muscles did, as tables of the column catalogue.

#include <jointrom/angle/joint_motion.hpp>
#include <jointrom/emg/activity.hpp>
#include <jointrom/report/result_table.hpp>

namespace jointrom {

/// A row for each repetition, phase and muscle; phase "all" is the whole repetition. Rows join those of the tables of
/// repetitions by the repetition's number.
[[nodiscard]] ResultTable activity_table(const ActivityResult& result);

/// A row for each phase, in order of time, and muscle.
[[nodiscard]] ResultTable activity_phase_table(const ActivityResult& result);

/// A row for each burst of each muscle.
[[nodiscard]] ResultTable burst_table(const ActivityResult& result);

/// A row for each muscle: how hard it works in which phase, and how the joint follows it.
[[nodiscard]] ResultTable muscle_table(const ActivityResult& result);

/// A row for each muscle: what its channel holds and what was done to it.
[[nodiscard]] ResultTable treatment_table(const ActivityResult& result);

/// A row for each pair and repetition, and one for the whole measured part, without a number.
[[nodiscard]] ResultTable co_contraction_table(const ActivityResult& result);

/// A row for each repetition, or second of a hold, and muscle whose frequencies can be told.
[[nodiscard]] ResultTable frequency_table(const ActivityResult& result);

/// A row for each of these muscles: how its median frequency falls.
[[nodiscard]] ResultTable fatigue_table(const ActivityResult& result);

}  // namespace jointrom
