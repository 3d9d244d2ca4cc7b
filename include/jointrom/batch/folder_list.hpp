#pragma once

/// \file
/// The class as the files of a folder, or a list of files, whose names say who and what.

#include <jointrom/batch/class_list.hpp>
#include <jointrom/batch/name_pattern.hpp>

#include <filesystem>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace jointrom {

/// The recordings in a folder, sorted by name.
///
/// Method: with a pattern, the files that it fits (as many folders deep as it has '/'); the others are named in finding
/// files-not-fitting. Without one, every .csv, .tsv, .txt, .tab and .edf in the folder itself, each as a participant of
/// its own, named as the file (finding participant-from-file); a BIDS motion file says itself who (sub-), under which
/// condition (ses-) and in which trial (run-). Hidden files and what describes recordings (is_description()) are left
/// out.
/// \throws Failure missing_file "file-missing" when there is no such folder; unreadable_data "folder-empty" when no
///   file is left
[[nodiscard]] ClassList list_folder(const std::filesystem::path& folder, const std::optional<NamePattern>& pattern);

/// The files of a list, as they are named, relative to the present folder. As list_folder() otherwise.
[[nodiscard]] ClassList list_files(const std::vector<std::string>& files, const std::optional<NamePattern>& pattern);

/// Names that stand one a line, or each before a NUL where there is one. Blank lines are skipped.
[[nodiscard]] std::vector<std::string> listed_names(std::string_view text);

/// Only entries whose file is in the list stay wanted; a listed file that the class does not have is a problem.
void want_listed(ClassList& list, const std::vector<std::string>& files);

}  // namespace jointrom
