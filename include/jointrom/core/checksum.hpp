#pragma once

/// \file
/// The SHA-256 of a file, by which a result names its input.

#include <filesystem>
#include <memory>
#include <string>
#include <string_view>

namespace jointrom {

/// SHA-256 (FIPS 180-4) of bytes that come in pieces.
class Sha256 {
  public:
    Sha256();
    void add(std::string_view bytes);
    /// In lower-case hexadecimal. \pre called once, last
    [[nodiscard]] std::string hexadecimal();

  private:
    struct State;
    struct Free {
        void operator()(State* state) const;
    };
    std::unique_ptr<State, Free> state_;
};

/// SHA-256 (FIPS 180-4) in lower-case hexadecimal. \throws Failure missing_file "file-missing" when it cannot be read
[[nodiscard]] std::string sha256_of_file(const std::filesystem::path& path);

/// SHA-256 (FIPS 180-4) of `bytes` in lower-case hexadecimal.
[[nodiscard]] std::string sha256_of(std::string_view bytes);

}  // namespace jointrom
