#pragma once

/// \file
/// Which muscles were active in each phase, in one word list a phase: to stand beside what a load asks for.

#include <jointrom/emg/activity.hpp>

#include <cstddef>
#include <string>
#include <vector>

namespace jointrom {

/// The names of the muscles that were active in each phase, the busiest first; empty where none was.
///
/// Method: active is a muscle whose bursts cover half of the phase or more (common practice, no source); of several,
/// the one that they cover most comes first, of equal ones the first in the file.
///
/// \param phase_count number of phases that the activity was measured in
[[nodiscard]] std::vector<std::string> active_muscles(const ActivityResult& activity, std::size_t phase_count);

}  // namespace jointrom
