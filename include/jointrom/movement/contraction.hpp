#pragma once

/// \file
/// How muscles work against a load.

#include <string_view>

namespace jointrom {

enum class Contraction {
    undecided,   ///< at rest, or not to be told
    concentric,  ///< they shorten: the joint moves against the load
    isometric,   ///< their length stays: the joint is held
    eccentric,   ///< they lengthen: the joint gives way to the load under control
    mixed        ///< they shorten and lengthen by turns
};

/// Empty when undecided.
[[nodiscard]] std::string_view name_of(Contraction contraction);

}  // namespace jointrom
