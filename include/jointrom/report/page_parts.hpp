#pragma once

/// \file
/// What pages are put together from: sections, tables, findings, the meaning of words, and how to get the same again.

#include <jointrom/core/finding.hpp>
#include <jointrom/figure/figure_style.hpp>
#include <jointrom/report/markup.hpp>
#include <jointrom/report/result_table.hpp>

#include <cstddef>
#include <functional>
#include <initializer_list>
#include <span>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace jointrom {

/// A part of a page that the list of contents leads to.
struct PageSection {
    std::string id;
    std::string heading;
    Markup content;
    bool has_margin = true;  ///< on wide screens the heading stands beside the content
};

/// The list of contents, and the sections; those without content are left out.
[[nodiscard]] Markup sections_markup(std::span<const PageSection> sections);

[[nodiscard]] Markup paragraph(const Markup& content);
/// A list of sentences, with_degree_signs().
[[nodiscard]] Markup list_of(std::span<const std::string> sentences);

[[nodiscard]] std::string with_capital(std::string text);

/// A sentence with ° for " deg".
[[nodiscard]] std::string with_degree_signs(std::string sentence);

/// Angles for reading: "145.7 ± 3.2°"; a dash for a missing one.
[[nodiscard]] std::string angle_text(const Measured& angle);
[[nodiscard]] std::string angle_text(double angle_deg);

struct TableStyle {
    std::string caption = {};
    bool sortable = false;        ///< a script can order the rows by a column
    std::size_t most_rows = 100;  ///< more are counted, not shown
    std::vector<std::pair<std::string_view, std::string>> headings =
        {};                                                      ///< by key, where the column's own is too wide
    std::function<std::string(std::size_t row)> link = nullptr;  ///< where the first cell of a row leads
};

/// A table for reading: units in the headings, angles to a tenth of a degree, value ± U (95 %), a dash for what is
/// missing. Nothing for a table without rows.
[[nodiscard]] Markup table_markup(const ResultTable& table, const TableStyle& style = {});

/// A figure twice: for wide screens and paper, and for phones; a page shows one of them.
/// \param draw makes the SVG in a given style \param id told apart from those of the page's other figures
[[nodiscard]] Markup figure_markup(const std::string& id, const std::function<std::string(const FigureStyle&)>& draw);

/// Some columns of a table, in this order; without those that are missing in every row.
[[nodiscard]] ResultTable with_columns(const ResultTable& table, std::initializer_list<std::string_view> keys);

/// A finding as it is told; its code may be one that this version does not know.
struct ToldFinding {
    std::string severity, code, text, place;
};

/// As told to a reader who has no use for folders: places have the file's name only.
[[nodiscard]] std::vector<ToldFinding> told(const Findings& findings);

/// Errors first, then warnings, then notes; each kind with what it means and, unless it is a note, what to do.
[[nodiscard]] Markup findings_markup(std::vector<ToldFinding> findings);

/// "2 warnings, 1 note"; "nothing" when there are none.
[[nodiscard]] std::string findings_count(std::span<const ToldFinding> findings);

/// The meaning of words, for someone who hears them for the first time. \param words those of the page
[[nodiscard]] Markup glossary(std::initializer_list<std::string_view> words);

/// Program, inputs with their checksums, and settings: those that were chosen first, then those left as they are.
[[nodiscard]] Markup provenance(std::span<const InputFile> inputs, std::string_view version,
                                std::span<const std::pair<std::string, std::string>> settings);

}  // namespace jointrom
