#pragma once

#include <support/catch.hpp>
#include <support/reference_file.hpp>

#include <limits>
#include <vector>

namespace jointrom::test {

constexpr double missing = std::numeric_limits<double>::quiet_NaN();

}  // namespace jointrom::test
