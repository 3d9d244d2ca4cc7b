#pragma once

/// \file
/// Where in an input something was found.

#include <cstddef>
#include <string>

namespace jointrom {

/// A file, and if known the line and column in it. Lines and columns count from 1 as an editor shows them; 0 = unknown.
/// In a table, `column` is the number of the cell in its row.
struct Place {
    std::string file;
    std::size_t line = 0;
    std::size_t column = 0;

    /// `file`, `file:line` or `file:line:column`; empty when nothing is known.
    [[nodiscard]] std::string text() const;
    friend bool operator==(const Place&, const Place&) = default;
};

}  // namespace jointrom
