#pragma once

/// \file
/// What is true of simulated recordings, as a table of the column catalogue.

#include <jointrom/report/result_table.hpp>
#include <jointrom/simulate/simulated_recording.hpp>

namespace jointrom {

/// Without rows.
[[nodiscard]] ResultTable truth_table();

void add_truth(ResultTable& table, const SimulatedRecording& recording);

}  // namespace jointrom
