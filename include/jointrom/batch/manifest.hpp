#pragma once

/// \file
/// The manifest of a class: a table with a row for each recording (docs/formats/manifest.md).

#include <jointrom/batch/class_list.hpp>

#include <filesystem>

namespace jointrom {

/// The recordings that a manifest lists, in its order.
///
/// Method: columns are named in any order and case; only `file` is required. Beside who and what was recorded, a column
/// can be any setting, by its key in a settings file. Files are relative to the manifest's folder and stay inside it.
/// Blank cells say nothing. Every problem is collected, none stops the reading but a row that is cut otherwise than the
/// headings.
/// \throws Failure what RecordReader throws for the first row; unreadable_data "manifest-empty" without any row
[[nodiscard]] ClassList read_manifest(const std::filesystem::path& path);

}  // namespace jointrom
