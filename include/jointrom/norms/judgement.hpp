#pragma once

/// \file
/// Is a measured extent usual for people of this joint, sex and age, given how uncertain it is?

#include <jointrom/core/conformity.hpp>
#include <jointrom/core/finding.hpp>
#include <jointrom/core/uncertainty.hpp>
#include <jointrom/norms/norm_band.hpp>
#include <jointrom/norms/norm_lookup.hpp>

#include <limits>
#include <optional>
#include <string>
#include <vector>

namespace jointrom {

/// How far a joint was moved, counted as a NormRow counts: beyond neutral in the direction of the part is positive.
struct MeasuredExtent {
    MotionPart part = MotionPart::positive;
    Degrees extent = {};
    Budget budget = {};              ///< empty when nothing is known of its uncertainty
    std::string assumed_basis = {};  ///< where an uncertainty comes from that was not measured or given; else empty

    [[nodiscard]] bool has_uncertainty() const { return !budget.lines().empty(); }
};

/// Standard uncertainty of one measurement of a joint as testers usually differ.
///
/// Method: a change that two testers need to agree on in 95 % of cases is 1.96 sqrt(2) standard uncertainties of one.
/// \return nothing where no figure is known for the joint
[[nodiscard]] std::optional<Budget> usual_uncertainty(const JointMotion& motion);

/// Gives an extent of which no uncertainty is known the usual one of its joint, and says so; leaves it where none is
/// known.
void assume_usual_error(const JointMotion& motion, MeasuredExtent& measured);

/// A measured extent against one row.
struct Judgement {
    NormMatch norm;
    double difference_deg = std::numeric_limits<double>::quiet_NaN();  ///< measured less the row's value
    std::optional<NormBand> band;                                      ///< none without a known spread
    double limit_slack_deg = 0.0;  ///< how well the limits are known: what rounding allows a derived SD to be
    std::optional<NormStanding> standing;
    double inside_probability = std::numeric_limits<double>::quiet_NaN();  ///< of the true extent; needs band and u
    std::optional<LimitVerdict> verdict;                                   ///< none without a band
    bool is_other_mode = false;  ///< active measured and passive tabulated, or the other way round
};

/// Deviation from the row's value, place among its people, probability to lie in its band, and the verdict.
///
/// Method: the band is that of normal_band(), for people, never the confidence interval of a mean. decide() gives the
/// verdict, with the span of a derived SD times 1.96 as the slack of the limits. Without an uncertainty a guarded or
/// probability rule cannot tell. A row without spread gives the difference only.
/// \par Reference JCGM 106:2012; ISO 14253-1
[[nodiscard]] Judgement judge(const NormMatch& norm, const MeasuredExtent& measured, const DecisionRule& rule = {});

/// What a person's measured extent is held against.
struct JudgingOptions {
    DecisionRule rule = {};
    std::optional<MotionMode> against = {};  ///< mode of the rows; unset: as the extent was measured
    std::string source = {};                 ///< key of the one source to use; empty: any
};

/// A measured extent against every row that applies.
struct ExtentJudgement {
    MeasuredExtent measured;
    NormQuery query;
    std::vector<Judgement> judgements = {};  ///< the first one counts
    std::string no_verdict = {};             ///< why there is none, and what would give one, in sentences; else empty
    Findings findings = {};

    [[nodiscard]] std::optional<LimitVerdict> verdict() const {
        return judgements.empty() ? std::nullopt : judgements.front().verdict;
    }
};

/// Every row that applies, the one that fits best first.
///
/// Method: rows of the same motion, sex, age and mode (find_norms()). First comes a row with a spread, then one for the
/// person's sex before one for both, one that states age and mode before one that does not, one that was read before
/// one from memory, the larger group before the smaller.
/// \param query of the measured extent; `mode` as it was measured
/// \return findings: norm-missing, norm-single-number, norm-from-memory, norm-passive-measured-active,
///   norm-active-measured-passive, uncertainty-assumed, uncertainty-missing, value-suspect-radians
/// \throws Failure as find_norms()
[[nodiscard]] ExtentJudgement judge_extent(const NormTable& table, const NormQuery& query,
                                           const MeasuredExtent& measured, const JudgingOptions& options = {});

/// "134.2 to 155.0", or "-" without a band.
[[nodiscard]] std::string band_text(const Judgement& judgement);

/// The line that every judgement of a person carries.
[[nodiscard]] std::string_view caution_line();

}  // namespace jointrom
