#include <jointrom/batch/agreement_tables.hpp>

#include "batch/value_cells.hpp"

#include <jointrom/core/failure.hpp>
#include <jointrom/stats/error_of_measurement.hpp>
#include <jointrom/stats/intraclass_correlation.hpp>
#include <jointrom/stats/limits_of_agreement.hpp>

#include <fmt/format.h>

namespace jointrom {
namespace {

constexpr std::size_t most_compared_each_with_each = 5;

std::string words_for(const RepeatedScores& scores) {
    return scores.group.empty() ? scores.quantity
                                : fmt::format("{} of {}", scores.quantity, fmt::join(scores.group, ", "));
}

/// Fills the tables, group by group.
class TableMaker {
  public:
    TableMaker(std::span<const std::string> by, double confidence)
        : confidence_(confidence),
          tables_{{"icc",
                   by,
                   {"quantity", "form", "model", "subjects", "repeats", "icc", "ci_low", "ci_high", "f", "dof1", "dof2",
                    "p"}},
                  {"errors",
                   by,
                   {"quantity", "measurement", "mean", "sem", "sem_low", "sem_high", "degrees_of_freedom", "mdc95",
                    "percent_of_mean_pct"}},
                  {"differences",
                   by,
                   {"quantity", "scale", "first", "second", "count", "bias", "bias_low", "bias_high", "sd",
                    "lower_limit", "lower_limit_low", "lower_limit_high", "upper_limit", "upper_limit_low",
                    "upper_limit_high", "trend_slope", "trend_p", "spread_slope", "spread_p"}},
                  {"devices", by, {"quantity", "device", "mean", "sem", "sem_low", "sem_high", "mdc95", "reliability"}},
                  {"reliability", by, {"quantity", "between", "subjects", "repeats", "reliability", "sem", "mdc95"}},
                  {}} {}

    void add(const RepeatedScores& scores) {
        if (scores.scores.rows() < 2 || scores.scores.columns < 2) {
            tables_.findings.emplace_back("group-without-agreement",
                                          fmt::format("{}: {} subject(s) with all of {} measurement(s)",
                                                      words_for(scores), scores.scores.rows(), scores.scores.columns));
            return;
        }
        ++analysed_;
        note_gaps(scores);
        check_signs(scores, tables_.findings);
        const TwoWayAnova anova = two_way_anova(scores.scores);
        add_correlations(scores, anova);
        add_errors(scores, anova);
        add_differences(scores);
        add_devices(scores);
    }

    AgreementTables tables(std::span<const RepeatedScores> groups) {
        if (analysed_ == 0) {
            refuse(groups);
        }
        return std::move(tables_);
    }

  private:
    static void refuse(std::span<const RepeatedScores> groups) {
        std::size_t columns = 0;
        std::size_t subjects = 0;
        std::size_t incomplete = 0;
        for (const RepeatedScores& scores : groups) {
            columns = std::max(columns, scores.columns.size());
            subjects = std::max(subjects, scores.scores.rows());
            incomplete += scores.left_out;
        }
        if (columns < 2) {
            throw Failure(FailureKind::unreadable_data, "too-few-repeats",
                          "every subject was measured once; agreement needs two measurements or more",
                          "Name the column that tells measurements apart with --repeat, or group by less with --by.");
        }
        throw Failure(FailureKind::unreadable_data, "too-few-subjects",
                      fmt::format("{} subject(s) in a group have all {} measurements; at least two are needed",
                                  subjects, columns) +
                          (incomplete > 0 ? fmt::format(" ({} lack some)", incomplete) : ""),
                      "Group by less with --by, leave a repeat out, or measure more subjects.");
    }

    void note_gaps(const RepeatedScores& scores) {
        if (scores.left_out > 0) {
            tables_.findings.emplace_back("subjects-incomplete",
                                          fmt::format("{}: {} of {} subjects lack a measurement and are left out",
                                                      words_for(scores), scores.left_out,
                                                      scores.left_out + scores.scores.rows()));
        }
        if (scores.repeats_left_out > 0) {
            tables_.findings.emplace_back(
                "subjects-incomplete",
                fmt::format("{}: {} subjects lack a repeat with some device and are left out of the model of devices",
                            words_for(scores), scores.repeats_left_out));
        }
        if (scores.averaged > 0) {
            tables_.findings.emplace_back(
                "cells-averaged",
                fmt::format("{}: {} measurements are means of several values", words_for(scores), scores.averaged));
        }
    }

    void add_correlations(const RepeatedScores& scores, const TwoWayAnova& anova) {
        const auto correlations = intraclass_correlations(anova, confidence_);
        const bool varies = anova.ms_rows > 0.0 || anova.ms_within > 0.0;
        if (!varies) {
            tables_.findings.emplace_back(
                "no-variance", fmt::format("{}: every measurement is {:.6g}", words_for(scores), anova.grand_mean));
        }
        for (const IntraclassCorrelation& icc : correlations) {
            if (varies && std::isnan(icc.value)) {
                tables_.findings.emplace_back("correlation-unavailable",
                                              fmt::format("{}: {}", words_for(scores), name_of(icc.form)));
            }
            std::vector<Cell> row = group_cells(scores.group);
            append_cells(row,
                         {scores.quantity, std::string(name_of(icc.form)), std::string(description_of(icc.form)),
                          count_cell(anova.rows), count_cell(anova.columns), icc.value, icc.ci.low, icc.ci.high,
                          std::isfinite(icc.f) ? Cell(icc.f) : Cell(), icc.dof1, icc.dof2, probability_cell(icc.p)});
            tables_.correlations.add_row(std::move(row));
        }
    }

    void add_errors(const RepeatedScores& scores, const TwoWayAnova& anova) {
        const int decimals = decimals_for(scores.scores.values) + 1;
        const auto add = [&](const char* which, const ErrorOfMeasurement& error) {
            const auto cell = [&](double value) { return FixedNumber{value, decimals}; };
            std::vector<Cell> row = group_cells(scores.group);
            append_cells(row, {scores.quantity, std::string(which), cell(anova.grand_mean), cell(error.sem),
                               cell(error.ci.low), cell(error.ci.high), error.dof, cell(error.mdc95),
                               error.percent_of_mean});
            tables_.errors.add_row(std::move(row));
        };
        add("within subjects", error_within_subjects(anova, confidence_));
        add("agreement", error_of_agreement(anova, confidence_));
        add("consistency", error_of_consistency(anova, confidence_));
    }

    void add_differences(const RepeatedScores& scores) {
        const std::size_t columns = scores.scores.columns;
        for (std::size_t first = 0; first < columns; ++first) {
            const std::size_t last = columns <= most_compared_each_with_each ? columns : std::min(first + 2, columns);
            for (std::size_t second = first + 1; second < last; ++second) {
                add_difference(scores, first, second);
            }
        }
    }

    void add_difference(const RepeatedScores& scores, std::size_t first, std::size_t second) {
        const std::vector<double> a = scores.scores.column(first);
        const std::vector<double> b = scores.scores.column(second);
        const auto add = [&](const char* scale, const LimitsOfAgreement& limits, int decimals) {
            const auto cell = [&](double value) { return FixedNumber{value, decimals}; };
            std::vector<Cell> row = group_cells(scores.group);
            append_cells(
                row, {scores.quantity, std::string(scale), scores.columns[first], scores.columns[second],
                      count_cell(limits.count), cell(limits.bias), cell(limits.bias_ci.low), cell(limits.bias_ci.high),
                      cell(limits.sd), cell(limits.lower), cell(limits.lower_ci.low), cell(limits.lower_ci.high),
                      cell(limits.upper), cell(limits.upper_ci.low), cell(limits.upper_ci.high), limits.trend.slope,
                      probability_cell(limits.trend.p), limits.spread.slope, probability_cell(limits.spread.p)});
            tables_.differences.add_row(std::move(row));
        };
        const AgreementOptions options{.confidence = confidence_};
        add("difference", limits_of_agreement(a, b, options), decimals_for(scores.scores.values) + 1);
        if (const LimitsOfAgreement ratio = ratio_limits_of_agreement(a, b, options); ratio.count > 0) {
            add("ratio", ratio, 4);
        }
    }

    void add_devices(const RepeatedScores& scores) {
        if (scores.replicated.repeats < 2 || scores.replicated.devices < 2 || scores.replicated.subjects() < 2) {
            return;
        }
        const Repeatability model = repeatability(scores.replicated, confidence_);
        const int decimals = decimals_for(scores.scores.values) + 1;
        const auto cell = [&](double value) { return FixedNumber{value, decimals}; };
        for (std::size_t device = 0; device < model.devices; ++device) {
            const DeviceRepeatability& own = model.by_device[device];
            std::vector<Cell> row = group_cells(scores.group);
            append_cells(row, {scores.quantity, scores.columns[device], cell(own.mean), cell(own.sem),
                               cell(own.sem_ci.low), cell(own.sem_ci.high), cell(own.mdc95), own.intra});
            tables_.devices.add_row(std::move(row));
        }
        const auto add = [&](const char* between, double reliability, double sem) {
            std::vector<Cell> row = group_cells(scores.group);
            append_cells(row,
                         {scores.quantity, std::string(between), count_cell(model.subjects), count_cell(model.repeats),
                          reliability, cell(sem), cell(minimal_detectable_change(sem))});
            tables_.reliability.add_row(std::move(row));
        };
        add("one device throughout", model.intra_random, model.sem_intra);
        add("one of these devices throughout", model.intra_fixed, model.sem_intra);
        add("any devices", model.inter_random, model.sem_inter_random);
        add("these devices", model.inter_fixed, model.sem_inter_fixed);
    }

    double confidence_;
    AgreementTables tables_;
    std::size_t analysed_ = 0;
};

}  // namespace

AgreementTables agreement_tables(std::span<const RepeatedScores> groups, std::span<const std::string> by,
                                 double confidence) {
    TableMaker maker(by, confidence);
    for (const RepeatedScores& scores : groups) {
        maker.add(scores);
    }
    return maker.tables(groups);
}

}  // namespace jointrom
