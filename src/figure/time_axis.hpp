#pragma once

/// \file
/// What figures over time share: their axis, and the phases. Private.

#include <jointrom/angle/angle_trace.hpp>
#include <jointrom/figure/panel.hpp>
#include <jointrom/movement/phases.hpp>

#include <span>
#include <string>
#include <vector>

namespace jointrom {

/// Times of a recording in the unit that suits its length.
struct TimeUnit {
    double seconds;  ///< in one unit
    const char* name;

    [[nodiscard]] double of(Seconds time) const noexcept { return time.value() / seconds; }
};

/// Seconds up to ten minutes, minutes up to four hours, else hours.
[[nodiscard]] TimeUnit time_unit(const AngleTrace& trace);
[[nodiscard]] Axis time_axis(const AngleTrace& trace, TimeUnit unit);

/// "Elbow angle, flexion + / extension - (deg)" with a true minus sign; "angle" may be "angular velocity (deg/s)".
[[nodiscard]] std::string motion_label(const AngleTrace& trace, std::string_view quantity, std::string_view unit);
/// "Elbow flexion-extension, right"; "Joint angle" when the joint is unknown.
[[nodiscard]] std::string trace_name(const AngleTrace& trace);

/// The phases behind the panel. Those too short to be seen at this width are left out.
void shade_phases(Panel& panel, std::span<const Phase> phases, TimeUnit unit);
/// The same in a panel of their own, told apart by shape: a wedge that rises, a bar, a wedge that falls.
void draw_phase_strip(Drawing& drawing, Panel& panel, std::span<const Phase> phases, TimeUnit unit);
/// Entries for those that occur.
[[nodiscard]] std::vector<LegendEntry> phase_legend(std::span<const Phase> phases, const JointMotion& motion);

}  // namespace jointrom
