#pragma once

/// \file
/// The SHA-256 of a file, by which a result names its input.

#include <filesystem>
#include <string>
#include <string_view>

namespace jointrom {

/// SHA-256 (FIPS 180-4) in lower-case hexadecimal. \throws Failure missing_file "file-missing" when it cannot be read
[[nodiscard]] std::string sha256_of_file(const std::filesystem::path& path);

/// SHA-256 (FIPS 180-4) of `bytes` in lower-case hexadecimal.
[[nodiscard]] std::string sha256_of(std::string_view bytes);

}  // namespace jointrom
