#pragma once

/// \file
/// A class as a web page: the class as a whole, a table of all recordings, and a card for each participant.

#include <jointrom/batch/class_comparison.hpp>
#include <jointrom/batch/class_results.hpp>
#include <jointrom/batch/class_statistics.hpp>

#include <string>

namespace jointrom {

struct ClassPage {
    const ClassResults& results;
    const ClassStatistics& statistics;
    const ClassComparison& comparison;
    std::string title = {};  ///< empty: "Class results"
    /// What `comparison` was made with. Its norms, or the built-in table, give the normal ranges of the figure of the
    /// class; without a mode only those that state none apply, as in `plot`.
    ClassComparisonOptions compared = {};
};

/// The page, whole. It says nothing that is not in the results: of a class with codes instead of names it shows no
/// names.
[[nodiscard]] std::string page_of_class(const ClassPage& page);

}  // namespace jointrom
