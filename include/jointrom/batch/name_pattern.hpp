#pragma once

/// \file
/// How the files of a class are named, e.g. "{participant}_{side}_{trial}.csv".

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace jointrom {

/// A text with places in braces, and '*' for anything. Neither reaches across a '/'.
class NamePattern {
  public:
    /// \throws Failure usage "pattern-invalid" for a brace that is not closed, a place without text behind it before
    /// the
    ///   next place, or one that is named twice; "entry-unknown" for a name that no manifest column has
    explicit NamePattern(std::string_view text);

    /// What stands in each place, in the order of the places; nothing when the name is not made up like this.
    ///
    /// Method: of several ways to fit, the one with the shortest first place.
    [[nodiscard]] std::optional<std::vector<std::pair<std::string, std::string>>> fit(std::string_view name) const;

    /// How many folders deep files lie.
    [[nodiscard]] std::size_t depth() const noexcept;

  private:
    /// Letters that must stand there, or a place (`is_place`), which for '*' has no name.
    struct Part {
        bool is_place;
        std::string text;
    };
    [[nodiscard]] bool fit_from(std::size_t part, std::string_view rest, std::vector<std::string_view>& values) const;

    std::vector<Part> parts_;
};

}  // namespace jointrom
