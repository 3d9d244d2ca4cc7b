#pragma once

/// \file
/// How well measurements are repeated, as tables of the column catalogue.

#include <jointrom/batch/repeated_scores.hpp>
#include <jointrom/report/result_table.hpp>

#include <span>
#include <string>
#include <vector>

namespace jointrom {

struct AgreementTables {
    ResultTable correlations;  ///< icc: the six intraclass correlations
    ResultTable errors;        ///< errors: standard errors of measurement
    ResultTable differences;   ///< differences: Bland and Altman's limits, each pair of repeats
    ResultTable devices;       ///< devices: each device's own error
    ResultTable reliability;   ///< reliability: within and between devices
    Findings findings;
};

/// Analyses every group.
///
/// Method: stats/intraclass_correlation.hpp, error_of_measurement.hpp, limits_of_agreement.hpp, repeatability.hpp. Up
/// to five repeats are compared each with each, more with the one before. Ratios are compared too where all values are
/// positive.
/// \param by names of the columns that it was grouped by
/// \throws Failure "too-few-subjects", "too-few-repeats" when no group allows any analysis
[[nodiscard]] AgreementTables agreement_tables(std::span<const RepeatedScores> groups, std::span<const std::string> by,
                                               double confidence = 0.95);

}  // namespace jointrom
