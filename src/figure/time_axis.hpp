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
/// "Elbow flexion-extension, right"; "Unknown joint" when the joint is unknown.
[[nodiscard]] std::string trace_name(const AngleTrace& trace);

/// Fixed decimals; minus is the minus sign.
[[nodiscard]] std::string signed_text(double value, int decimals);

/// The row of draw_phase_strip().
[[nodiscard]] PanelRow phase_row(const Drawing& drawing);
/// The phases that are drawn: all, or none when there is nothing but rest or they would be too narrow to be seen.
/// \param width_px of the drawing's body
[[nodiscard]] std::span<const Phase> visible_phases(double width_px, std::span<const Phase> phases);
/// "1 hold", "2 holds".
[[nodiscard]] std::string counted(std::size_t count, std::string_view what);
/// What is said beneath a figure whose marks are too close to be drawn; empty when all are.
[[nodiscard]] std::string crowded_note(std::size_t hidden, std::string_view what);

/// The phases behind the panel.
void shade_phases(Panel& panel, std::span<const Phase> phases, TimeUnit unit);
/// The same in a panel of their own, told apart by shape: a wedge that rises, a bar, a wedge that falls.
void draw_phase_strip(Drawing& drawing, Panel& panel, std::span<const Phase> phases, TimeUnit unit);
/// Entries for those that occur.
[[nodiscard]] std::vector<LegendEntry> phase_legend(std::span<const Phase> phases, const JointMotion& motion);

}  // namespace jointrom
