#include <table/time_cell.hpp>

#include <fast_float/fast_float.h>

#include <algorithm>
#include <array>
#include <cstddef>

namespace jointrom {
namespace {

constexpr double day_s = 86400.0;

bool is_digit(char c) {
    return c >= '0' && c <= '9';
}

/// A front end on the text that is left; each take_ removes what it read.
struct Scanner {
    std::string_view rest;

    bool take(char c) {
        if (!rest.starts_with(c)) {
            return false;
        }
        rest.remove_prefix(1);
        return true;
    }

    void skip_blanks() {
        while (rest.starts_with(' ')) {
            rest.remove_prefix(1);
        }
    }

    /// Between one and `most` digits.
    std::optional<int> take_integer(std::size_t most) {
        int value = 0;
        std::size_t count = 0;
        while (count < rest.size() && count < most && is_digit(rest[count])) {
            value = value * 10 + (rest[count++] - '0');
        }
        rest.remove_prefix(count);
        return count > 0 ? std::optional(value) : std::nullopt;
    }

    /// Digits behind a decimal mark, as a fraction; 0 when there is no mark.
    std::optional<double> take_fraction() {
        if (rest.empty() || (rest.front() != '.' && rest.front() != ',')) {
            return 0.0;
        }
        const char mark = rest.front();
        std::size_t size = 1;
        while (size < rest.size() && is_digit(rest[size])) {
            ++size;
        }
        double value = 0.0;
        const auto [stop, status] = fast_float::from_chars_advanced(
            rest.data(), rest.data() + size, value, fast_float::parse_options(fast_float::chars_format::fixed, mark));
        if (size == 1 || status != std::errc() || stop != rest.data() + size) {
            return std::nullopt;
        }
        rest.remove_prefix(size);
        return value;
    }
};

struct ClockText {
    std::array<int, 3> parts{};
    int count = 0;
    double fraction = 0.0;

    /// Seconds with the last part of two taken as seconds (m:s) or as minutes (h:m).
    [[nodiscard]] double seconds(bool two_are_hours) const {
        if (count == 3) {
            return parts[0] * 3600.0 + parts[1] * 60.0 + parts[2] + fraction;
        }
        return two_are_hours ? parts[0] * 3600.0 + parts[1] * 60.0 : parts[0] * 60.0 + parts[1] + fraction;
    }
};

std::optional<ClockText> take_clock(Scanner& scanner) {
    ClockText clock;
    while (clock.count < 3) {
        const std::optional<int> part = scanner.take_integer(clock.count == 0 ? 5 : 2);
        if (!part || (clock.count > 0 && *part > 59)) {
            return std::nullopt;
        }
        clock.parts[static_cast<std::size_t>(clock.count++)] = *part;
        if (clock.count < 3 && !scanner.take(':')) {
            break;
        }
    }
    if (clock.count < 2) {
        return std::nullopt;
    }
    const std::optional<double> fraction = scanner.take_fraction();
    if (!fraction) {
        return std::nullopt;
    }
    clock.fraction = *fraction;
    return clock;
}

/// Hours that an AM or PM adds to the clock before it; nothing if there is no such word.
std::optional<int> take_half_day(Scanner& scanner, int hour) {
    scanner.skip_blanks();
    if (scanner.rest.size() < 2 || hour < 1 || hour > 12) {
        return std::nullopt;
    }
    const char half = static_cast<char>(scanner.rest[0] | 0x20);
    std::string_view behind = scanner.rest.substr(1);
    if (behind.starts_with('.')) {
        behind.remove_prefix(1);
    }
    if ((half != 'a' && half != 'p') || behind.empty() || (behind.front() | 0x20) != 'm') {
        return std::nullopt;
    }
    behind.remove_prefix(1);
    if (behind.starts_with('.')) {
        behind.remove_prefix(1);
    }
    scanner.rest = behind;
    return (half == 'p' ? 12 : 0) - (hour == 12 ? 12 : 0);
}

/// Days from 1970-01-01 in the Gregorian calendar: whole 400-year eras, then the day in a year that begins in March.
long days_from_epoch(int year, int month, int day) {
    const long shifted = month <= 2 ? year - 1L : year;
    const long era = shifted / 400;
    const long year_of_era = shifted - era * 400;
    const long day_of_year = (153L * (month > 2 ? month - 3 : month + 9) + 2) / 5 + day - 1;
    return era * 146097 + year_of_era * 365 + year_of_era / 4 - year_of_era / 100 + day_of_year - 719468;
}

/// Z, +hh:mm or +hhmm, in seconds; 0 when there is none.
std::optional<double> take_offset(Scanner& scanner) {
    if (scanner.rest.empty() || scanner.take('Z') || scanner.take('z')) {
        return 0.0;
    }
    const bool west = scanner.rest.front() == '-';
    if (!scanner.take('+') && !scanner.take('-')) {
        return std::nullopt;
    }
    const std::optional<int> hours = scanner.take_integer(2);
    scanner.take(':');
    const std::optional<int> minutes = scanner.rest.empty() ? 0 : scanner.take_integer(2);
    if (!hours || !minutes) {
        return std::nullopt;
    }
    return (west ? -1.0 : 1.0) * (*hours * 3600.0 + *minutes * 60.0);
}

/// A date of three numbers and the clock behind it.
std::optional<TimeCell> read_dated(std::string_view cell) {
    Scanner scanner{cell};
    std::array<int, 3> date{};
    char mark = 0;
    for (std::size_t i = 0; i < 3; ++i) {
        const std::optional<int> part = scanner.take_integer(4);
        if (!part) {
            return std::nullopt;
        }
        date[i] = *part;
        if (i < 2) {
            const char here = scanner.rest.empty() ? '\0' : scanner.rest.front();
            if ((here != '-' && here != '/' && here != '.') || (i == 1 && here != mark)) {
                return std::nullopt;
            }
            mark = here;
            scanner.rest.remove_prefix(1);
        }
    }
    if (!scanner.take('T') && !scanner.take(' ') && !scanner.take(',') && !scanner.take('_')) {
        return std::nullopt;
    }
    scanner.skip_blanks();
    const std::optional<ClockText> clock = take_clock(scanner);
    if (!clock || clock->parts[0] > 24) {
        return std::nullopt;
    }
    const double time = clock->seconds(true);
    if (mark == '-' && date[0] > 999) {
        if (date[1] < 1 || date[1] > 12 || date[2] < 1 || date[2] > 31) {
            return std::nullopt;
        }
        const std::optional<double> offset = take_offset(scanner);
        if (!offset || !scanner.rest.empty()) {
            return std::nullopt;
        }
        return TimeCell{time - *offset, TimeFormat::iso_8601, days_from_epoch(date[0], date[1], date[2])};
    }
    const int half_day = take_half_day(scanner, clock->parts[0]).value_or(0);
    if (!scanner.rest.empty()) {
        return std::nullopt;
    }
    return TimeCell{time + half_day * 3600.0, TimeFormat::dated_clock};
}

}  // namespace

std::optional<TimeCell> read_time_cell(std::string_view cell) {
    if (cell.size() < 4 || !is_digit(cell.front()) || cell.find(':') == std::string_view::npos) {
        return std::nullopt;
    }
    Scanner scanner{cell};
    const std::optional<ClockText> clock = take_clock(scanner);
    if (!clock) {
        return read_dated(cell);
    }
    if (scanner.rest.empty()) {
        return TimeCell{clock->seconds(false),
                        clock->count == 2 ? TimeFormat::minutes_seconds : TimeFormat::hours_minutes_seconds};
    }
    const std::optional<int> half_day = take_half_day(scanner, clock->parts[0]);
    if (!half_day || !scanner.rest.empty()) {
        return std::nullopt;
    }
    return TimeCell{clock->seconds(true) + *half_day * 3600.0, TimeFormat::clock_12h};
}

std::string_view name_of(TimeFormat format) {
    switch (format) {
    case TimeFormat::minutes_seconds:
        return "minutes:seconds";
    case TimeFormat::hours_minutes_seconds:
        return "hours:minutes:seconds";
    case TimeFormat::clock_12h:
    case TimeFormat::dated_clock:
        return "clock";
    case TimeFormat::iso_8601:
        break;
    }
    return "ISO 8601";
}

double TimeLine::seconds(TimeCell cell) {
    constexpr double hour_s = 3600.0;
    if (!format_) {
        format_ = cell.format;
        const bool as_it_stands = cell.format == TimeFormat::minutes_seconds ||
                                  (cell.format == TimeFormat::hours_minutes_seconds && cell.seconds < hour_s);
        start_ = as_it_stands ? 0.0 : cell.seconds;
        start_day_ = cell.day;
        last_ = cell.seconds;
    }
    const bool is_clock = cell.format != TimeFormat::iso_8601 && cell.format != TimeFormat::minutes_seconds;
    if (is_clock && cell.seconds < last_ - day_s / 2) {
        ++midnights_;
    }
    last_ = cell.seconds;
    return static_cast<double>(cell.day - start_day_ + midnights_) * day_s + (cell.seconds - start_);
}

}  // namespace jointrom
