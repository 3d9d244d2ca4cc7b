#pragma once

/// \file
/// The apostrophe that keeps a spreadsheet from taking a text for a formula: put there when a table is written, taken
/// off when it is read back.

#include <string_view>

namespace jointrom {

[[nodiscard]] bool looks_like_formula(std::string_view text);

/// What a guarded cell says; other texts as they are. \param cell without its quotes
[[nodiscard]] std::string_view without_guard(std::string_view cell);

}  // namespace jointrom
