#include <table/row_reader.hpp>

#include <table/decoding.hpp>
#include <table/plain_rows.hpp>

#include <jointrom/core/failure.hpp>

#include <algorithm>
#include <cmath>
#include <limits>

namespace jointrom {
namespace {

constexpr double missing = std::numeric_limits<double>::quiet_NaN();

char other_mark(char mark) {
    return mark == '.' ? ',' : '.';
}

MarkEvidence proof_of(char mark) {
    return mark == '.' ? MarkEvidence::point : MarkEvidence::comma;
}

std::string quoted(std::string_view cell) {
    constexpr std::size_t most = 40;
    return "\"" + text_as_utf8(cell.substr(0, most)) + (cell.size() > most ? "..." : "") + "\"";
}

}  // namespace

RowReader::RowReader(Dialect dialect, bool decimal_known, ColumnStore& columns,
                     const std::vector<std::string>& headings, std::string file)
    : dialect_(dialect), decimal_known_(decimal_known), columns_(columns), headings_(headings), file_(std::move(file)) {
    while (first_column_ + 1 < columns_.size() && columns_[first_column_].kind == CellKind::text) {
        ++first_column_;
    }
}

RowReader::Stop RowReader::read(std::string_view& text, std::size_t& line) {
    while (!text.empty()) {
        const std::size_t offset = line - columns_.rows();
        if (line_offsets_.empty() || line_offsets_.back().second != offset) {
            line_offsets_.emplace_back(columns_.rows(), offset);
        }
        const std::size_t rows_before = columns_.rows();
        const char* const begin = text.data();
        const char* const end = begin + text.size();
        const char mark = decimal_known_ ? dialect_.decimal_mark : '\0';
        const char* const stop = read_plain_rows(begin, end, dialect_.delimiter, mark, columns_);
        text.remove_prefix(static_cast<std::size_t>(stop - begin));
        line += columns_.rows() - rows_before;
        if (text.empty()) {
            break;
        }
        const std::size_t length = std::min(row_end(text, 0, dialect_.delimiter), text.size() - 1);
        const std::string_view row = text.substr(0, length);
        split(row);
        const LineKind kind = kind_of_cells();
        const std::size_t number = line;
        text.remove_prefix(length + 1);
        line += 1 + static_cast<std::size_t>(std::ranges::count(row, '\n'));
        if (kind != LineKind::row) {
            return {kind, row, number};
        }
        read_difficult_row(number);
    }
    return {};
}

void RowReader::split(std::string_view line) {
    split_row(line, dialect_.delimiter, cells_);
    delimited_ = cells_.cells.size();
    while (!cells_.cells.empty() && cells_.cells.back().empty()) {
        cells_.cells.pop_back();
    }
}

bool RowReader::looks_like_value(std::string_view cell) const {
    return read_number_cell(cell, dialect_.decimal_mark) || read_time_cell(cell) ||
           (!decimal_known_ && read_number_cell(cell, other_mark(dialect_.decimal_mark)));
}

RowReader::LineKind RowReader::kind_of_cells() const {
    if (cells_.cells.empty()) {
        return LineKind::blank;
    }
    std::size_t values = 0;
    std::size_t words = 0;
    bool first_is_text = false;
    for (std::size_t c = 0; c < std::min(cells_.cells.size(), columns_.size()); ++c) {
        const std::string_view cell = cells_.cells[c];
        if (columns_[c].kind == CellKind::text || cell.empty()) {
            continue;
        }
        if (is_missing_word(cell)) {
            ++words;
        } else if (looks_like_value(cell)) {
            ++values;
        } else if (c == first_column_) {
            first_is_text = true;
        }
    }
    if (first_is_text) {
        return values > 0 ? LineKind::wrong : LineKind::text;
    }
    const bool all_missing = words > 0 && cells_.cells.size() >= columns_.size();
    return values > 0 || all_missing ? LineKind::row : LineKind::text;
}

RowReader::LineKind RowReader::kind_of(std::string_view line) {
    split(line);
    return kind_of_cells();
}

std::size_t RowReader::width_of(std::string_view line) {
    split(line);
    return cells_.cells.size();
}

double RowReader::first_value(std::string_view line) {
    split(line);
    if (first_column_ >= cells_.cells.size()) {
        return missing;
    }
    const std::string_view cell = cells_.cells[first_column_];
    if (const auto number = read_number_cell(cell, dialect_.decimal_mark)) {
        return number->value;
    }
    const auto time = read_time_cell(cell);
    TimeLine times = columns_[first_column_].times;
    return time ? times.seconds(*time) : missing;
}

void RowReader::read_difficult_row(std::size_t number) {
    const std::size_t width = cells_.cells.size();
    const bool cut = number == cut_line_ && delimited_ < columns_.size();
    for (std::size_t c = 0; c < columns_.size(); ++c) {
        const bool is_there = c < width && !(cut && c + 1 == delimited_);
        columns_.cell(c) = is_there ? read_cell(c, cells_.cells[c], number) : missing;
    }
    found_cut_line_ = found_cut_line_ || cut;
    if (width > columns_.size()) {
        ++ragged_.long_rows;
        note_ragged(number);
    } else if (delimited_ < columns_.size() && !cut) {
        ++ragged_.short_rows;
        note_ragged(number);
    }
    columns_.add_rows(1);
}

void RowReader::note_ragged(std::size_t line) {
    constexpr std::size_t most = 5;
    if (ragged_.lines.size() < most) {
        ragged_.lines.push_back(line);
    }
}

double RowReader::read_cell(std::size_t c, std::string_view cell, std::size_t line) {
    ColumnStore::Column& column = columns_[c];
    if (column.kind == CellKind::text) {
        if (column.first_text.empty()) {
            column.first_text = text_as_utf8(cell);
        }
        return missing;
    }
    if (is_missing_word(cell)) {
        return missing;
    }
    if (column.kind == CellKind::number) {
        return read_number(c, cell, line);
    }
    if (const auto time = read_time_cell(cell)) {
        return column.times.seconds(*time);
    }
    // Loggers that count seconds first and go over to m:s at a minute.
    const auto seconds = read_number_cell(cell, dialect_.decimal_mark);
    if (!seconds || column.times.format().value_or(TimeFormat::minutes_seconds) != TimeFormat::minutes_seconds) {
        refuse(c, cell, line);
    }
    return column.times.seconds({seconds->value, TimeFormat::minutes_seconds});
}

double RowReader::read_number(std::size_t c, std::string_view cell, std::size_t line) {
    ColumnStore::Column& column = columns_[c];
    std::optional<CellNumber> number = read_number_cell(cell, dialect_.decimal_mark);
    if (!number && !decimal_known_) {
        // Only the other mark fits: the first numbers were whole, or were read wrongly.
        number = read_number_cell(cell, other_mark(dialect_.decimal_mark));
        bool read_otherwise = false;
        for (std::size_t i = 0; i < columns_.size(); ++i) {
            read_otherwise = read_otherwise || columns_[i].ambiguous > 0;
        }
        if (number && read_otherwise) {
            throw Failure(FailureKind::unreadable_data, "decimal-ambiguous",
                          quoted(cell) + " can only be read with a decimal " +
                              (dialect_.decimal_mark == '.' ? "comma" : "point") +
                              ", but numbers above were taken to have the other",
                          "Say which it is with --decimal point or --decimal comma.", Place{file_, line, c + 1});
        }
        if (number) {
            dialect_.decimal_mark = other_mark(dialect_.decimal_mark);
        }
    }
    if (!number) {
        return read_unexpected(c, cell, line);
    }
    if (number->grouping_mark != 0) {
        dialect_.grouping_mark = number->grouping_mark;
    }
    if (!decimal_known_) {
        column.ambiguous += number->evidence == MarkEvidence::either ? 1U : 0U;
        decimal_known_ = number->evidence == proof_of(dialect_.decimal_mark);
    }
    return number->value;
}

/// A cell that is no number in a column of numbers: the column may turn out to be one of times or of text.
double RowReader::read_unexpected(std::size_t c, std::string_view cell, std::size_t line) {
    ColumnStore::Column& column = columns_[c];
    if (column.undetermined && c != first_column_ && !columns_.has_values(c)) {
        columns_.change_kind(c, CellKind::text);
        column.first_text = text_as_utf8(cell);
        return missing;
    }
    const auto time = read_time_cell(cell);
    const bool goes_on =
        time && time->format == TimeFormat::minutes_seconds && c == first_column_ && columns_.rows() > 0;
    if (!goes_on) {
        refuse(c, cell, line);
    }
    // Seconds up to here, minutes and seconds from here on.
    columns_.change_kind(c, CellKind::time);
    static_cast<void>(column.times.seconds({columns_.last(c), TimeFormat::minutes_seconds}));
    return column.times.seconds(*time);
}

void RowReader::refuse_first_cell(std::string_view line, std::size_t number) {
    split(line);
    refuse(first_column_, cells_.cells[first_column_], number);
}

void RowReader::refuse(std::size_t c, std::string_view cell, std::size_t line) const {
    const bool number = columns_[c].kind == CellKind::number;
    const std::string other(1, other_mark(dialect_.decimal_mark));
    std::string advice = "Correct the cell, or empty it to mark a missing sample.";
    if (number && cell.find(other) != std::string_view::npos) {
        advice = "Numbers were read with a decimal " + std::string(dialect_.decimal_mark == '.' ? "point" : "comma") +
                 "; if that is wrong, use --decimal and --delimiter. Otherwise correct the cell or empty it.";
    }
    throw Failure(FailureKind::unreadable_data, "not-a-number",
                  "found " + quoted(cell) + " in column " + std::to_string(c + 1) + " (" + headings_[c] +
                      "), where a " + (number ? "number" : "time") + " was expected",
                  advice, Place{file_, line, c + 1});
}

}  // namespace jointrom
