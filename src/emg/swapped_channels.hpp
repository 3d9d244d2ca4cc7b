#pragma once

/// \file
/// Whether the muscles work where their names say. Private.

#include <jointrom/emg/activity.hpp>

namespace jointrom {

/// A muscle works hardest where it shortens. When those named for a direction work clearly more in the other, channels
/// are swapped or the sign of the angle is wrong: emg-swapped.
void judge_swapped(const JointMotion& motion, ActivityResult& result);

}  // namespace jointrom
