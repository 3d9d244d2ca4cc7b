#pragma once

/// \file
/// Values with a standard uncertainty, and the budget that it is built from (JCGM 100:2008, "GUM").

#include <limits>
#include <string>
#include <vector>

namespace jointrom {

/// A value and its standard uncertainty, both in the same unit, which the name of the variable carries.
struct Uncertain {
    double value = std::numeric_limits<double>::quiet_NaN();
    double u = std::numeric_limits<double>::quiet_NaN();
};

/// With which other results an input's error is one and the same, from the narrowest to the widest.
enum class CommonTo {
    this_value,  ///< with none
    recording,   ///< every value of one recording, e.g. the neutral zero
    calibration  ///< every value taken with one calibration, e.g. the gain
};

/// One input quantity of a budget.
struct BudgetLine {
    std::string input;         ///< what it is, in plain words
    double u;                  ///< standard uncertainty of the input, in its own unit
    double sensitivity = 1.0;  ///< change of the result per change of the input
    double degrees_of_freedom = std::numeric_limits<double>::infinity();  ///< infinite when u is not from repeats
    CommonTo common_to = CommonTo::this_value;
    std::string repeats = {};  ///< lines of the same name and degrees of freedom have their u from one SD

    /// Contribution to the result's standard uncertainty, in the result's unit.
    [[nodiscard]] double contribution() const;
};

/// Uncorrelated inputs of one result. Inputs that two results share (one calibration in both ends of an arc) enter
/// their difference once, with the sensitivity of the difference: see difference().
class Budget {
  public:
    void add(BudgetLine line) { lines_.push_back(std::move(line)); }

    [[nodiscard]] const std::vector<BudgetLine>& lines() const noexcept { return lines_; }

    /// Root of the sum of squared contributions (JCGM 100 eq. 10); 0 for an empty budget.
    [[nodiscard]] double standard_uncertainty() const;

    /// Welch-Satterthwaite (JCGM 100 eq. G.2b), not truncated; infinite when no input has finite degrees of freedom.
    /// Lines that rest on the same repeats count as one: their SDs are not independent estimates.
    [[nodiscard]] double effective_degrees_of_freedom() const;

    /// Two-sided Student factor for `level`, at the effective degrees of freedom truncated to an integer (JCGM 100
    /// G.4.1), at least 1.
    [[nodiscard]] double coverage_factor(double level = 0.95) const;

    /// coverage_factor(level) * standard_uncertainty().
    [[nodiscard]] double expanded_uncertainty(double level = 0.95) const;

  private:
    std::vector<BudgetLine> lines_;
};

/// The budget of `a` less `b`.
///
/// Method: an input of both whose error is the same in both enters once, with the difference of the sensitivities, and
/// leaves the budget where they are equal (JCGM 100 F.1.2.3). Other inputs add in squares.
/// \param common what the two results share: the recording, the calibration only, or (this_value) nothing
[[nodiscard]] Budget difference(const Budget& a, const Budget& b, CommonTo common);

/// Two-sided Student quantile: the factor k with P(|t| <= k) = level. Infinite degrees of freedom give the normal one.
/// \pre 0 < level < 1, degrees_of_freedom > 0
[[nodiscard]] double student_factor(double level, double degrees_of_freedom);

/// Standard uncertainty of a quantity known to lie within +-half_width with equal probability (JCGM 100, 4.3.7).
[[nodiscard]] double rectangular_u(double half_width);

}  // namespace jointrom
