#pragma once

/// \file
/// Tables of reference values: the one that is built into the library (data/norms) and those that a user brings.

#include <jointrom/norms/norm_row.hpp>
#include <jointrom/table/byte_source.hpp>

#include <filesystem>
#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace jointrom {

/// Where numbers come from.
struct NormSource {
    std::string key;
    std::string citation;
    std::string population;  ///< who was measured, in words
    std::string read_in;     ///< what was opened: the source itself or a text that quotes it
    std::string reuse;       ///< "public domain", "open access" or "facts only"
};

class NormTable {
  public:
    NormTable(std::string name, std::vector<NormRow> rows, std::vector<NormSource> sources);

    /// "built-in" or the file.
    [[nodiscard]] const std::string& name() const noexcept { return name_; }
    /// In the order of the file.
    [[nodiscard]] std::span<const NormRow> rows() const noexcept { return rows_; }
    /// The sources that have rows, in the order of their first row.
    [[nodiscard]] std::span<const NormSource> sources() const noexcept { return sources_; }
    /// The source of a row; only its key is filled in where a user's table tells no more.
    /// \throws std::out_of_range for a key without rows
    [[nodiscard]] const NormSource& source(std::string_view key) const;

  private:
    std::string name_;
    std::vector<NormRow> rows_;
    std::vector<NormSource> sources_;
};

/// The table that is built into the library.
[[nodiscard]] const NormTable& built_in_norms();

/// Every source that the built-in tables (reference values, functional arcs, measurement errors) name.
[[nodiscard]] std::span<const NormSource> built_in_sources();

/// Names of the columns that a table in a file may have, in the order in which it is written. The last four (the
/// citation and the normal range) follow from the others; they are written for the reader and not read.
[[nodiscard]] std::span<const std::string_view> norm_table_columns();

/// A table in a file (docs/formats/norm-table.md).
///
/// \throws Failure unreadable_data with line and column: "norm-column-unknown", "norm-column-missing",
///   "norm-cell" (a name, number or word that cannot be), "norm-contradiction" (cells that cannot both be),
///   "norm-radians", "norm-row-twice", "norms-empty"; and what RecordReader throws
[[nodiscard]] NormTable read_norm_table(const std::filesystem::path& path);
/// \param name stands for the file in messages
[[nodiscard]] NormTable read_norm_table(ByteSource& source, const std::string& name);

}  // namespace jointrom
