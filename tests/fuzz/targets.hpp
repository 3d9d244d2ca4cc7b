#pragma once

/// \file
/// Everything that reads what somebody else wrote, as functions of any bytes: a target may throw Failure, and nothing
/// else may happen.

#include <span>
#include <string_view>

namespace jointrom::test {

struct FuzzTarget {
    std::string_view name;
    void (*read)(std::string_view bytes);
};

[[nodiscard]] std::span<const FuzzTarget> fuzz_targets();

/// Runs a target; a Failure is an orderly end.
void read_safely(const FuzzTarget& target, std::string_view bytes);

}  // namespace jointrom::test
