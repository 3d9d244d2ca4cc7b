#include "forward_time.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

namespace jointrom {
namespace {

constexpr std::size_t most_strays = 3;

/// Collects rows into parts in which time does not fall.
class Parts {
  public:
    Parts(std::span<const double> time, std::optional<std::size_t> wanted) : time_(time), wanted_(wanted) {}

    void add(std::size_t row) {
        if (size() == 0 || time_[row] >= time_[rows_.back()]) {
            rows_.push_back(row);
        } else if (goes_on_behind(row)) {
            strays_.push_back(row);
        } else if (const std::size_t ahead = strays_ahead_of(row); ahead > 0) {
            strays_.insert(strays_.end(), rows_.end() - static_cast<std::ptrdiff_t>(ahead), rows_.end());
            rows_.resize(rows_.size() - ahead);
            rows_.push_back(row);
        } else {
            restarts_.push_back(row);
            close();
            rows_.push_back(row);
        }
    }

    [[nodiscard]] ForwardRows chosen() {
        close();
        ForwardRows result;
        result.all = best_.size() == time_.size();
        result.rows = result.all ? std::vector<std::size_t>{} : std::move(best_);
        result.strays = std::move(strays_);
        result.restarts = std::move(restarts_);
        return result;
    }

  private:
    [[nodiscard]] std::size_t size() const { return rows_.size(); }

    /// Whether one of the next rows takes up the time where it was before `row`.
    [[nodiscard]] bool goes_on_behind(std::size_t row) const {
        const std::size_t end = std::min(time_.size(), row + 1 + most_strays);
        for (std::size_t i = row + 1; i < end; ++i) {
            if (time_[i] >= time_[rows_.back()]) {
                return true;
            }
        }
        return false;
    }

    /// How many of the last rows were ahead of time, if `row` goes on from those before them; else 0.
    [[nodiscard]] std::size_t strays_ahead_of(std::size_t row) const {
        for (std::size_t count = 1; count <= most_strays && count < size(); ++count) {
            if (time_[rows_[size() - 1 - count]] <= time_[row]) {
                return count;
            }
        }
        return 0;
    }

    void close() {
        ++parts_;
        if (wanted_ ? parts_ == *wanted_ : rows_.size() > best_.size()) {
            best_ = std::move(rows_);
        }
        rows_.clear();
    }

    std::span<const double> time_;
    std::optional<std::size_t> wanted_;
    std::size_t parts_ = 0;
    std::vector<std::size_t> rows_;
    std::vector<std::size_t> best_;
    std::vector<std::size_t> strays_;
    std::vector<std::size_t> restarts_;
};

}  // namespace

ForwardRows forward_rows(std::span<const double> time, std::optional<std::size_t> part) {
    // is_sorted_until alone would let NaN pass, since it is neither less nor greater.
    bool all = true;
    for (std::size_t i = 0; i < time.size() && all; ++i) {
        all = !std::isnan(time[i]) && (i == 0 || time[i] >= time[i - 1]);
    }
    if (all && part.value_or(1) == 1) {
        return {};
    }
    Parts parts(time, part);
    std::size_t without_time = 0;
    std::size_t waiting = 0;
    for (std::size_t i = 0; i < time.size(); ++i) {
        if (std::isnan(time[i])) {
            ++waiting;
            continue;
        }
        without_time += std::exchange(waiting, 0);
        parts.add(i);
    }
    ForwardRows result = parts.chosen();
    result.without_time = without_time;
    return result;
}

}  // namespace jointrom
