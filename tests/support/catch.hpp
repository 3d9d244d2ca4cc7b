#pragma once

/// \file
/// Catch2, version 2 or 3, under the names of version 3.

#if __has_include(<catch2/catch_all.hpp>)
#include <catch2/catch_all.hpp>
using Catch::Matchers::ContainsSubstring;
#else
#include <catch2/catch.hpp>
inline auto ContainsSubstring(const std::string& text) {
    return Catch::Matchers::Contains(text);
}
#endif
using Catch::Matchers::WithinAbs;
using Catch::Matchers::WithinRel;
