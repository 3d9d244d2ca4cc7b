#pragma once

/// \file
/// What was written beside a recording: marks with a time and a text, as EDF+ files hold them. Nothing is measured by
/// them.

#include <jointrom/core/finding.hpp>
#include <jointrom/core/units.hpp>

#include <filesystem>
#include <string>
#include <vector>

namespace jointrom {

struct Annotation {
    Seconds start;     ///< from the first sample on; may be negative
    Seconds duration;  ///< not set where none is stated
    std::string text;  ///< UTF-8 on one line
};

struct Annotations {
    std::vector<Annotation> rows;  ///< sorted by start; of the same start in the order of the file
    Findings findings;
};

/// The annotations of an EDF+ file; none of any other file.
///
/// Method: texts are UTF-8, else taken for Windows-1252; control characters become blanks. An annotation that is not as
/// EDF+ has it, and those beyond the first 100 000, are left out (finding annotations-left-out).
/// \par Complexity the file's annotation signals are read, not the others
/// \par Reference B. Kemp, J. Olivan, European data format 'plus', Clin. Neurophysiol. 114 (2003) 1755-1761,
/// section 2.2.
[[nodiscard]] Annotations read_annotations(const std::filesystem::path& path);

}  // namespace jointrom
