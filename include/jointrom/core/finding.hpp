#pragma once

/// \file
/// What a user should know about a result that stands: an assumption, an imperfection of the data, a doubt. One
/// catalogue holds every kind; docs/findings.md is printed from it.

#include <jointrom/core/place.hpp>

#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace jointrom {

enum class Severity {
    note,     ///< something was inferred or left out; nothing looks wrong
    warning,  ///< the result may be off; the text says how to make sure
    error     ///< a figure that was asked for could not be given
};

/// One kind of finding.
struct FindingKind {
    std::string_view code;  ///< stable kebab-case name, for scripts
    Severity severity;
    std::string_view meaning;  ///< one sentence
    std::string_view advice;   ///< what to do, naming the option that settles it
};

/// Every kind of finding, sorted by code.
[[nodiscard]] std::span<const FindingKind> finding_catalogue();

/// \throws std::out_of_range for a code that is not in the catalogue (a mistake in the calling code).
[[nodiscard]] const FindingKind& finding_kind(std::string_view code);

struct Finding {
    /// \param code a code of the catalogue
    /// \param text what was found, with its numbers
    Finding(std::string_view code, std::string text, Place place = {});

    const FindingKind* kind;
    std::string text;
    Place place;

    [[nodiscard]] std::string_view code() const noexcept { return kind->code; }
    [[nodiscard]] Severity severity() const noexcept { return kind->severity; }
    friend bool operator==(const Finding&, const Finding&) = default;
};

using Findings = std::vector<Finding>;

[[nodiscard]] bool contains(const Findings& findings, std::string_view code);
[[nodiscard]] std::string_view name_of(Severity severity);

}  // namespace jointrom
