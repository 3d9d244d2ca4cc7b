#pragma once

/// \file
/// Are values of opposite sign mixed, such as those of left and right limbs or of flexion and extension?

#include <cstddef>
#include <span>

namespace jointrom {

struct SignMix {
    std::size_t negative = 0;
    std::size_t positive = 0;
    /// Share of the variance that the sign alone explains. 0.64 for normal values about 0 and 0.75 for evenly spread
    /// ones; near 1 for two heaps on either side of 0.
    double share = 0.0;

    /// Two heaps on either side of 0: both signs more than once, and a share beyond what a single heap can have.
    [[nodiscard]] bool is_mixed() const { return negative > 1 && positive > 1 && share > 0.85; }
};

/// Missing samples: skipped, as are zeros.
[[nodiscard]] SignMix sign_mix(std::span<const double> values);

}  // namespace jointrom
