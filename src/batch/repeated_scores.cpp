#include <jointrom/batch/repeated_scores.hpp>

#include "batch/row_groups.hpp"

#include <jointrom/stats/descriptive.hpp>
#include <jointrom/stats/intraclass_correlation.hpp>
#include <jointrom/stats/sign_mix.hpp>
#include <jointrom/stats/subject_means.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <limits>

namespace jointrom {
namespace {

constexpr double missing = std::numeric_limits<double>::quiet_NaN();

/// Values of every subject (rows) in every cell (columns); the mean where there are several, missing where there is
/// none.
struct CellTable {
    std::vector<std::uint32_t> subjects;  ///< codes
    std::size_t cells = 0;
    std::vector<double> values;
    std::size_t averaged = 0;
    SignMix signs;  ///< of all values

    [[nodiscard]] std::span<const double> row(std::size_t subject) const {
        return std::span(values).subspan(subject * cells, cells);
    }
};

/// Codes of a column that occur in some rows, in order.
std::vector<std::uint32_t> codes_in(std::span<const std::uint32_t> rows, const TextColumn& column) {
    std::vector<bool> seen(column.texts.size(), false);
    for (const std::uint32_t row : rows) {
        seen[column.codes[row]] = true;
    }
    std::vector<std::uint32_t> codes;
    for (std::uint32_t code = 0; code < seen.size(); ++code) {
        if (seen[code] && !column.texts[code].empty()) {
            codes.push_back(code);
        }
    }
    return codes;
}

/// Place of each code among `codes`; codes.size() for those that are not there.
std::vector<std::uint32_t> places_of(const std::vector<std::uint32_t>& codes, std::size_t size) {
    std::vector<std::uint32_t> places(size, static_cast<std::uint32_t>(codes.size()));
    for (std::uint32_t place = 0; place < codes.size(); ++place) {
        places[codes[place]] = place;
    }
    return places;
}

bool is_complete(std::span<const double> row) {
    return std::ranges::none_of(row, [](double value) { return std::isnan(value); });
}

/// The texts of several columns as those of one.
TextColumn joined_column(const LongTable& table, const std::vector<std::string>& names) {
    std::vector<const TextColumn*> columns;
    for (const std::string& name : names) {
        columns.push_back(table.find_text(name));
    }
    RowNumbers numbers = row_numbers(columns, table.rows);
    TextColumn joined{fmt::format("{}", fmt::join(names, ", ")), std::move(numbers.of_row), {}};
    joined.texts.resize(numbers.count);
    for (std::size_t row = 0; row < table.rows; ++row) {
        std::string& text = joined.texts[joined.codes[row]];
        if (text.empty()) {
            for (const TextColumn* const column : columns) {
                text += (text.empty() ? "" : " ") + column->text(row);
            }
        }
    }
    return joined;
}

class ScoreMaker {
  public:
    ScoreMaker(const LongTable& table, const RepeatedOptions& options)
        : table_(table), subjects_(joined_column(table, options.subject)), repeats_(*table.find_text(options.repeat)),
          devices_(options.device.empty() ? nullptr : table.find_text(options.device)) {
        for (const std::string& name : options.by) {
            by_.push_back(table.find_text(name));
        }
    }

    std::vector<RepeatedScores> scores() {
        std::vector<RepeatedScores> result;
        const RowGroups groups = row_groups(by_, table_.rows);
        for (std::size_t group = 0; group < groups.size(); ++group) {
            if (!groups.rows_of(group).empty()) {
                for (const NumberColumn& column : table_.numbers) {
                    result.push_back(scores_of(groups.rows_of(group), column));
                    result.back().group = groups.texts_of(group);
                }
            }
        }
        return result;
    }

  private:
    CellTable cells_of(std::span<const std::uint32_t> rows, const NumberColumn& column,
                       const std::vector<std::uint32_t>& repeats, const std::vector<std::uint32_t>& devices) {
        CellTable table;
        table.subjects = codes_in(rows, subjects_);
        const std::size_t across = std::max<std::size_t>(1, devices.size());
        table.cells = across * repeats.size();
        const auto subject_places = places_of(table.subjects, subjects_.texts.size());
        const auto repeat_places = places_of(repeats, repeats_.texts.size());
        const auto device_places =
            devices_ == nullptr ? std::vector<std::uint32_t>() : places_of(devices, devices_->texts.size());
        std::vector<double> values;
        std::vector<std::uint32_t> cells;
        for (const std::uint32_t row : rows) {
            const std::size_t subject = subject_places[subjects_.codes[row]];
            const std::size_t repeat = repeat_places[repeats_.codes[row]];
            const std::size_t device = devices_ == nullptr ? 0 : device_places[devices_->codes[row]];
            if (subject < table.subjects.size() && repeat < repeats.size() && device < across) {
                values.push_back(column.values[row]);
                cells.push_back(static_cast<std::uint32_t>((subject * across + device) * repeats.size() + repeat));
            }
        }
        table.signs = sign_mix(values);
        table.values.assign(table.subjects.size() * table.cells, missing);
        for (const SubjectMean& cell : SubjectMeans(table.values.size()).of(values, cells).means) {
            table.values[cell.subject] = cell.mean;
            table.averaged += cell.count > 1 ? 1U : 0U;
        }
        return table;
    }

    RepeatedScores scores_of(std::span<const std::uint32_t> rows, const NumberColumn& column) {
        const std::vector<std::uint32_t> repeats = codes_in(rows, repeats_);
        const std::vector<std::uint32_t> devices =
            devices_ == nullptr ? std::vector<std::uint32_t>() : codes_in(rows, *devices_);
        const CellTable cells = cells_of(rows, column, repeats, devices);
        RepeatedScores result;
        result.quantity = column.name;
        result.averaged = cells.averaged;
        result.averaged_signs = cells.averaged > 0 ? cells.signs : SignMix();
        const bool by_device = devices_ != nullptr;
        for (const std::uint32_t code : by_device ? devices : repeats) {
            result.columns.push_back((by_device ? *devices_ : repeats_).texts[code]);
        }
        result.scores.columns = result.columns.size();
        result.replicated = {.devices = devices.size(), .repeats = by_device ? repeats.size() : 0, .values = {}};
        for (std::size_t subject = 0; subject < cells.subjects.size(); ++subject) {
            add_subject(subjects_.texts[cells.subjects[subject]], cells.row(subject), result);
        }
        return result;
    }

    /// \param values by device, then by repeat
    void add_subject(const std::string& name, std::span<const double> values, RepeatedScores& result) const {
        std::vector<double> scores(values.begin(), values.end());
        if (devices_ != nullptr) {
            const std::size_t repeats = result.replicated.repeats;
            scores.clear();
            for (std::size_t device = 0; device < result.replicated.devices; ++device) {
                scores.push_back(describe(values.subspan(device * repeats, repeats)).mean);
            }
            if (is_complete(values)) {
                result.replicated.values.insert(result.replicated.values.end(), values.begin(), values.end());
            } else {
                ++result.repeats_left_out;
            }
        }
        if (is_complete(scores)) {
            result.scores.add_row(scores);
            result.subjects.push_back(name);
        } else {
            ++result.left_out;
        }
    }

    const LongTable& table_;
    TextColumn subjects_;
    const TextColumn& repeats_;
    const TextColumn* devices_;
    std::vector<const TextColumn*> by_;
};

const NumberColumn& number_column(const LongTable& table, const std::string& name) {
    return *std::ranges::find(table.numbers, name, &NumberColumn::name);
}

/// Subjects' means of the scores' own sizes, to compare the correlation with.
double agreement_of_sizes(ScoreTable scores) {
    for (double& score : scores.values) {
        score = std::abs(score);
    }
    return intraclass_correlations(two_way_anova(scores))[1].value;
}

}  // namespace

std::vector<RepeatedScores> repeated_scores(const LongTable& table, const RepeatedOptions& options) {
    return ScoreMaker(table, options).scores();
}

RepeatedScores wide_scores(const LongTable& table, const std::vector<WideColumns>& devices,
                           const std::string& subject) {
    const bool several = devices.size() > 1;
    const TextColumn* const names = table.find_text(subject);
    RepeatedScores result;
    result.quantity = several ? "mean of repeats" : "value";
    result.replicated.devices = several ? devices.size() : 0;
    result.replicated.repeats = several ? devices.front().columns.size() : 0;
    for (const WideColumns& device : devices) {
        if (several) {
            result.columns.push_back(device.name);
        } else {
            result.columns = device.columns;
        }
    }
    result.scores.columns = result.columns.size();
    for (std::size_t row = 0; row < table.rows; ++row) {
        std::vector<double> scores;
        std::vector<double> all;
        for (const WideColumns& device : devices) {
            std::vector<double> repeats;
            for (const std::string& column : device.columns) {
                repeats.push_back(number_column(table, column).values[row]);
            }
            all.insert(all.end(), repeats.begin(), repeats.end());
            scores.push_back(describe(repeats).mean);
        }
        scores = several ? scores : all;
        if (several && is_complete(all)) {
            result.replicated.values.insert(result.replicated.values.end(), all.begin(), all.end());
        } else if (several) {
            ++result.repeats_left_out;
        }
        if (is_complete(scores)) {
            result.scores.add_row(scores);
            result.subjects.push_back(names == nullptr ? fmt::format("{}", row + 1) : names->text(row));
        } else {
            ++result.left_out;
        }
    }
    return result;
}

void check_signs(const RepeatedScores& scores, Findings& findings) {
    const ScoreTable& table = scores.scores;
    if (scores.averaged_signs.is_mixed()) {
        findings.emplace_back("signs-mixed",
                              fmt::format("{}: {} values are negative and {} positive, in two heaps, and values of one "
                                          "subject were averaged",
                                          scores.quantity, scores.averaged_signs.negative,
                                          scores.averaged_signs.positive));
        return;
    }
    std::vector<double> subject_means;
    for (std::size_t row = 0; row < table.rows(); ++row) {
        subject_means.push_back(describe(std::span(table.values).subspan(row * table.columns, table.columns)).mean);
    }
    const SignMix subjects = sign_mix(subject_means);
    if (subjects.is_mixed()) {
        findings.emplace_back(
            "signs-mixed",
            fmt::format("{}: {} subjects are negative and {} positive, in two heaps, which inflates every correlation; "
                        "of sizes alone ICC(2,1) is {:.3f}",
                        scores.quantity, subjects.negative, subjects.positive, agreement_of_sizes(table)));
        return;
    }
    for (std::size_t column = 1; column < table.columns; ++column) {
        const Description first = describe(table.column(0));
        const Description other = describe(table.column(column));
        if (first.mean * other.mean < 0.0 && std::abs(first.mean) > 2.0 * first.sd &&
            std::abs(other.mean) > 2.0 * other.sd) {
            findings.emplace_back("signs-mixed",
                                  fmt::format("{}: '{}' and '{}' have opposite signs (means {:.4g} and {:.4g})",
                                              scores.quantity, scores.columns[0], scores.columns[column], first.mean,
                                              other.mean));
        }
    }
}

}  // namespace jointrom
