#pragma once

/// \file
/// How the parts of a load model and of an angle carry over to moment and work. Private.

#include <jointrom/angle/angle_trace.hpp>
#include <jointrom/core/uncertainty.hpp>
#include <jointrom/load/load_model.hpp>

#include <cstddef>

namespace jointrom {

/// Of the moment at one sample. \param acceleration_u_deg_s2 acceleration_noise_deg_s2() of the trace
[[nodiscard]] Budget moment_budget(const AngleTrace& trace, const LoadModel& model, std::size_t sample,
                                   double acceleration_u_deg_s2);

/// Of the work between two samples, movement at either end taken as slow.
[[nodiscard]] Budget work_budget(const AngleTrace& trace, const LoadModel& model, std::size_t first, std::size_t last);

}  // namespace jointrom
