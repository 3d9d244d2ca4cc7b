#pragma once

/// \file
/// The options of commands that use reference values.

#include "cli/command.hpp"

#include <jointrom/norms/norm_lookup.hpp>

#include <optional>
#include <string>

namespace jointrom::cli {

/// Which table, and for whom.
struct NormOptions {
    std::string file;
    std::string joint;
    std::string motion;
    std::string sex;
    std::string age_years;
    std::string mode;
    std::string source;

    /// Adds --norms, --sex, --age, --mode and --source; --joint and --motion too when `with_joint`.
    void attach(OptionList& list, bool with_joint);

    /// The built-in table, or the one in the file; the latter is read once.
    [[nodiscard]] const NormTable& table() const;
    /// \throws Failure usage for a sex, age or mode that cannot be
    [[nodiscard]] NormFilter filter() const;

  private:
    mutable std::optional<NormTable> read_;
};

}  // namespace jointrom::cli
