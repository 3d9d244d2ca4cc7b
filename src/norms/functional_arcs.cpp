#include <jointrom/norms/functional_arcs.hpp>

#include <norms/embedded_tables.hpp>
#include <norms/norm_cells.hpp>

#include <algorithm>
#include <array>

namespace jointrom {
namespace {

constexpr auto columns = std::to_array<std::string_view>({"source", "joint", "motion", "task", "low_deg", "high_deg",
                                                          "low_sd_deg", "high_sd_deg", "n", "provenance", "note"});

FunctionalArc arc_of(const NormCells& cells) {
    const NamedPart named = cells.part();
    FunctionalArc arc{.source = cells.required_text("source"),
                      .motion = named.motion,
                      .part = named.part,
                      .task = cells.required_text("task"),
                      .low = Degrees(cells.number("low_deg")),
                      .high = Degrees(cells.number("high_deg")),
                      .low_sd = Degrees(cells.number("low_sd_deg")),
                      .high_sd = Degrees(cells.number("high_sd_deg")),
                      .n = cells.count("n"),
                      .provenance = cells.provenance("provenance"),
                      .note = cells.text("note")};
    if (arc.part == MotionPart::negative) {
        arc.low = -Degrees(cells.number("high_deg"));
        arc.high = -Degrees(cells.number("low_deg"));
        std::swap(arc.low_sd, arc.high_sd);
    }
    return arc;
}

/// How far `reached` stays behind `needed`, both counted in one direction; unset when `reached` is.
Degrees shortfall(Degrees needed, Degrees reached) {
    const Degrees missing = needed - reached;
    return missing < Degrees(0.0) ? Degrees(0.0) : missing;
}

}  // namespace

std::span<const FunctionalArc> functional_arcs() {
    static const std::vector<FunctionalArc> arcs = [] {
        const auto source = text_source(embedded::functional_arcs_csv);
        RecordReader reader(*source, "data/norms/functional_arcs.csv");
        const NormCells cells(reader, columns, columns);
        std::vector<FunctionalArc> result;
        while (reader.next()) {
            result.push_back(arc_of(cells));
        }
        return result;
    }();
    return arcs;
}

std::vector<const FunctionalArc*> functional_arcs(const JointMotion& motion, MotionPart part) {
    std::vector<const FunctionalArc*> result;
    for (const FunctionalArc& arc : functional_arcs()) {
        const bool is_along = part == MotionPart::arc || arc.part == MotionPart::arc || arc.part == part;
        if (is_along && arc.motion->joint == motion.joint && arc.motion->motion == motion.motion) {
            result.push_back(&arc);
        }
    }
    return result;
}

bool TaskCover::is_covered() const noexcept {
    return short_at_low.value() <= 0.0 && short_at_high.value() <= 0.0;
}

std::vector<TaskCover> task_cover(const JointMotion& motion, Degrees low, Degrees high) {
    std::vector<TaskCover> result;
    for (const FunctionalArc* const arc : functional_arcs(motion)) {
        result.push_back({arc, shortfall(-arc->low, -low), shortfall(arc->high, high)});
    }
    return result;
}

}  // namespace jointrom
