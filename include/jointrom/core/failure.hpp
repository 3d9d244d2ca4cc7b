#pragma once

/// \file
/// What stops a computation. The library throws it; it is caught once per file by a batch and once per process by the
/// program. Data that are imperfect but usable give a Finding instead (finding.hpp).

#include <jointrom/core/place.hpp>

#include <stdexcept>
#include <string>
#include <string_view>

namespace jointrom {

/// Who has to act, which decides the exit status of the program.
enum class FailureKind {
    usage,            ///< a request that cannot be served as it was put
    unreadable_data,  ///< input that cannot be understood or is not enough
    missing_file,     ///< an input that is not there or may not be read
    cannot_create,    ///< an output that cannot be created
    cannot_write      ///< an output that could not be written to its end
};

class Failure : public std::runtime_error {
  public:
    /// \param code   stable kebab-case name of this failure, for scripts (listed in docs/findings.md)
    /// \param text   what was found and what was expected
    /// \param advice what the reader can do about it, e.g. the option that settles it
    /// \param place  where it was found
    Failure(FailureKind kind, std::string_view code, const std::string& text, std::string advice = {},
            Place place = {});

    [[nodiscard]] FailureKind kind() const noexcept { return kind_; }
    [[nodiscard]] const std::string& code() const noexcept { return code_; }
    [[nodiscard]] const std::string& advice() const noexcept { return advice_; }
    [[nodiscard]] const Place& place() const noexcept { return place_; }

    /// The same failure with the file name filled in where the place has none.
    [[nodiscard]] Failure in_file(const std::string& file) const;

  private:
    FailureKind kind_;
    std::string code_;
    std::string advice_;
    Place place_;
};

}  // namespace jointrom
