#pragma once

/// \file
/// The words that depend on the joint.

#include <map>
#include <string>
#include <string_view>
#include <vector>

namespace jointrom {

/// For each joint the words that setting_choices() has for it; empty for a setting that is the same for all joints.
/// \param name as SettingKind::name: "motion" or "posture"
[[nodiscard]] std::map<std::string, std::vector<std::string>> choices_by_joint(std::string_view name);

}  // namespace jointrom
