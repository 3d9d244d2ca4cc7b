#pragma once

/// \file
/// Sentences about a load and what was assumed. Private.

#include <jointrom/load/load_model.hpp>

#include <string>
#include <string_view>
#include <vector>

namespace jointrom {

constexpr std::string_view load_caution =
    "Caution: an estimate for teaching, no advice on training or treatment; follow local rules; a licensed clinician "
    "decides in case of doubt.";

/// Limb, loads, posture and signs.
[[nodiscard]] std::vector<std::string> model_remarks(const JointMotion& motion, const LoadModel& model);

/// \param whose "flexors ", or nothing
[[nodiscard]] std::string muscle_remark(std::string_view whose, const MuscleAttachment& muscle);

}  // namespace jointrom
