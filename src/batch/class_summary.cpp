#include <jointrom/batch/class_summary.hpp>

#include "batch/row_groups.hpp"

#include <jointrom/core/natural_order.hpp>
#include <jointrom/stats/quantile.hpp>
#include <jointrom/stats/robust.hpp>
#include <jointrom/stats/sign_mix.hpp>
#include <jointrom/stats/subject_means.hpp>
#include <jointrom/stats/t_test.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <optional>
#include <tuple>

namespace jointrom {
namespace {

std::string group_name(const std::vector<std::string>& group) {
    return group.empty() ? std::string("all rows") : fmt::format("{}", fmt::join(group, ", "));
}

/// Works through the groups with buffers that are used again.
class Summariser {
  public:
    Summariser(const LongTable& table, const SummaryOptions& options)
        : table_(table), options_(options), participants_(table.find_text(options.participant)) {
        for (const std::string& name : options.by) {
            by_.push_back(table.find_text(name));
        }
        if (participants_ != nullptr) {
            means_.emplace(participants_->texts.size());
        }
    }

    ClassSummary summary() {
        const RowGroups groups = row_groups(by_, table_.rows);
        for (std::size_t group = 0; group < groups.size(); ++group) {
            if (!groups.rows_of(group).empty()) {
                for (const NumberColumn& column : table_.numbers) {
                    add_group(groups.rows_of(group), groups.texts_of(group), column);
                }
            }
        }
        note_repeated_participants();
        warn_of_mixed("joint");
        warn_of_mixed("motion");
        return std::move(result_);
    }

  private:
    void add_group(std::span<const std::uint32_t> rows, std::vector<std::string> texts, const NumberColumn& column) {
        values_.clear();
        for (const std::uint32_t row : rows) {
            values_.push_back(column.values[row]);
        }
        GroupSummary summary{.group = std::move(texts), .quantity = column.name, .values = describe(values_)};
        add_interval(rows, summary);
        if (summary.values.count > 0 && summary.values.min < 0.0 && summary.values.max > 0.0) {
            warn_of_signs(summary);
        }
        const std::vector<double> quartiles = quantiles_in_place(values_, std::array{0.25, 0.5, 0.75});
        summary.lower_quartile = quartiles[0];
        summary.median = quartiles[1];
        summary.upper_quartile = quartiles[2];
        add_outliers(rows, column, summary);
        result_.groups.push_back(std::move(summary));
    }

    /// \pre values_ are in the order of `rows`
    void add_interval(std::span<const std::uint32_t> rows, GroupSummary& summary) {
        if (participants_ == nullptr) {
            summary.mean_ci = mean_interval(summary.values, options_.confidence);
            return;
        }
        subjects_.clear();
        for (const std::uint32_t row : rows) {
            subjects_.push_back(participants_->codes[row]);
        }
        const SubjectMeanList list = means_->of(values_, subjects_);
        summary.participants = list.means.size();
        if (list.within_dof == 0) {
            summary.mean_ci = mean_interval(summary.values, options_.confidence);
            return;
        }
        ++repeated_groups_;
        std::vector<double> means;
        for (const SubjectMean& subject : list.means) {
            means.push_back(subject.mean);
        }
        summary.mean_ci = mean_interval(describe(means), options_.confidence);
    }

    void add_outliers(std::span<const std::uint32_t> rows, const NumberColumn& column, GroupSummary& summary) {
        const double divisor = modified_z_divisor(values_, summary.median);
        const double reach = options_.outlier_limit * divisor;
        if (divisor == 0.0 ||
            (summary.values.max <= summary.median + reach && summary.values.min >= summary.median - reach)) {
            return;
        }
        const std::size_t first = result_.outliers.size();
        for (const std::uint32_t row : rows) {
            const double score = (column.values[row] - summary.median) / divisor;
            if (std::abs(score) > options_.outlier_limit) {
                result_.outliers.push_back({summary.group, column.name, std::string(table_.id(row)),
                                            participants_ == nullptr ? std::string() : participants_->text(row),
                                            column.values[row], summary.median, score});
            }
        }
        summary.outliers = result_.outliers.size() - first;
        std::sort(result_.outliers.begin() + static_cast<std::ptrdiff_t>(first), result_.outliers.end(),
                  [](const OutlyingValue& a, const OutlyingValue& b) {
                      if (a.id != b.id) {
                          return natural_less(a.id, b.id);
                      }
                      return a.participant != b.participant ? natural_less(a.participant, b.participant)
                                                            : a.value < b.value;
                  });
    }

    void warn_of_signs(const GroupSummary& summary) {
        const SignMix mix = sign_mix(values_);
        if (mix.is_mixed()) {
            result_.findings.emplace_back(
                "signs-mixed", fmt::format("{} of {}: {} values are negative and {} positive, in two heaps; their mean "
                                           "and SD describe neither",
                                           summary.quantity, group_name(summary.group), mix.negative, mix.positive));
        }
    }

    void note_repeated_participants() {
        if (repeated_groups_ > 0) {
            result_.findings.emplace_back("interval-over-participants",
                                          "participants have several values in a group; the interval of a mean is that "
                                          "of the participants' means");
        }
    }

    void warn_of_mixed(const char* name) {
        const TextColumn* const column = table_.find_text(name);
        if (column != nullptr && column->named() > 1 && std::ranges::find(by_, column) == by_.end()) {
            result_.findings.emplace_back(
                "joints-mixed",
                fmt::format("different values of '{}' ({}) are taken together", name, fmt::join(column->texts, ", ")));
        }
    }

    const LongTable& table_;
    const SummaryOptions& options_;
    const TextColumn* participants_;
    std::vector<const TextColumn*> by_;
    std::optional<SubjectMeans> means_;
    std::vector<double> values_;
    std::vector<std::uint32_t> subjects_;
    std::size_t repeated_groups_ = 0;
    ClassSummary result_;
};

}  // namespace

ClassSummary class_summary(const LongTable& table, const SummaryOptions& options) {
    return Summariser(table, options).summary();
}

}  // namespace jointrom
