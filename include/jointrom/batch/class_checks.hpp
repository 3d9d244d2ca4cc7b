#pragma once

/// \file
/// Blunders that only show when the recordings of a class are seen together.

#include <jointrom/batch/plan.hpp>
#include <jointrom/batch/trial_row.hpp>
#include <jointrom/core/finding.hpp>

#include <span>

namespace jointrom {

/// What looks wrong across the recordings of a class.
///
/// - recording-repeated: two files hold the same bytes;
/// - trial-repeated: two recordings say that they are the same trial of the same participant;
/// - participant-contradiction: one participant has two sexes, or ages that differ by more than a year;
/// - calibration-other-date: a calibration of another day than the recording, by what the manifest says;
/// - calibration-other-side: a calibration made on the other side, though the class has one for this side;
/// - calibration-not-used: a recording without calibration in a class where most have one;
/// - unit-differs: a participant's readings have another unit than most of the class for this joint motion, or an arc
///   less than a twentieth or more than twenty times the class's median;
/// - sides-swapped: where left and right sensors of the class read opposite ways, both of a participant read the wrong
///   way; or one trial of several has the difference between the sides the other way round, by 10 degrees or more;
/// - reading-direction-differs: a participant's sensor reads the other way than most of the class on this side.
///
/// \param rows of the recordings that were reached \param tasks of the same plan, in the same order, at least as many
[[nodiscard]] Findings class_findings(std::span<const TrialRow> rows, std::span<const TrialTask> tasks);

}  // namespace jointrom
