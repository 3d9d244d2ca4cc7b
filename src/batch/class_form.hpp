#pragma once

/// \file
/// The participants of a class, and how their recordings stand in tables of a page.

#include <jointrom/batch/class_results.hpp>
#include <jointrom/report/result_table.hpp>

#include <cstddef>
#include <span>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace jointrom {

/// Where the column with this key stands. \pre there is one
[[nodiscard]] std::size_t column_of(std::span<const RowColumn> columns, std::string_view key);

/// The recordings of one participant.
struct ClassMember {
    std::string name;                     ///< of the participant; where none is known, of the file
    std::vector<std::size_t> recordings;  ///< places in ClassResults::outcomes
};

/// In the natural order of their names.
[[nodiscard]] std::vector<ClassMember> class_members(const ClassResults& results);

/// Where the card of the member at this place stands in the page.
[[nodiscard]] std::string card_id(std::size_t member);

/// What tells recordings of one participant apart: "left elbow, before, trial 2"; the file's name when nothing does.
[[nodiscard]] std::string recording_label(const TrialSubject& subject);

/// How recordings of the class stand in tables.
struct ClassForm {
    bool has_several_motions = false;  ///< of one joint, so that its name alone does not tell which
    /// Headings of measured columns: directions by name where all recordings have the same.
    std::vector<std::pair<std::string_view, std::string>> headings;
};

[[nodiscard]] ClassForm class_form(const ClassResults& results);

/// A row for each recording. Motions are left out where joints tell them.
[[nodiscard]] ResultTable recording_table(const ClassResults& results, const ClassForm& form,
                                          const std::vector<std::size_t>& recordings);

}  // namespace jointrom
