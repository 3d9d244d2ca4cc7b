#pragma once

/// \file
/// The rows of a table in which its clock runs forward.

#include <cstddef>
#include <optional>
#include <span>
#include <vector>

namespace jointrom {

struct ForwardRows {
    bool all = true;                    ///< every row, in which case `rows` is empty
    std::vector<std::size_t> rows;      ///< the rows to use, in order
    std::size_t without_time = 0;       ///< rows without a time between rows that have one
    std::vector<std::size_t> strays;    ///< rows left out because their time alone is out of order
    std::vector<std::size_t> restarts;  ///< first rows of the parts in which the clock starts again
};

/// The longest run of rows whose times never fall.
///
/// Method: up to three rows that alone are out of order (the clock then goes on from where it was) are left out; any
/// other fall starts a new part, and the part with most rows is taken, the first of equal ones.
/// Missing times: their rows are left out.
/// \param part take this part, counted from 1, instead of the longest
/// \return     no rows when there is no such part
[[nodiscard]] ForwardRows forward_rows(std::span<const double> time, std::optional<std::size_t> part = {});

}  // namespace jointrom
