#include <jointrom/norms/measurement_error.hpp>

#include <norms/embedded_tables.hpp>
#include <norms/norm_cells.hpp>

#include <algorithm>
#include <array>

namespace jointrom {
namespace {

constexpr auto columns = std::to_array<std::string_view>(
    {"source", "joint", "motion", "statistic", "low_deg", "high_deg", "raters", "instrument", "provenance", "note"});

MeasurementError error_of(const NormCells& cells) {
    MeasurementError error{.source = cells.required_text("source"),
                           .joint = cells.required_text("joint"),
                           .statistic = cells.required_text("statistic"),
                           .low = Degrees(cells.number("low_deg")),
                           .high = Degrees(cells.number("high_deg")),
                           .raters = cells.text("raters"),
                           .instrument = cells.text("instrument"),
                           .provenance = cells.provenance("provenance"),
                           .note = cells.text("note")};
    if (error.joint == "any") {
        error.joint.clear();
    }
    if (!cells.text("motion").empty()) {
        const NamedPart named = cells.part();
        error.motion = named.motion;
        error.part = named.part;
    }
    return error;
}

}  // namespace

std::span<const MeasurementError> measurement_errors() {
    static const std::vector<MeasurementError> errors = [] {
        const auto source = text_source(embedded::measurement_error_csv);
        RecordReader reader(*source, "data/norms/measurement_error.csv");
        const NormCells cells(reader, columns, columns);
        std::vector<MeasurementError> result;
        while (reader.next()) {
            result.push_back(error_of(cells));
        }
        return result;
    }();
    return errors;
}

std::vector<const MeasurementError*> measurement_errors(const JointMotion& motion, MotionPart part) {
    std::vector<const MeasurementError*> result;
    for (const MeasurementError& error : measurement_errors()) {
        const bool is_of_motion = error.motion == nullptr || (error.motion->motion == motion.motion &&
                                                              (part == MotionPart::arc || error.part == part));
        if (error.joint == motion.joint && is_of_motion) {
            result.push_back(&error);
        }
    }
    for (const MeasurementError& error : measurement_errors()) {
        if (error.joint.empty()) {
            result.push_back(&error);
        }
    }
    return result;
}

std::optional<ChangeLimit> detectable_change(const JointMotion& motion, MotionPart part) {
    if (!motion.detectable_change) {
        return std::nullopt;
    }
    const DetectableChange& change = *motion.detectable_change;
    Degrees value = change.of(part);
    if (part == MotionPart::arc && !value.is_set() && change.positive.is_set() && change.negative.is_set()) {
        value = std::max(change.positive, change.negative, [](Degrees a, Degrees b) { return a.value() < b.value(); });
    }
    if (!value.is_set()) {
        return std::nullopt;
    }
    return ChangeLimit{value, change.what, change.source};
}

}  // namespace jointrom
