#pragma once

/// \file
/// How most files of a class are written, for those that do not show it themselves.

#include <jointrom/batch/class_list.hpp>
#include <jointrom/table/table_description.hpp>

#include <optional>
#include <span>

namespace jointrom {

/// Delimiter and decimal mark of most of at most nine files, spread evenly over the entries; of equally frequent ones
/// that of the first file. Files that do not show theirs in their first 64 KiB do not count, nor do those whose
/// standard says it (is_of_standard()). \return nothing when none shows it, or when the options state both
[[nodiscard]] std::optional<Dialect> class_dialect(std::span<const ClassEntry> entries, const ReadingOptions& options);

}  // namespace jointrom
