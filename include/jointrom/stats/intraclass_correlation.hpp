#pragma once

/// \file
/// Intraclass correlation: the share of the variance that is between subjects. Six forms are in use, and they answer
/// different questions; a result names its form.

#include <jointrom/stats/confidence_interval.hpp>
#include <jointrom/stats/two_way_anova.hpp>

#include <array>
#include <string_view>

namespace jointrom {

/// Shrout and Fleiss' forms. The first number is the model, the second says whether a single score or the mean of all k
/// is meant.
enum class IccForm {
    icc_1_1,  ///< each subject has raters of its own; one score
    icc_2_1,  ///< the same raters for all, drawn from many; agreement of one score
    icc_3_1,  ///< these raters and no others; consistency of one score
    icc_1_k,
    icc_2_k,
    icc_3_k
};

/// "ICC(2,1)", as Shrout and Fleiss have it.
[[nodiscard]] std::string_view name_of(IccForm form);
/// "ICC(A,1)", as McGraw and Wong have it.
[[nodiscard]] std::string_view mcgraw_wong_name(IccForm form);
/// "two-way random, agreement, single"
[[nodiscard]] std::string_view description_of(IccForm form);

struct IntraclassCorrelation {
    IccForm form;
    double value;  ///< at most 1; may be negative; missing when the estimated variance is not positive
    ConfidenceInterval ci;
    double f;  ///< test of no correlation, with its degrees of freedom and probability
    double dof1;
    double dof2;
    double p;
};

/// All six forms with their confidence intervals, in the order of IccForm.
///
/// Method: mean squares of the two-way table. The interval of ICC(2,1) has Satterthwaite's degrees of freedom; those of
/// the averages follow from the single scores' (Spearman and Brown). Without residual the correlation is 1, exactly.
/// \par Accuracy 1e-12 of R psych 2.2.9
/// \par Reference P. E. Shrout and J. L. Fleiss 1979, Psychol Bull 86:420; K. O. McGraw and S. P. Wong 1996, Psychol
///                Methods 1:30
[[nodiscard]] std::array<IntraclassCorrelation, 6> intraclass_correlations(const TwoWayAnova& anova,
                                                                           double confidence = 0.95);

}  // namespace jointrom
