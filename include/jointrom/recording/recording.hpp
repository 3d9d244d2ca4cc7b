#pragma once

/// \file
/// A recording: named channels, each with its own time base, as they stand in the file and before any of them is
/// understood as a joint angle.

#include <jointrom/core/finding.hpp>
#include <jointrom/core/sample_span.hpp>
#include <jointrom/core/units.hpp>
#include <jointrom/table/table_description.hpp>

#include <cstddef>
#include <string>
#include <vector>

namespace jointrom {

/// When the samples of a channel were taken: at a fixed rate, or at stamped times.
class TimeBase {
  public:
    TimeBase() = default;
    [[nodiscard]] static TimeBase regular(Seconds start, Hertz rate, std::size_t count);
    /// \param time_s strictly increasing times in seconds; at least two
    [[nodiscard]] static TimeBase stamped(std::vector<double> time_s);

    [[nodiscard]] bool is_regular() const noexcept { return time_s_.empty(); }
    [[nodiscard]] std::size_t count() const noexcept { return count_; }
    /// Nominal rate: the rate itself, or one over the median interval between stamps.
    [[nodiscard]] Hertz rate() const noexcept { return rate_; }
    /// Time of sample i, in seconds on the recording's clock. \pre i < count()
    [[nodiscard]] double time_s(std::size_t i) const;
    /// Samples with window.start <= t <= window.end.
    [[nodiscard]] SampleSpan span(TimeWindow window) const;

  private:
    Seconds start_;
    Hertz rate_;
    std::size_t count_ = 0;
    std::vector<double> time_s_;
};

enum class ChannelRole { angle, emg, other };

struct Channel {
    std::string name;        ///< heading without its unit; "column 3" where there is none
    std::string unit;        ///< as understood from the heading or units row, e.g. "deg", "mV"; empty when unknown
    std::size_t column = 0;  ///< number of the column in the file, counted from 1
    ChannelRole role = ChannelRole::other;
    TimeBase times;
    std::vector<double> samples;  ///< in `unit`; missing = NaN; times.count() long
};

struct Recording {
    std::string source;  ///< file name as given, or "-" for standard input
    TableDescription table;
    std::vector<Channel> channels;  ///< numeric columns except time, in file order
    Findings findings;
};

}  // namespace jointrom
