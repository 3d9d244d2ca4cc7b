#pragma once

/// \file
/// How much of a long recording is looked at to judge its spectrum. Private.

#include <cstddef>

namespace jointrom {

/// Segments spread over the recording: the median of noise is known to 6 % then, where
/// findings ask for a factor of ten.
constexpr std::size_t enough_segments = 512;

}  // namespace jointrom
