#include <jointrom/stats/intraclass_correlation.hpp>

#include "stats/distributions.hpp"

#include <cmath>
#include <limits>

namespace jointrom {
namespace {

constexpr double missing = std::numeric_limits<double>::quiet_NaN();
constexpr double smallest_dof = 0.5;  // below it the quantiles of F leave the range of numbers

struct FormText {
    std::string_view name;
    std::string_view mcgraw_wong;
    std::string_view description;
};

constexpr std::array<FormText, 6> form_texts{{
    {"ICC(1,1)", "ICC(1)", "one-way random, agreement, single"},
    {"ICC(2,1)", "ICC(A,1)", "two-way random, agreement, single"},
    {"ICC(3,1)", "ICC(C,1)", "two-way mixed, consistency, single"},
    {"ICC(1,k)", "ICC(k)", "one-way random, agreement, mean of k"},
    {"ICC(2,k)", "ICC(A,k)", "two-way random, agreement, mean of k"},
    {"ICC(3,k)", "ICC(C,k)", "two-way mixed, consistency, mean of k"},
}};

struct Sizes {
    double n;
    double k;
};

/// A share of the variance; missing where there is none to share, or where its estimate is negative.
double share(double difference, double total) {
    return total > 0.0 ? difference / total : missing;
}

/// Of the ratio F = between / error: where F lies, were it estimated anew, and the correlation that goes with it.
struct RatioInterval {
    double f_low;
    double f_high;

    [[nodiscard]] ConfidenceInterval single(double k) const {
        const auto correlation = [&](double f) { return std::isinf(f) ? 1.0 : (f - 1.0) / (f + k - 1.0); };
        return {correlation(f_low), correlation(f_high)};
    }
    [[nodiscard]] ConfidenceInterval average() const { return {1.0 - 1.0 / f_low, 1.0 - 1.0 / f_high}; }
};

RatioInterval ratio_interval(double f, double dof1, double dof2, double p) {
    return {f / fisher_quantile(p, dof1, dof2), f * fisher_quantile(p, dof2, dof1)};
}

/// Spearman and Brown: reliability of the mean of k scores from that of one.
double stepped_up(double reliability, double k) {
    return k * reliability / (1.0 + (k - 1.0) * reliability);
}

ConfidenceInterval agreement_interval(const TwoWayAnova& anova, Sizes size, double icc, double p) {
    if (anova.ms_error == 0.0 && anova.ms_columns == 0.0) {
        return {icc, icc};
    }
    const auto [n, k] = size;
    const double a = k * icc / (n * (1.0 - icc));
    const double b = 1.0 + k * icc * (n - 1.0) / (n * (1.0 - icc));
    const double column_part = a * anova.ms_columns;
    const double error_part = b * anova.ms_error;
    const double dof = (column_part + error_part) * (column_part + error_part) /
                       (column_part * column_part / (k - 1.0) + error_part * error_part / anova.error_dof());
    if (!(dof > smallest_dof)) {
        return {};
    }
    const double f1 = fisher_quantile(p, n - 1.0, dof);
    const double f2 = fisher_quantile(p, dof, n - 1.0);
    const double rest = k * anova.ms_columns + (k * n - k - n) * anova.ms_error;
    return {n * (anova.ms_rows - f1 * anova.ms_error) / (f1 * rest + n * anova.ms_rows),
            n * (f2 * anova.ms_rows - anova.ms_error) / (rest + n * f2 * anova.ms_rows)};
}

}  // namespace

std::string_view name_of(IccForm form) {
    return form_texts[static_cast<std::size_t>(form)].name;
}

std::string_view mcgraw_wong_name(IccForm form) {
    return form_texts[static_cast<std::size_t>(form)].mcgraw_wong;
}

std::string_view description_of(IccForm form) {
    return form_texts[static_cast<std::size_t>(form)].description;
}

std::array<IntraclassCorrelation, 6> intraclass_correlations(const TwoWayAnova& anova, double confidence) {
    const Sizes size{static_cast<double>(anova.rows), static_cast<double>(anova.columns)};
    const auto [n, k] = size;
    const double p = 1.0 - (1.0 - confidence) / 2.0;
    const double rows = anova.ms_rows;
    const double error = anova.ms_error;
    const double within = anova.ms_within;
    const double dof1 = n - 1.0;
    const auto ratio = [&](double divisor) { return rows == 0.0 && divisor == 0.0 ? missing : rows / divisor; };
    const double f_within = ratio(within);
    const double f_error = ratio(error);
    const double one = share(rows - within, rows + (k - 1.0) * within);
    const double two = share(rows - error, rows + (k - 1.0) * error + k * (anova.ms_columns - error) / n);
    const double three = share(rows - error, rows + (k - 1.0) * error);
    const RatioInterval around_one = ratio_interval(f_within, dof1, anova.within_dof(), p);
    const RatioInterval around_three = ratio_interval(f_error, dof1, anova.error_dof(), p);
    const ConfidenceInterval around_two = agreement_interval(anova, size, two, p);

    const auto tested = [&](IccForm form, double value, ConfidenceInterval ci, double f, double dof2) {
        return IntraclassCorrelation{
            form, value, std::isnan(value) ? ConfidenceInterval{} : ci, f, dof1, dof2, fisher_upper_p(f, dof1, dof2)};
    };
    using enum IccForm;
    return {tested(icc_1_1, one, around_one.single(k), f_within, anova.within_dof()),
            tested(icc_2_1, two, around_two, f_error, anova.error_dof()),
            tested(icc_3_1, three, around_three.single(k), f_error, anova.error_dof()),
            tested(icc_1_k, share(rows - within, rows), around_one.average(), f_within, anova.within_dof()),
            tested(icc_2_k, share(rows - error, rows + (anova.ms_columns - error) / n),
                   {stepped_up(around_two.low, k), stepped_up(around_two.high, k)}, f_error, anova.error_dof()),
            tested(icc_3_k, share(rows - error, rows), around_three.average(), f_error, anova.error_dof())};
}

}  // namespace jointrom
