#pragma once

/// \file
/// Several lambdas as one visitor of a variant.

namespace jointrom {

template <typename... Branches>
struct Overloaded : Branches... {
    using Branches::operator()...;
};
template <typename... Branches>
Overloaded(Branches...) -> Overloaded<Branches...>;

}  // namespace jointrom
