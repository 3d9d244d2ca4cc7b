#pragma once

/// \file
/// What probably happened to a reading that is wrong. Private.

#include <jointrom/batch/answer_sheet.hpp>

#include <string>
#include <vector>

namespace jointrom {

/// A reading that is wrong, and the values that it may have been taken for.
struct WrongReading {
    double value;
    double computed;
    double allowed;          ///< largest error that counts as right
    double half_last_digit;  ///< part of `allowed`; grows when the reading is scaled
    std::string unit;
    struct Other {
        std::string name;  ///< "the left side", "flexion"
        double value;
    };
    std::vector<Other> other_sides, other_quantities, other_trials;
};

struct Diagnosis {
    Mistake mistake;
    std::string feedback;  ///< what was done and what to do, for the student
};

[[nodiscard]] Diagnosis diagnosis(const WrongReading& reading);

}  // namespace jointrom
