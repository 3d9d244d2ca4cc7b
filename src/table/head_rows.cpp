#include <table/head_rows.hpp>

#include <table/time_cell.hpp>

#include <algorithm>
#include <map>

namespace jointrom {
namespace {

/// What a run knows of its columns so far.
using ColumnKinds = std::vector<CellKind>;

bool is_text(CellKind kind) {
    return kind == CellKind::text;
}

/// Whether a row continues a run; if so, what it tells of columns that were blank so far is kept.
bool joins(std::span<const CellKind> kinds, ColumnKinds& columns) {
    const std::size_t common = std::min(kinds.size(), columns.size());
    for (std::size_t i = 0; i < common; ++i) {
        if (kinds[i] != CellKind::blank && columns[i] != CellKind::blank && is_text(kinds[i]) != is_text(columns[i])) {
            return false;
        }
    }
    columns.resize(std::max(kinds.size(), columns.size()), CellKind::blank);
    for (std::size_t i = 0; i < kinds.size(); ++i) {
        if (kinds[i] != CellKind::blank) {
            columns[i] = kinds[i];
        }
    }
    return true;
}

void rate(Run& run, const HeadRows& head) {
    std::map<std::size_t, std::size_t> widths;
    double points = 0.0;
    std::size_t cells = 0;
    for (std::size_t i = run.first; i < run.last; ++i) {
        const HeadRow& row = head.rows()[i];
        if (row.is_blank()) {
            continue;
        }
        ++run.rows;
        ++widths[row.width];
        run.numbers += row.numbers;
        run.texts += row.texts;
        cells += row.width;
        run.has_mark = run.has_mark || row.has_mark;
        run.proves_mark = run.proves_mark || row.proves_mark;
        const auto numbers = static_cast<double>(row.numbers);
        points += std::max(numbers - 3.0 * static_cast<double>(row.texts), 0.05 * numbers);
    }
    const auto modal = std::ranges::max_element(widths, {}, [](const auto& entry) { return entry.second; });
    run.width = modal->first;
    run.widest = run.width;
    for (const auto& [width, count] : widths) {
        if (count * 10 >= run.rows) {
            run.widest = std::max(run.widest, width);
        }
    }
    run.is_ragged = widths.size() > 1;
    const double odd_share = 1.0 - static_cast<double>(modal->second) / static_cast<double>(run.rows);
    run.score = points - 0.5 * static_cast<double>(cells) * odd_share;
}

}  // namespace

HeadRows::HeadRows(std::string_view text, std::size_t first_line, std::size_t most, char delimiter, char decimal_mark) {
    RowCells cells;
    std::size_t begin = 0;
    std::size_t line = first_line;
    while (begin < text.size() && rows_.size() < most) {
        const std::size_t end = row_end(text, begin, delimiter);
        HeadRow row{text.substr(begin, end - begin), line, kinds_.size()};
        split_row(row.text, delimiter, cells);
        has_quotes_ = has_quotes_ || cells.quoted;
        for (const std::string_view cell : cells.cells) {
            CellKind kind = CellKind::blank;
            if (!is_missing_word(cell)) {
                const std::optional<CellNumber> number = read_number_cell(cell, decimal_mark);
                kind = number ? CellKind::number : (read_time_cell(cell) ? CellKind::time : CellKind::text);
                note_marks(number, decimal_mark, row);
            }
            row.numbers += kind == CellKind::number || kind == CellKind::time ? 1U : 0U;
            row.texts += kind == CellKind::text ? 1U : 0U;
            kinds_.push_back(kind);
        }
        row.width = cells.cells.size();
        line += 1 + static_cast<std::size_t>(std::ranges::count(row.text, '\n'));
        rows_.push_back(row);
        begin = end + 1;
    }
    complete_ = begin >= text.size();
}

void HeadRows::note_marks(const std::optional<CellNumber>& number, char decimal_mark, HeadRow& row) {
    if (!number || number->evidence == MarkEvidence::none) {
        return;
    }
    const MarkEvidence proof = decimal_mark == '.' ? MarkEvidence::point : MarkEvidence::comma;
    row.has_mark = true;
    row.proves_mark = row.proves_mark || number->evidence == proof;
    if (number->grouping_mark != 0) {
        grouping_mark_ = number->grouping_mark;
    }
}

std::vector<Run> find_runs(const HeadRows& head) {
    std::vector<Run> runs;
    const std::vector<HeadRow>& rows = head.rows();
    for (std::size_t i = 0; i < rows.size();) {
        if (rows[i].numbers == 0) {
            ++i;
            continue;
        }
        Run run{.first = i, .last = i + 1};
        const auto first_kinds = head.kinds(rows[i]);
        ColumnKinds columns(first_kinds.begin(), first_kinds.end());
        for (++i; i < rows.size(); ++i) {
            if (rows[i].is_blank()) {
                continue;
            }
            if (rows[i].numbers == 0 || !joins(head.kinds(rows[i]), columns)) {
                break;
            }
            run.last = i + 1;
        }
        rate(run, head);
        runs.push_back(run);
    }
    return runs;
}

std::optional<Run> best_run(const HeadRows& head) {
    const std::vector<Run> runs = find_runs(head);
    const auto best = std::ranges::max_element(runs, {}, &Run::score);
    return best == runs.end() ? std::nullopt : std::optional(*best);
}

}  // namespace jointrom
