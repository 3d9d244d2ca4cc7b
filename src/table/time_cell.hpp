#pragma once

/// \file
/// Times as loggers write them, and how a column of them becomes seconds.

#include <cmath>
#include <optional>
#include <string_view>

namespace jointrom {

enum class TimeFormat { minutes_seconds, hours_minutes_seconds, clock_12h, dated_clock, iso_8601 };

struct TimeCell {
    double seconds =
        0.0;  ///< minutes and hours as they stand; a clock from midnight; ISO 8601 in UTC if it has an offset
    TimeFormat format = TimeFormat::minutes_seconds;
    long day = 0;  ///< ISO 8601 only: days from 1970-01-01
};

/// Reads the whole cell as m:s, h:m:s, either with decimals (point or comma); h:m[:s] AM/PM; a date, blank or comma,
/// and h:m[:s]; or ISO 8601 (YYYY-MM-DD, 'T' or blank, h:m:s, then nothing, Z or an offset). Minutes beyond 59 are
/// allowed only in m:s, seconds from 60 on never.
[[nodiscard]] std::optional<TimeCell> read_time_cell(std::string_view cell);

[[nodiscard]] std::string_view name_of(TimeFormat format);

/// Turns the times of a column into seconds, in the order of the rows.
///
/// Method: m:s and h:m:s count as they stand; a clock with AM/PM or a date, ISO 8601, and h:m:s whose first stamp is
/// one hour or later count from the first stamp. A clock that falls by more than 12 h has passed midnight, and one day
/// is added from there on.
class TimeLine {
  public:
    [[nodiscard]] double seconds(TimeCell cell);
    /// The format of the first cell, if there was one.
    [[nodiscard]] std::optional<TimeFormat> format() const noexcept { return format_; }

  private:
    std::optional<TimeFormat> format_;
    double start_ = 0.0;
    long start_day_ = 0;
    long midnights_ = 0;
    double last_ = 0.0;
};

}  // namespace jointrom
