#pragma once

/// \file
/// What the commands have in common that read class tables: the files, the measured column, the grouping.

#include "cli/command.hpp"
#include "cli/output_options.hpp"

#include <jointrom/batch/long_table.hpp>
#include <jointrom/report/result_table.hpp>

#include <initializer_list>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace jointrom::cli {

/// The parts of a text between commas, without blanks around them; none of an empty text.
[[nodiscard]] std::vector<std::string> comma_list(const std::string& text);

struct ClassTableOptions {
    std::vector<std::string> files;
    std::string files_from;
    std::vector<std::string> values;
    std::vector<std::string> by;
    std::string table;
    OutputOptions output;

    /// \param tables names of the tables that --table may choose
    void attach(OptionList& list, std::initializer_list<std::string_view> tables);

    /// The files named, and those that --files-from lists.
    /// \throws Failure usage "no-files" when there are none
    [[nodiscard]] std::vector<std::string> all_files(Console& console) const;
    /// Columns named with --value.
    [[nodiscard]] std::vector<std::string> value_names() const;
    /// Columns named with --by, when it was given.
    [[nodiscard]] std::optional<std::vector<std::string>> by_names() const;

    /// Whether a table will be printed. \param is_first the one that CSV holds when none is named
    [[nodiscard]] bool wants(std::string_view name, bool is_first = false) const;

    /// Inputs and what was left out of them.
    void describe_input(const LongTable& read, Report& report) const;
    /// Prints the report, or the one table of it that was asked for.
    void write(Report report, Console& console) const;
};

}  // namespace jointrom::cli
