#pragma once

/// \file
/// The joint angle over time as text.

#include <jointrom/angle/angle_trace.hpp>
#include <jointrom/report/result_table.hpp>

#include <functional>
#include <string>
#include <string_view>

namespace jointrom {

/// Headings of the columns that are written, in order: time_s, angle_deg, angle_u_deg, velocity_deg_s,
/// acceleration_deg_s2.
[[nodiscard]] std::string angle_series_header();

/// One CSV row a sample under angle_series_header(); samples in gaps have empty cells. Passed to `sink` in blocks.
void angle_series_csv(const AngleTrace& trace, const std::function<void(std::string_view)>& sink);

/// The envelope of `report` with the series as arrays in `result`; null in gaps.
[[nodiscard]] std::string angle_series_json(const AngleTrace& trace, const Report& report);

}  // namespace jointrom
