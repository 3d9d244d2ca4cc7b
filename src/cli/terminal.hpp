#pragma once

/// \file
/// What is known of where the output goes.

#include "cli/command.hpp"

namespace jointrom::cli {

/// Fills in the width and the colours of the process's own streams: COLUMNS or the terminal's width, and colours where
/// errors go to a terminal that has them and NO_COLOR is not set.
void look_at_terminal(Console& console);

}  // namespace jointrom::cli
