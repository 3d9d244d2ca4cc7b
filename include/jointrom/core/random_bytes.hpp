#pragma once

/// \file
/// Random bytes that nobody can foretell.

#include <cstddef>
#include <string>

namespace jointrom {

/// Bytes from the operating system's random source.
/// \throws Failure unreadable_data "no-random-source" when it gives none
[[nodiscard]] std::string random_bytes(std::size_t count);

}  // namespace jointrom
