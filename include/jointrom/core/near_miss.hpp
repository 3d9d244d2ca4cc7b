#pragma once

/// \file
/// "Did you mean ...?" for a name that is not known.

#include <cstddef>
#include <optional>
#include <span>
#include <string_view>

namespace jointrom {

/// Number of letters to insert, delete, replace or swap with their neighbour to turn one text into the other (optimal
/// string alignment distance). ASCII capitals count as small letters.
[[nodiscard]] std::size_t edit_distance(std::string_view a, std::string_view b);

/// The known name that `typed` was most likely meant to be; nothing when none is close.
///
/// Method: smallest edit distance, the first of several equal ones; close means at most a third of the longer name's
/// letters differ, and at least two may.
[[nodiscard]] std::optional<std::string_view> nearest(std::string_view typed, std::span<const std::string_view> known);

}  // namespace jointrom
