#include <jointrom/batch/level_comparison.hpp>

#include "batch/row_groups.hpp"

#include <jointrom/core/failure.hpp>
#include <jointrom/core/near_miss.hpp>
#include <jointrom/stats/subject_means.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <optional>

namespace jointrom {
namespace {

constexpr double missing = std::numeric_limits<double>::quiet_NaN();

/// One participant under both levels.
struct Pair {
    SubjectMean first;
    SubjectMean second;

    [[nodiscard]] double difference() const { return second.mean - first.mean; }
    /// 1/m1 + 1/m2
    [[nodiscard]] double error_share() const { return 1.0 / first.count + 1.0 / second.count; }
};

/// Participants who are in both lists, which are sorted by participant.
std::vector<Pair> pairs_of(const std::vector<SubjectMean>& first, const std::vector<SubjectMean>& second) {
    std::vector<Pair> pairs;
    auto other = second.begin();
    for (const SubjectMean& subject : first) {
        while (other != second.end() && other->subject < subject.subject) {
            ++other;
        }
        if (other != second.end() && other->subject == subject.subject) {
            pairs.push_back({subject, *other});
        }
    }
    return pairs;
}

template <typename Row, typename Number>
Description described(const std::vector<Row>& rows, Number number) {
    std::vector<double> values(rows.size());
    std::ranges::transform(rows, values.begin(), number);
    return describe(values);
}

std::uint32_t code_of_level(const TextColumn& column, const std::string& level) {
    const auto found = std::ranges::find(column.texts, level);
    if (found == column.texts.end()) {
        const std::vector<std::string_view> known(column.texts.begin(), column.texts.end());
        const auto near = nearest(level, known);
        throw Failure(
            FailureKind::usage, "no-such-level",
            fmt::format("'{}' does not occur in column {} ({})", level, column.name, fmt::join(column.texts, ", ")),
            near ? fmt::format("Is '{}' meant?", *near) : "Name two of these.");
    }
    return static_cast<std::uint32_t>(found - column.texts.begin());
}

class Comparer {
  public:
    Comparer(const LongTable& table, const ComparisonOptions& options)
        : table_(table), options_(options), levels_(*table.find_text(options.column)),
          first_(code_of_level(levels_, options.first)), second_(code_of_level(levels_, options.second)) {
        for (const std::string& name : options.by) {
            if (name != options.column) {
                by_.push_back(table.find_text(name));
            }
        }
        if (std::isnan(options.known_change)) {
            std::vector<const TextColumn*> alike;
            for (const TextColumn& column : table.texts) {
                alike.push_back(&column);
            }
            same_ = row_numbers(alike, table.rows);
            same_means_.emplace(same_.count);
        }
        if (const TextColumn* const participants = table.find_text(options.participant)) {
            participants_ = participants->codes;
            means_.emplace(participants->texts.size());
        }
    }

    Comparisons comparisons() {
        const RowGroups groups = row_groups(by_, table_.rows);
        for (std::size_t group = 0; group < groups.size(); ++group) {
            if (!groups.rows_of(group).empty()) {
                for (const NumberColumn& column : table_.numbers) {
                    compare(groups.rows_of(group), groups.texts_of(group), column);
                }
            }
        }
        add_findings();
        return std::move(result_);
    }

  private:
    struct Level {
        std::vector<double> values;
        std::vector<std::uint32_t> rows;
        std::vector<SubjectMean> means;  ///< of participants
        Description described;           ///< of the means, or of the values where nobody is known
    };

    Level level_of(std::span<const std::uint32_t> rows, std::uint32_t code, const NumberColumn& column) {
        Level level;
        for (const std::uint32_t row : rows) {
            if (levels_.codes[row] == code && !std::isnan(column.values[row])) {
                level.rows.push_back(row);
                level.values.push_back(column.values[row]);
            }
        }
        if (means_) {
            level.means = means_->of(level.values, numbers_of(level.rows, participants_)).means;
            level.described = described(level.means, [](const SubjectMean& subject) { return subject.mean; });
        } else {
            level.described = describe(level.values);
        }
        return level;
    }

    static std::vector<std::uint32_t> numbers_of(const std::vector<std::uint32_t>& rows,
                                                 const std::vector<std::uint32_t>& of_row) {
        std::vector<std::uint32_t> numbers(rows.size());
        std::ranges::transform(rows, numbers.begin(), [&](std::uint32_t row) { return of_row[row]; });
        return numbers;
    }

    /// Variance of one value about the mean of those that are alike in everything, or nothing.
    double within_variance(const Level& first, const Level& second) {
        double squares = 0.0;
        std::size_t dof = 0;
        for (const Level* const level : {&first, &second}) {
            const SubjectMeanList list = same_means_->of(level->values, numbers_of(level->rows, same_.of_row));
            squares += list.within_squares;
            dof += list.within_dof;
        }
        return dof == 0 ? missing : squares / static_cast<double>(dof);
    }

    void compare(std::span<const std::uint32_t> rows, const std::vector<std::string>& texts,
                 const NumberColumn& column) {
        const Level first = level_of(rows, first_, column);
        const Level second = level_of(rows, second_, column);
        if (first.described.count == 0 && second.described.count == 0) {
            return;
        }
        if (means_) {
            add_paired(first, second, texts, column.name);
        }
        if (options_.with_independent) {
            result_.rows.push_back({texts, column.name, Design::independent, first.described, second.described,
                                    welch_t_test(first.described, second.described, options_.confidence),
                                    effect_size(first.described, second.described, options_.confidence), missing});
        }
    }

    void add_paired(const Level& first, const Level& second, const std::vector<std::string>& texts,
                    const std::string& quantity) {
        const std::vector<Pair> pairs = pairs_of(first.means, second.means);
        unpaired_ += first.means.size() + second.means.size() - 2 * pairs.size();
        const Description differences = described(pairs, [](const Pair& pair) { return pair.difference(); });
        Comparison row{texts,
                       quantity,
                       Design::paired,
                       described(pairs, [](const Pair& pair) { return pair.first.mean; }),
                       described(pairs, [](const Pair& pair) { return pair.second.mean; }),
                       paired_t_test(differences, options_.confidence),
                       paired_effect_size(differences, options_.confidence),
                       options_.known_change};
        const bool estimates = std::isnan(options_.known_change);
        const double variance = estimates ? within_variance(first, second) : missing;
        const auto limit = [&](double share) {
            return estimates ? 1.96 * std::sqrt(variance * share) : options_.known_change;
        };
        row.detectable_change = limit(described(pairs, [](const Pair& pair) { return pair.error_share(); }).mean);
        without_yardstick_ += std::isnan(row.detectable_change) ? 1U : 0U;
        row.changed = static_cast<std::size_t>(std::ranges::count_if(
            pairs, [&](const Pair& pair) { return std::abs(pair.difference()) > limit(pair.error_share()); }));
        result_.rows.push_back(std::move(row));
    }

    void add_findings() {
        if (!means_) {
            result_.findings.emplace_back("pairs-unknown", "nothing says whose a value is, so nothing was paired");
        }
        if (unpaired_ > 0) {
            result_.findings.emplace_back(
                "pairs-incomplete", fmt::format("{} means of participants have no partner: only '{}' or only '{}'",
                                                unpaired_, options_.first, options_.second));
        }
        if (without_yardstick_ > 0) {
            result_.findings.emplace_back("change-limit-unknown",
                                          "no participant was measured twice under the same conditions, so nothing "
                                          "tells which change is more than error of measurement");
        }
    }

    const LongTable& table_;
    const ComparisonOptions& options_;
    const TextColumn& levels_;
    std::uint32_t first_;
    std::uint32_t second_;
    std::vector<const TextColumn*> by_;
    RowNumbers same_;  ///< the same number: alike in all texts that were read
    std::optional<SubjectMeans> same_means_;
    std::vector<std::uint32_t> participants_;  ///< by row
    std::optional<SubjectMeans> means_;        ///< nothing when nobody is known
    std::size_t unpaired_ = 0;
    std::size_t without_yardstick_ = 0;
    Comparisons result_;
};

}  // namespace

Comparisons compare_levels(const LongTable& table, const ComparisonOptions& options) {
    return Comparer(table, options).comparisons();
}

}  // namespace jointrom
