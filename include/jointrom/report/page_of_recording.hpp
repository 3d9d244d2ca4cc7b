#pragma once

/// \file
/// One recording as a web page for whoever was measured.

#include <jointrom/analysis/measure_recording.hpp>
#include <jointrom/norms/measured_person.hpp>
#include <jointrom/report/result_table.hpp>

#include <optional>
#include <string>

namespace jointrom {

struct RecordingPage {
    const MeasuredRecording& measured;
    /// Its title heads the page when it has one; its inputs and settings tell how to get the same again; its findings
    /// are all that are told.
    const Report& report;
    std::optional<JudgedPerson> judged = {};  ///< where a comparison with other people was asked for
};

/// The page, whole: result, figures, how sure it is, findings with advice, repetitions, muscles, words, origin.
[[nodiscard]] std::string page_of_recording(const RecordingPage& page);

/// "Right elbow: flexion and extension"; "Joint angle" when nothing is known.
[[nodiscard]] std::string heading_of_motion(const JointMotion& motion, Side side);

}  // namespace jointrom
