#include "time_axis.hpp"

#include "even_grid.hpp"
#include "forward_time.hpp"
#include "time_unit.hpp"

#include <jointrom/core/failure.hpp>
#include <jointrom/core/number_text.hpp>
#include <jointrom/recording/column_name.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <functional>
#include <string>
#include <utility>

namespace jointrom {
namespace {

constexpr double missing = std::numeric_limits<double>::quiet_NaN();

std::vector<double> at_rows(const std::vector<double>& values, const std::vector<std::size_t>& rows) {
    std::vector<double> result;
    result.reserve(rows.size());
    for (const std::size_t row : rows) {
        result.push_back(values[row]);
    }
    return result;
}

/// The median of up to some ten thousand rises spread over all of them. \pre the last time lies above the first
double median_rise(const std::vector<double>& time) {
    constexpr std::size_t enough = 32768;
    const std::size_t stride = (time.size() - 1) / enough + 1;
    std::vector<double> rises;
    for (std::size_t i = stride; i < time.size(); i += stride) {
        if (time[i] > time[i - 1]) {
            rises.push_back(time[i] - time[i - 1]);
        }
    }
    if (rises.empty()) {
        const auto place = std::ranges::adjacent_find(time, std::ranges::less());
        return *(place + 1) - *place;
    }
    const auto middle = rises.begin() + static_cast<std::ptrdiff_t>(rises.size() / 2);
    std::ranges::nth_element(rises, middle);
    return *middle;
}

/// "lines 7, 92 and 3 more"
std::string lines_of(const Table& table, const std::vector<std::size_t>& rows) {
    constexpr std::size_t most = 3;
    std::string text = rows.size() == 1 ? "line " : "lines ";
    for (std::size_t k = 0; k < std::min(rows.size(), most); ++k) {
        text += (k == 0 ? "" : ", ") + std::to_string(table.line_of_row(rows[k]));
    }
    return rows.size() > most ? text + fmt::format(" and {} more", rows.size() - most) : text;
}

/// Builds the axis of one column, step by step; `time_` and `rows_` go together.
class AxisBuilder {
  public:
    AxisBuilder(Table& table, std::size_t column, Findings& findings)
        : table_(table), column_(column), name_(column_name(table, column)), findings_(findings),
          time_(std::move(table.columns[column].values)), all_rows_(time_.size()) {}

    TimeAxis build(const StatedClock& stated) {
        keep_forward_rows(stated.part);
        apply_unit(stated.rate);
        // Rows written twice are left out before anything is concluded from how often a time repeats.
        const bool doubled = repeats_are_doubled_rows() && leave_out_repeats();
        auto grid = fit_even_grid(time_, resolution_s_);
        if (!grid && !doubled && leave_out_repeats()) {
            grid = fit_even_grid(time_, resolution_s_);
        }
        TimeAxis axis = grid ? even_axis(*grid) : stamped_axis();
        axis.resolution_s = resolution_s_;
        return contradicts(axis, stated.rate) ? axis_at_rate(all_rows_, stated.rate) : axis;
    }

  private:
    void keep_forward_rows(std::optional<std::size_t> part);
    [[nodiscard]] TimeUnit assumed_unit(Hertz stated);
    void apply_unit(Hertz stated);
    [[nodiscard]] bool repeats_are_doubled_rows() const;
    bool leave_out_repeats();
    TimeAxis even_axis(const EvenGrid& grid);
    TimeAxis stamped_axis();
    bool contradicts(const TimeAxis& axis, Hertz stated);

    [[nodiscard]] Place place(std::size_t row) const {
        return {.file = {}, .line = table_.line_of_row(row), .column = table_.columns[column_].number};
    }
    [[nodiscard]] std::size_t row(std::size_t i) const { return rows_.empty() ? i : rows_[i]; }
    void keep(std::vector<std::size_t> rows) {
        time_ = at_rows(time_, rows);
        rows_ = rows_.empty() ? std::move(rows) : [&] {
            std::ranges::transform(rows, rows.begin(), [&](std::size_t i) { return rows_[i]; });
            return rows;
        }();
    }

    Table& table_;
    std::size_t column_;
    std::string name_;
    Findings& findings_;
    std::vector<double> time_;
    std::vector<std::size_t> rows_;  ///< row of each stamp; empty: stamp i is row i
    std::size_t all_rows_;
    double resolution_s_ = 0.0;
};

void AxisBuilder::keep_forward_rows(std::optional<std::size_t> part) {
    ForwardRows forward = forward_rows(time_, part);
    if (part && !forward.all && forward.rows.empty()) {
        throw Failure(FailureKind::usage, "no-such-trial",
                      fmt::format("trial {} was asked for, but the clock of the file starts {} time{}", *part,
                                  forward.restarts.size() + 1, forward.restarts.empty() ? "" : "s"),
                      fmt::format("Choose with --trial 1 to {}.", forward.restarts.size() + 1), place(0));
    }
    const std::size_t used = forward.all ? time_.size() : forward.rows.size();
    const bool rises =
        used >= 2 && time_[forward.all ? used - 1 : forward.rows.back()] > time_[forward.all ? 0 : forward.rows[0]];
    // A clock may start again or stumble some times, but what falls in every fiftieth row is none.
    const std::size_t falls = forward.restarts.size() + forward.strays.size();
    const bool falls_often = falls > 5 && 50 * falls > all_rows_;
    if (!rises || falls_often) {
        throw Failure(FailureKind::unreadable_data, "time-unusable",
                      fmt::format("the time column '{}' does not rise from row to row", name_),
                      "Name another with --time COLUMN, or leave it out by giving --rate-hz.", place(0));
    }
    if (!forward.restarts.empty()) {
        findings_.emplace_back("time-backwards",
                               fmt::format("'{}' starts again at {}; lines {} to {} were used ({} of {} rows)", name_,
                                           lines_of(table_, forward.restarts), table_.line_of_row(forward.rows.front()),
                                           table_.line_of_row(forward.rows.back()), used, all_rows_),
                               place(forward.restarts.front()));
    }
    if (!forward.strays.empty()) {
        findings_.emplace_back(
            "time-backwards",
            fmt::format("'{}' is out of order in {}, which were left out", name_, lines_of(table_, forward.strays)),
            place(forward.strays.front()));
    }
    if (forward.without_time > 0) {
        findings_.emplace_back("missing-samples", fmt::format("{} rows have no time in '{}' and were left out",
                                                              forward.without_time, name_));
    }
    if (!forward.all) {
        keep(std::move(forward.rows));
    }
}

TimeUnit AxisBuilder::assumed_unit(Hertz stated) {
    const double step = median_rise(time_);
    const AssumedTimeUnit assumed = plausible_time_unit(step, step * static_cast<double>(time_.size() - 1), stated);
    if ((!assumed.is_plain || assumed.unit.seconds != 1.0) && !stated.is_set()) {
        findings_.emplace_back("time-unit-assumed",
                               fmt::format("'{}' has no unit; {} were assumed, which gives {:.4g} Hz", name_,
                                           assumed.unit.name, 1.0 / (step * assumed.unit.seconds)));
    }
    return assumed.unit;
}

void AxisBuilder::apply_unit(Hertz stated) {
    const bool is_clock = table_.columns[column_].is_time;
    TimeUnit unit = *time_unit_named("s");
    if (!is_clock) {
        if (const auto named = time_unit_named(table_.description.units[column_])) {
            unit = *named;
        } else {
            unit = assumed_unit(stated);
        }
        table_.description.time_format = unit.name;
    }
    table_.description.time_heading = table_.description.headings[column_];
    resolution_s_ = decimal_resolution(time_) * unit.seconds;
    // Times on a calendar (seconds since 1970, days of a spreadsheet) mean nothing to a reader.
    constexpr double calendar_s = 1e8;
    const double origin = time_.front() * unit.seconds > calendar_s ? time_.front() : 0.0;
    if (origin == 0.0 && unit.seconds == 1.0) {
        return;
    }
    for (double& time : time_) {
        time = (time - origin) * unit.seconds;
    }
}

/// Whether every row with the time of the one before repeats all of its readings too: a logger that wrote rows twice,
/// and not a clock that ticks more slowly than rows follow each other.
bool AxisBuilder::repeats_are_doubled_rows() const {
    const auto same = [](double a, double b) { return a == b || (std::isnan(a) && std::isnan(b)); };
    bool any = false;
    for (std::size_t i = 1; i < time_.size(); ++i) {
        if (time_[i] != time_[i - 1]) {
            continue;
        }
        any = true;
        for (const TableColumn& column : table_.columns) {
            if (!column.values.empty() && !same(column.values[row(i)], column.values[row(i - 1)])) {
                return false;
            }
        }
    }
    return any;
}

bool AxisBuilder::leave_out_repeats() {
    std::vector<std::size_t> kept;
    std::size_t first_repeat = 0;
    for (std::size_t i = 0; i < time_.size(); ++i) {
        if (kept.empty() || time_[i] > time_[kept.back()]) {
            kept.push_back(i);
        } else if (first_repeat == 0) {
            first_repeat = i;
        }
    }
    if (kept.size() == time_.size()) {
        return false;
    }
    findings_.emplace_back("time-repeated",
                           fmt::format("{} rows repeat the time before them, the first in line {}; they were left out",
                                       time_.size() - kept.size(), table_.line_of_row(row(first_repeat))),
                           place(row(first_repeat)));
    keep(std::move(kept));
    return true;
}

TimeAxis AxisBuilder::even_axis(const EvenGrid& grid) {
    const std::size_t rows = time_.size();
    if (std::ranges::adjacent_find(time_) != time_.end()) {
        findings_.emplace_back("time-repeated",
                               fmt::format("'{}' ticks more slowly than rows follow each other; {} rows were spread "
                                           "evenly at {} Hz",
                                           name_, rows, shortest_text(grid.rate_hz)));
    }
    TimeAxis axis;
    axis.times = TimeBase::regular(Seconds(grid.start_s), Hertz(grid.rate_hz), grid.count);
    if (grid.count == rows) {
        axis.row_of = std::move(rows_);
        return axis;
    }
    axis.row_of.assign(grid.count, TimeAxis::no_row);
    std::size_t longest = 0;
    std::size_t longest_at = 0;
    std::size_t places = 0;
    for (std::size_t i = 0; i < rows; ++i) {
        axis.row_of[grid.place[i]] = row(i);
        const std::size_t gap = i == 0 ? 0 : grid.place[i] - grid.place[i - 1] - 1;
        places += gap > 0 ? 1U : 0U;
        if (gap > longest) {
            longest = gap;
            longest_at = i;
        }
    }
    findings_.emplace_back(
        "missing-samples",
        fmt::format("{} rows are missing by the clock in {} place{}, the longest {:.3g} s before {:.3f} s",
                    grid.count - rows, places, places == 1 ? "" : "s", static_cast<double>(longest) / grid.rate_hz,
                    time_[longest_at]),
        place(row(longest_at)));
    return axis;
}

TimeAxis AxisBuilder::stamped_axis() {
    TimeAxis axis;
    axis.row_of = std::move(rows_);
    axis.times = TimeBase::stamped(std::move(time_));
    return axis;
}

/// A stated rate that the stamps do not bear out.
bool AxisBuilder::contradicts(const TimeAxis& axis, Hertz stated) {
    constexpr double allowed = 0.02;
    if (!stated.is_set() || std::abs(axis.times.rate() / stated - 1.0) <= allowed) {
        return false;
    }
    findings_.emplace_back("rate-assumed",
                           fmt::format("the stated {} Hz was used for every row, although '{}' says {:.4g} Hz",
                                       shortest_text(stated.value()), name_, axis.times.rate().value()));
    return true;
}

}  // namespace

std::vector<double> TimeAxis::samples(std::vector<double> values) const {
    if (row_of.empty()) {
        return values;
    }
    std::vector<double> result;
    result.reserve(row_of.size());
    for (const std::size_t row : row_of) {
        result.push_back(row == no_row ? missing : values[row]);
    }
    return result;
}

TimeAxis axis_of_time_column(Table& table, std::size_t column, const StatedClock& stated, Findings& findings) {
    return AxisBuilder(table, column, findings).build(stated);
}

TimeAxis axis_at_rate(std::size_t rows, Hertz rate) {
    TimeAxis axis;
    axis.times = TimeBase::regular(Seconds(0.0), rate, rows);
    return axis;
}

}  // namespace jointrom
