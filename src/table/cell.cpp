#include <table/cell.hpp>

#include <table/time_cell.hpp>

#include <fast_float/fast_float.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <span>

namespace jointrom {
namespace {

using namespace std::string_view_literals;

constexpr std::array missing_words = {
    "nan"sv,  "na"sv,       "n/a"sv,       "#n/a"sv,     "#nv"sv,       "null"sv,      "none"sv,    "missing"sv,
    "-"sv,    "--"sv,       "---"sv,       "."sv,        "?"sv,         "*"sv,         "inf"sv,     "+inf"sv,
    "-inf"sv, "1.#inf"sv,   "-1.#inf"sv,   "infinity"sv, "+infinity"sv, "-infinity"sv, "1.#qnan"sv, "-1.#ind"sv,
    "-nan"sv, "nan(ind)"sv, "-nan(ind)"sv, "#num!"sv,    "#div/0!"sv,   "#value!"sv,   "∞"sv,       "-∞"sv};
constexpr std::size_t longest_missing_word = 10;
constexpr std::size_t longest_number = 400;

bool is_digit(char c) {
    return c >= '0' && c <= '9';
}

char lower(char c) {
    return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
}

std::size_t count_digits(std::string_view text, std::size_t from) {
    std::size_t i = from;
    while (i < text.size() && is_digit(text[i])) {
        ++i;
    }
    return i - from;
}

/// A grouping mark at `i` and its length in bytes; no-break blanks count as blanks.
std::size_t grouping_mark_at(std::string_view text, std::size_t i, char decimal_mark, char& mark) {
    const std::string_view rest = text.substr(i);
    const char other = decimal_mark == '.' ? ',' : '.';
    if (rest.starts_with(other) || rest.starts_with('\'') || rest.starts_with(' ')) {
        mark = rest.front();
        return 1;
    }
    for (const std::string_view blank : {"\xC2\xA0"sv, "\xE2\x80\xAF"sv, "\xE2\x80\x89"sv}) {
        if (rest.starts_with(blank)) {
            mark = ' ';
            return blank.size();
        }
    }
    if (rest.starts_with("\xE2\x80\x99")) {
        mark = '\'';
        return 3;
    }
    if (rest.starts_with('\xA0')) {  // no-break space of Windows-1252
        mark = ' ';
        return 1;
    }
    return 0;
}

struct Digits {
    std::array<char, longest_number> text;
    std::size_t size = 0;

    void add(std::string_view part) {
        std::ranges::copy(part, text.begin() + static_cast<std::ptrdiff_t>(size));
        size += part.size();
    }
};

std::optional<double> value_of(std::string_view text, char decimal_mark) {
    double value = 0.0;
    const char* const end = text.data() + text.size();
    const auto [stop, status] = fast_float::from_chars_advanced(
        text.data(), end, value, fast_float::parse_options(fast_float::chars_format::general, decimal_mark));
    if (status != std::errc() || stop != end || !std::isfinite(value)) {
        return std::nullopt;
    }
    return value;
}

MarkEvidence proof_of(char decimal_mark) {
    return decimal_mark == '.' ? MarkEvidence::point : MarkEvidence::comma;
}

/// What "1.234" shape tells: three decimals behind one to three digits that do not begin with 0.
MarkEvidence evidence_of(std::string_view body, std::size_t whole, char decimal_mark) {
    if (whole >= body.size() || body[whole] != decimal_mark) {
        return MarkEvidence::none;
    }
    const bool could_group = whole >= 1 && whole <= 3 && body.front() != '0' && body.size() == whole + 4;
    return could_group ? MarkEvidence::either : proof_of(decimal_mark);
}

/// A number with marks between its thousands; `body` has no sign.
std::optional<CellNumber> read_grouped(std::string_view body, std::size_t first, char decimal_mark, bool negative) {
    if (first < 1 || first > 3 || body.front() == '0') {
        return std::nullopt;
    }
    CellNumber result;
    Digits digits;
    digits.add(body.substr(0, first));
    std::size_t i = first;
    std::size_t groups = 0;
    while (i < body.size() && body[i] != decimal_mark) {
        char mark = 0;
        const std::size_t length = grouping_mark_at(body, i, decimal_mark, mark);
        if (length == 0 || (groups > 0 && mark != result.grouping_mark) || count_digits(body, i + length) != 3) {
            return std::nullopt;
        }
        result.grouping_mark = mark;
        digits.add(body.substr(i + length, 3));
        i += length + 3;
        ++groups;
    }
    const bool has_decimals = i < body.size();
    digits.add(body.substr(i));
    const std::optional<double> value = value_of({digits.text.data(), digits.size}, decimal_mark);
    if (!value || count_digits(body, i + 1) + (has_decimals ? 1U : 0U) != body.size() - i) {
        return std::nullopt;
    }
    result.value = negative ? -*value : *value;
    const bool other_mark = result.grouping_mark == '.' || result.grouping_mark == ',';
    if (has_decimals || (other_mark && groups > 1)) {
        result.evidence = proof_of(decimal_mark);
    } else if (other_mark) {
        result.evidence = MarkEvidence::either;
    }
    return result;
}

}  // namespace

bool is_missing_word(std::string_view cell) {
    if (cell.empty()) {
        return true;
    }
    if (cell.size() > longest_missing_word || is_digit(cell.back())) {
        return false;
    }
    std::array<char, longest_missing_word> word{};
    std::ranges::transform(cell, word.begin(), lower);
    return std::ranges::find(missing_words, std::string_view(word.data(), cell.size())) != missing_words.end();
}

std::optional<CellNumber> read_number_cell(std::string_view cell, char decimal_mark) {
    if (cell.empty() || cell.size() >= longest_number) {
        return std::nullopt;
    }
    std::string_view body = cell;
    bool negative = false;
    if (body.starts_with("\xE2\x88\x92")) {  // the typographic minus sign
        negative = true;
        body.remove_prefix(3);
    } else if (body.front() == '-' || body.front() == '+') {
        negative = body.front() == '-';
        body.remove_prefix(1);
    }
    if (body.empty() || !(is_digit(body.front()) || body.front() == decimal_mark)) {
        return std::nullopt;
    }
    const std::size_t whole = count_digits(body, 0);
    char mark = 0;
    if (whole < body.size() && grouping_mark_at(body, whole, decimal_mark, mark) > 0) {
        return read_grouped(body, whole, decimal_mark, negative);
    }
    const std::optional<double> value = value_of(body, decimal_mark);
    if (!value) {
        return std::nullopt;
    }
    return CellNumber{negative ? -*value : *value, evidence_of(body, whole, decimal_mark)};
}

CellKind kind_of_cell(std::string_view cell, char decimal_mark) {
    if (is_missing_word(cell)) {
        return CellKind::blank;
    }
    if (read_number_cell(cell, decimal_mark)) {
        return CellKind::number;
    }
    return read_time_cell(cell) ? CellKind::time : CellKind::text;
}

}  // namespace jointrom
