#include <jointrom/core/conformity.hpp>

#include <jointrom/core/failure.hpp>
#include <jointrom/core/number_text.hpp>

#include <boost/math/distributions/normal.hpp>

#include <algorithm>
#include <cmath>

namespace jointrom {
namespace {

double normal_probability_below(double limit, Uncertain measured) {
    if (std::isinf(limit)) {
        return limit > 0.0 ? 1.0 : 0.0;
    }
    return boost::math::cdf(boost::math::normal(measured.value, measured.u), limit);
}

}  // namespace

std::string_view name_of(Conformity conformity) {
    switch (conformity) {
    case Conformity::inside:
        return "inside";
    case Conformity::outside:
        return "outside";
    case Conformity::undecided:
        break;
    }
    return "undecided";
}

Conformity conformity(double value, Tolerance tolerance, double guard) {
    if (value >= tolerance.lower + guard && value <= tolerance.upper - guard) {
        return Conformity::inside;
    }
    if (value < tolerance.lower - guard || value > tolerance.upper + guard) {
        return Conformity::outside;
    }
    return Conformity::undecided;
}

double conformity_probability(Uncertain measured, Tolerance tolerance) {
    if (std::isnan(measured.value) || std::isnan(measured.u)) {
        return std::numeric_limits<double>::quiet_NaN();
    }
    if (measured.u == 0.0) {
        return conformity(measured.value, tolerance, 0.0) == Conformity::inside ? 1.0 : 0.0;
    }
    return normal_probability_below(tolerance.upper, measured) - normal_probability_below(tolerance.lower, measured);
}

DecisionRule decision_rule_named(std::string_view text) {
    const std::size_t mark = std::min(text.find('='), text.size());
    const std::string_view name = text.substr(0, mark);
    DecisionRule rule;
    const auto refuse = [&] {
        throw Failure(FailureKind::usage, "rule-unknown", "there is no decision rule " + std::string(text),
                      "Choose simple, guarded or probability; the last two also with a level above 0.5 and below 1, "
                      "such as probability=0.9.");
    };
    if (name == "simple") {
        rule.kind = DecisionRule::Kind::simple;
    } else if (name == "probability") {
        rule.kind = DecisionRule::Kind::probability;
    } else if (name != "guarded") {
        refuse();
    }
    if (mark < text.size()) {
        rule.level = parse_number(text.substr(mark + 1)).value_or(0.0);
        if (rule.kind == DecisionRule::Kind::simple || !(rule.level > 0.5 && rule.level < 1.0)) {
            refuse();
        }
    }
    return rule;
}

std::string name_of(const DecisionRule& rule) {
    switch (rule.kind) {
    case DecisionRule::Kind::simple:
        return "simple";
    case DecisionRule::Kind::guarded:
        return "guarded=" + shortest_text(rule.level);
    case DecisionRule::Kind::probability:
        break;
    }
    return "probability=" + shortest_text(rule.level);
}

std::string_view name_of(LimitVerdict verdict) {
    switch (verdict) {
    case LimitVerdict::within:
        return "within";
    case LimitVerdict::below:
        return "below";
    case LimitVerdict::above:
        return "above";
    case LimitVerdict::cannot_tell:
        break;
    }
    return "cannot tell";
}

namespace {

LimitVerdict by_probability(const Judged& judged, Tolerance tolerance, double asked) {
    const double slack = judged.limit_slack;
    constexpr double none = std::numeric_limits<double>::infinity();
    const auto reached = [&](Tolerance where) { return conformity_probability(judged.measured, where) >= asked; };
    if (tolerance.lower + slack <= tolerance.upper - slack &&
        reached({tolerance.lower + slack, tolerance.upper - slack})) {
        return LimitVerdict::within;
    }
    if (reached({-none, tolerance.lower - slack})) {
        return LimitVerdict::below;
    }
    return reached({tolerance.upper + slack, none}) ? LimitVerdict::above : LimitVerdict::cannot_tell;
}

}  // namespace

LimitVerdict decide(const Judged& judged, Tolerance tolerance, const DecisionRule& rule) {
    if (rule.kind == DecisionRule::Kind::probability) {
        return by_probability(judged, tolerance, rule.level);
    }
    const double guard = rule.kind == DecisionRule::Kind::simple ? 0.0 : judged.expanded_u;
    const double value = judged.measured.value;
    switch (conformity(value, tolerance, guard + judged.limit_slack)) {
    case Conformity::inside:
        return LimitVerdict::within;
    case Conformity::outside:
        return value < tolerance.lower ? LimitVerdict::below : LimitVerdict::above;
    case Conformity::undecided:
        break;
    }
    return LimitVerdict::cannot_tell;
}

}  // namespace jointrom
