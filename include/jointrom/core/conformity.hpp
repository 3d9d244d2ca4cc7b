#pragma once

/// \file
/// Is a measured value inside a tolerance, given how uncertain it is? (JCGM 106:2012; ISO 14253-1)

#include <jointrom/core/uncertainty.hpp>

#include <limits>
#include <string>
#include <string_view>

namespace jointrom {

/// A tolerance interval; a limit that is infinite is no limit.
struct Tolerance {
    double lower = -std::numeric_limits<double>::infinity();
    double upper = std::numeric_limits<double>::infinity();
};

enum class Conformity { inside, outside, undecided };

[[nodiscard]] std::string_view name_of(Conformity conformity);

/// Inside, outside, or not to be told.
///
/// Method: inside when the value lies in the tolerance narrowed by the guard band, outside when it lies beyond the
/// tolerance widened by it, both borders included in "inside" and excluded from "outside" (ISO 14253-1 with
/// guard = expanded uncertainty; guard = 0 is simple acceptance).
/// Missing samples: a missing value or guard is undecided.
[[nodiscard]] Conformity conformity(double value, Tolerance tolerance, double guard);

/// Probability that the true value lies in the tolerance, the value's error being normal.
///
/// Method: Phi((upper - value)/u) - Phi((lower - value)/u); 0 or 1 when u is 0.
/// \par Reference JCGM 106:2012, clause 7.
[[nodiscard]] double conformity_probability(Uncertain measured, Tolerance tolerance);

/// How a value is held against limits.
struct DecisionRule {
    enum class Kind {
        simple,      ///< the limits alone decide: at a limit, half of such decisions are wrong
        guarded,     ///< limits moved by the expanded uncertainty, so that a decision is rarely wrong (default)
        probability  ///< what is at least as probable as asked for
    };
    Kind kind = Kind::guarded;
    double level = 0.95;  ///< coverage of the expanded uncertainty, or the probability asked for
};

/// "simple", "guarded", "probability", the last two also with a level, e.g. "probability=0.9".
/// \throws Failure usage "rule-unknown" for another name or a level that is not above 0.5 and below 1
[[nodiscard]] DecisionRule decision_rule_named(std::string_view text);
[[nodiscard]] std::string name_of(const DecisionRule& rule);

enum class LimitVerdict { within, below, above, cannot_tell };

[[nodiscard]] std::string_view name_of(LimitVerdict verdict);  ///< "within", "below", "above", "cannot tell"

/// What is held against limits.
struct Judged {
    Uncertain measured;
    double expanded_u = std::numeric_limits<double>::quiet_NaN();  ///< of the value, at the rule's level
    double limit_slack = 0.0;  ///< the limits themselves are known to +-this only; no rule decides within it
};

/// Within, below, above, or not to be told.
///
/// Method: guarded and simple as conformity(), the guard being the expanded uncertainty (simple: 0) and the slack of
/// the limits. Probability: within, below or above when the true value is that with at least the rule's probability,
/// the limits narrowed for "within" and widened for the others by their slack.
/// Missing samples: cannot tell.
[[nodiscard]] LimitVerdict decide(const Judged& judged, Tolerance tolerance, const DecisionRule& rule = {});

}  // namespace jointrom
