#include <jointrom/norms/judgement.hpp>

#include <jointrom/core/number_text.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

namespace jointrom {
namespace {

constexpr double people_factor = 1.959963984540054;  // of the SD, to either side, for 95 % of people
constexpr double deg_per_rad = 180.0 / std::numbers::pi;
constexpr double largest_rad = 3.5;           // no joint goes farther than 200 deg
constexpr double least_reference_deg = 30.0;  // below this a few degrees are no suspicion
constexpr double radian_fit = 0.25;           // as radians this much nearer to the usual value

double slack_of(const NormRow& row, const std::optional<NormBand>& band) {
    if (!band || band->basis != BandBasis::mean_and_sd) {
        return 0.0;
    }
    const double span = std::max(row.sd_hi_deg - row.sd_deg, row.sd_deg - row.sd_lo_deg);
    return span > 0.0 ? people_factor * span : 0.0;  // NaN without a span
}

/// Larger is better.
std::array<double, 6> fitness(const Judgement& judgement) {
    const NormMatch& norm = judgement.norm;
    return {judgement.band ? 1.0 : 0.0,
            norm.sex_pooled ? 0.0 : 1.0,
            norm.age_unstated ? 0.0 : 1.0,
            norm.mode_unstated ? 0.0 : 1.0,
            norm.row->is_from_memory() ? 0.0 : 1.0,
            static_cast<double>(norm.row->n.value_or(0))};
}

bool has_band(const NormLookup& lookup) {
    return std::ranges::any_of(lookup.matches,
                               [](const NormMatch& norm) { return normal_band(*norm.row).has_value(); });
}

std::optional<MotionMode> other(std::optional<MotionMode> mode) {
    if (!mode) {
        return std::nullopt;
    }
    return *mode == MotionMode::active ? MotionMode::passive : MotionMode::active;
}

/// Which option would lead to a row with a spread; empty when none would.
std::string way_to_a_band(const NormTable& table, NormQuery query) {
    const std::optional<MotionMode> asked = query.mode;
    for (const MotionMode mode : {MotionMode::active, MotionMode::passive}) {
        query.mode = mode;
        if (mode != asked && has_band(find_norms(table, query))) {
            return fmt::format(" Rows of {} motion do: --against {} takes them, with that said.", name_of(mode),
                               name_of(mode));
        }
    }
    return {};
}

bool looks_like_radians(double extent, double reference_deg) {
    return std::abs(extent) <= largest_rad && std::abs(reference_deg) >= least_reference_deg &&
           std::abs(extent * deg_per_rad - reference_deg) < radian_fit * std::abs(extent - reference_deg);
}

std::string extent_name(const ExtentJudgement& result) {
    return fmt::format("{} {}", result.query.motion->joint, name_of(result.measured.part, *result.query.motion));
}

void report_uncertainty(ExtentJudgement& result) {
    const MeasuredExtent& measured = result.measured;
    if (!measured.has_uncertainty()) {
        result.findings.emplace_back("uncertainty-missing",
                                     extent_name(result) + ": nothing is known of the value's uncertainty");
    } else if (!measured.assumed_basis.empty()) {
        result.findings.emplace_back("uncertainty-assumed", extent_name(result) + ": " + measured.assumed_basis);
    }
}

void report_first_row(ExtentJudgement& result) {
    const Judgement& first = result.judgements.front();
    const NormRow& row = *first.norm.row;
    const std::string what = extent_name(result) + ", " + row.source;
    if (row.is_from_memory()) {
        result.findings.emplace_back("norm-from-memory", what + ": " + first.norm.remarks());
    }
    if (first.is_other_mode) {
        result.findings.emplace_back(
            row.mode == MotionMode::passive ? "norm-passive-measured-active" : "norm-active-measured-passive", what);
    }
    if (looks_like_radians(result.measured.extent.value(), row.value_deg)) {
        result.findings.emplace_back(
            "value-suspect-radians",
            fmt::format("{}: {} deg is far from the usual {} deg, but as radians it would be {} deg",
                        extent_name(result), shortest_text(result.measured.extent.value()),
                        shortest_text(row.value_deg), fixed_text(result.measured.extent.value() * deg_per_rad, 1)));
    }
}

}  // namespace

std::optional<Budget> usual_uncertainty(const JointMotion& motion) {
    if (!motion.typical_error) {
        return std::nullopt;
    }
    Budget budget;
    budget.add({.input = "usual measurement error, " + motion.typical_error->source,
                .u = motion.typical_error->value.value() / (people_factor * std::numbers::sqrt2)});
    return budget;
}

void assume_usual_error(const JointMotion& motion, MeasuredExtent& measured) {
    const std::optional<Budget> usual = usual_uncertainty(motion);
    if (!usual) {
        return;
    }
    measured.budget = *usual;
    measured.assumed_basis = fmt::format(
        "u = {} deg taken from {} deg ({}; {})", fixed_text(usual->standard_uncertainty(), 1),
        shortest_text(motion.typical_error->value.value()), motion.typical_error->what, motion.typical_error->source);
}

Judgement judge(const NormMatch& norm, const MeasuredExtent& measured, const DecisionRule& rule) {
    const NormRow& row = *norm.row;
    const double extent_deg = measured.extent.value();
    Judgement result;
    result.norm = norm;
    result.difference_deg = extent_deg - row.value_deg;
    result.standing = standing(row, extent_deg);
    result.band = normal_band(row);
    result.limit_slack_deg = slack_of(row, result.band);
    if (!result.band) {
        return result;
    }
    constexpr double unknown = std::numeric_limits<double>::quiet_NaN();
    const bool known = measured.has_uncertainty();
    const Uncertain uncertain{extent_deg, known ? measured.budget.standard_uncertainty() : unknown};
    const Tolerance limits{result.band->lower_deg, result.band->upper_deg};
    result.inside_probability = conformity_probability(uncertain, limits);
    const double expanded_u_deg = known ? measured.budget.expanded_uncertainty(rule.level) : unknown;
    result.verdict = decide({uncertain, expanded_u_deg, result.limit_slack_deg}, limits, rule);
    return result;
}

ExtentJudgement judge_extent(const NormTable& table, const NormQuery& query, const MeasuredExtent& measured,
                             const JudgingOptions& options) {
    ExtentJudgement result{.measured = measured, .query = query};
    result.query.part = measured.part;
    NormQuery asked = result.query;
    asked.source = options.source;
    asked.mode = options.against ? options.against : query.mode;
    const NormLookup lookup = find_norms(table, asked);
    for (const NormMatch& norm : lookup.matches) {
        Judgement& judgement = result.judgements.emplace_back(judge(norm, measured, options.rule));
        judgement.is_other_mode = norm.row->mode && norm.row->mode == other(query.mode);
    }
    std::ranges::stable_sort(result.judgements, std::greater<>(), fitness);
    if (result.judgements.empty()) {
        result.no_verdict = lookup.reason + (has_band(lookup) ? "" : way_to_a_band(table, asked));
        result.findings.emplace_back("norm-missing", result.no_verdict);
        return result;
    }
    report_uncertainty(result);
    report_first_row(result);
    if (!result.judgements.front().band) {
        result.no_verdict =
            fmt::format("No row that applies to {} tells how people differ, so there is a difference only.{}",
                        extent_name(result), way_to_a_band(table, asked));
        result.findings.emplace_back("norm-single-number", result.no_verdict);
    }
    return result;
}

std::string band_text(const Judgement& judgement) {
    return judgement.band ? fixed_text(judgement.band->lower_deg, 1) + " to " + fixed_text(judgement.band->upper_deg, 1)
                          : "-";
}

std::string_view caution_line() {
    return "A teaching measurement, not a diagnosis: norms describe groups; pain or unusual findings go to a licensed "
           "clinician; follow local rules.";
}

}  // namespace jointrom
