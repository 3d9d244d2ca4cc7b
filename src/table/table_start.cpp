#include <table/table_start.hpp>

#include <algorithm>
#include <string_view>

namespace jointrom {
namespace {

enum class Fit { no, damaged, yes };

/// How a row fits the run: a wrong cell or two are allowed, except in the first column of numbers, where text means
/// that the row is damaged or something else.
Fit fit_of(const HeadRows& head, const HeadRow& row, const Run& run, std::span<const CellKind> kinds) {
    if (row.numbers == 0 || (row.width != run.width && row.width != run.widest)) {
        return Fit::no;
    }
    const auto cells = head.kinds(row);
    std::size_t wrong = 0;
    bool first = true;
    for (std::size_t c = 0; c < std::min(cells.size(), kinds.size()); ++c) {
        if (kinds[c] == CellKind::text) {
            continue;
        }
        const bool is_text = cells[c] == CellKind::text;
        if (first && is_text) {
            return Fit::damaged;
        }
        first = false;
        wrong += is_text ? 1U : 0U;
    }
    return wrong <= row.numbers ? Fit::yes : Fit::no;
}

}  // namespace

std::vector<CellKind> column_kinds(const HeadRows& head, const Run& run) {
    struct Tally {
        std::size_t numbers = 0;
        std::size_t times = 0;
        std::size_t texts = 0;
    };
    std::vector<Tally> tallies(run.widest);
    for (std::size_t i = run.first; i < run.last; ++i) {
        const auto kinds = head.kinds(head.rows()[i]);
        for (std::size_t c = 0; c < std::min(kinds.size(), tallies.size()); ++c) {
            tallies[c].numbers += kinds[c] == CellKind::number ? 1U : 0U;
            tallies[c].times += kinds[c] == CellKind::time ? 1U : 0U;
            tallies[c].texts += kinds[c] == CellKind::text ? 1U : 0U;
        }
    }
    std::vector<CellKind> kinds;
    for (const Tally& tally : tallies) {
        const bool text = tally.texts > tally.numbers + tally.times;
        const CellKind value = tally.numbers > 0 ? CellKind::number : CellKind::blank;
        kinds.push_back(text ? CellKind::text : tally.times > 0 ? CellKind::time : value);
    }
    return kinds;
}

Run first_run(const DialectGuess& guess) {
    constexpr std::size_t least_rows = 5;
    for (const Run& run : find_runs(guess.head)) {
        if (run.first >= guess.run->first) {
            break;
        }
        if (run.rows >= least_rows && run.texts == 0 && run.width > 1 && run.width != guess.run->width) {
            return run;
        }
    }
    return *guess.run;
}

std::size_t first_data_row(const HeadRows& head, const Run& run, std::span<const CellKind> kinds) {
    const std::vector<HeadRow>& rows = head.rows();
    const std::size_t needed = std::min<std::size_t>(5, run.rows);
    std::size_t begin = run.first;
    std::size_t count = 0;
    for (std::size_t i = 0; i < run.first && count < needed; ++i) {
        if (rows[i].is_blank()) {
            continue;
        }
        // A shorter row may follow, but not begin.
        const bool continues = count > 0 && rows[i].texts == 0 && rows[i].numbers > 0;
        if (!continues && fit_of(head, rows[i], run, kinds) != Fit::yes) {
            count = 0;
        } else if (count++ == 0) {
            begin = i;
        }
    }
    begin = count >= needed ? begin : run.first;
    while (begin < run.last && fit_of(head, rows[begin], run, kinds) != Fit::yes) {
        ++begin;
    }
    for (std::size_t i = begin; i > 0; --i) {
        const Fit fit = fit_of(head, rows[i - 1], run, kinds);
        if (fit == Fit::no) {
            break;
        }
        begin = fit == Fit::yes ? i - 1 : begin;
    }
    return begin;
}

bool is_comma_twice(const DialectGuess& guess, const Run& run, std::size_t columns, std::size_t names) {
    if (guess.stated || guess.delimiter != ',' || guess.decimal_mark != '.' || run.has_mark || run.texts > 0) {
        return false;
    }
    if (names > 0) {
        return names < columns && (names * 2 == columns || run.is_ragged);
    }
    bool leading_zero = false;
    RowCells row;
    for (std::size_t i = run.first; i < run.last; ++i) {
        split_row(guess.head.rows()[i].text, guess.delimiter, row);
        for (std::size_t c = 1; c < row.cells.size(); c += 2) {
            const std::string_view text = row.cells[c];
            if (text.empty() || text.front() == '-' || text.front() == '+') {
                return false;
            }
            leading_zero = leading_zero || (text.size() > 1 && text.front() == '0');
        }
    }
    return columns % 2 == 0 && leading_zero;
}

}  // namespace jointrom
