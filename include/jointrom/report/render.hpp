#pragma once

/// \file
/// A Report as text: for reading, for a spreadsheet, for a program. Same report, same bytes.

#include <jointrom/report/result_table.hpp>

#include <cstddef>
#include <string>

namespace jointrom {

/// Tables with aligned columns, units in the headings, `value ± U` (95 %) where a value has an uncertainty.
/// \param explain also prints the uncertainty budgets
/// \param width   characters a line: the columns of a wider table follow below, each part behind its first column; 0
/// for
///   no limit
[[nodiscard]] std::string text_report(const Report& report, bool explain = false, std::size_t width = 0);

/// The first table as CSV (RFC 4180 but with LF): one header row, '.' as decimal mark, empty cells for missing values.
/// A value with uncertainty takes three columns, e.g. arc_deg, arc_u_deg (standard) and arc_u95_deg (expanded, 95 %).
/// Text that a spreadsheet would take for a formula gets a leading apostrophe.
[[nodiscard]] std::string csv_report(const Report& report);

/// The whole report as JSON in one envelope: schema, tool, inputs, settings, result, findings. A value with uncertainty
/// is {"value", "u", "u95"}; missing numbers are null.
[[nodiscard]] std::string json_report(const Report& report);

/// A cell of text for CSV: quoted where needed, and made harmless for spreadsheets. RecordReader gives the text back.
[[nodiscard]] std::string csv_text(std::string_view text);

}  // namespace jointrom
