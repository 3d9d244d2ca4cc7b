#pragma once

/// \file
/// A calibration as tables of the column catalogue.

#include <jointrom/angle/calibration.hpp>
#include <jointrom/angle/control_point.hpp>
#include <jointrom/report/result_table.hpp>

#include <span>

namespace jointrom {

/// A row for each figure of the calibration: gain, offset, scatter, non-linearity, hysteresis.
[[nodiscard]] ResultTable calibration_table(const Calibration& calibration);

/// A row for each point, with its residual.
[[nodiscard]] ResultTable calibration_point_table(const Calibration& calibration);

/// A row for each control point, with its verdict.
[[nodiscard]] ResultTable control_table(std::span<const ControlResult> results);

}  // namespace jointrom
