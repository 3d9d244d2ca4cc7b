#pragma once

/// \file
/// The parts of the catalogue of settings that stand in files of their own. Private.

#include <jointrom/analysis/settings.hpp>

namespace jointrom {

[[nodiscard]] std::span<const SettingKind> activity_settings();
[[nodiscard]] std::span<const SettingKind> load_settings();

}  // namespace jointrom
