#include <table/table_layout.hpp>

#include <table/column_names.hpp>
#include <table/decoding.hpp>

#include <jointrom/core/failure.hpp>
#include <jointrom/table/heading.hpp>

#include <algorithm>
#include <map>
#include <optional>

namespace jointrom {
namespace {

constexpr std::size_t most_columns = 4096;

Place place_of(const std::string& file, std::size_t line) {
    return Place{file, line};
}

/// Finds the parts of one table; each find_ function fills its part of the layout.
class LayoutFinder {
  public:
    LayoutFinder(const DialectGuess& guess, std::string file)
        : guess_(guess), rows_(guess.head.rows()), run_(*guess.run), file_(std::move(file)) {}

    TableLayout find() {
        find_first_row();
        find_columns();
        find_header();
        drop_empty_last_column();
        refuse_comma_twice();
        find_groups();
        find_preamble();
        name_columns();
        return std::move(layout_);
    }

  private:
    void find_first_row();
    void find_columns();
    void find_header();
    void drop_empty_last_column();
    void refuse_comma_twice() const;
    void find_groups();
    void find_preamble();
    void name_columns();
    void place_names();
    void name_from_channel_lines();
    void find_trials_in_names();
    [[nodiscard]] bool has_row_numbers() const;
    [[nodiscard]] std::vector<CellKind> kinds_of_run() const;
    [[nodiscard]] bool fits(const HeadRow& row, const std::vector<CellKind>& kinds) const;
    [[nodiscard]] std::optional<std::size_t> filled_row_above(std::size_t row) const;
    [[nodiscard]] std::vector<std::string> names_on(std::size_t row, std::size_t below) const;
    [[nodiscard]] std::string_view cell(const HeadRow& row, std::size_t column) const;

    const DialectGuess& guess_;
    const std::vector<HeadRow>& rows_;
    const Run& run_;
    std::string file_;
    TableLayout layout_;
    std::optional<std::size_t> header_row_;
    std::optional<std::size_t> units_row_;
    std::optional<std::size_t> group_row_;
    std::vector<std::string> names_;
    std::vector<std::string> unit_cells_;
    std::vector<ColumnGroup> groups_;
};

/// The kind that most cells of each column in the run have; blank where all are blank.
std::vector<CellKind> LayoutFinder::kinds_of_run() const {
    struct Tally {
        std::size_t numbers = 0;
        std::size_t times = 0;
        std::size_t texts = 0;
    };
    std::vector<Tally> tallies(run_.widest);
    for (std::size_t i = run_.first; i < run_.last; ++i) {
        const auto kinds = guess_.head.kinds(rows_[i]);
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

/// Whether a row could be one of the run, a wrong cell or two allowed.
bool LayoutFinder::fits(const HeadRow& row, const std::vector<CellKind>& kinds) const {
    if (row.numbers == 0 || (row.width != run_.width && row.width != run_.widest)) {
        return false;
    }
    const auto cells = guess_.head.kinds(row);
    std::size_t wrong = 0;
    bool first = true;
    for (std::size_t c = 0; c < std::min(cells.size(), kinds.size()); ++c) {
        if (kinds[c] == CellKind::text) {
            continue;
        }
        if (first && cells[c] == CellKind::text) {
            return false;
        }
        first = false;
        wrong += cells[c] == CellKind::text ? 1U : 0U;
    }
    return wrong <= row.numbers;
}

void LayoutFinder::find_first_row() {
    const std::vector<CellKind> kinds = kinds_of_run();
    const std::size_t needed = std::min<std::size_t>(5, run_.rows);
    std::size_t begin = 0;
    std::size_t count = 0;
    for (std::size_t i = 0; i < rows_.size(); ++i) {
        if (rows_[i].is_blank()) {
            continue;
        }
        // A shorter row may follow, but not begin.
        const bool continues = count > 0 && rows_[i].texts == 0 && rows_[i].numbers > 0;
        if (!continues && !fits(rows_[i], kinds)) {
            count = 0;
            continue;
        }
        if (count++ == 0) {
            begin = i;
        }
        if (count >= needed) {
            break;
        }
    }
    layout_.first_data_row = count >= needed ? begin : run_.first;
    layout_.first_data_line = rows_[layout_.first_data_row].line;
    layout_.kinds = kinds;
}

void LayoutFinder::find_columns() {
    layout_.columns = run_.widest;
    if (layout_.columns > most_columns) {
        throw Failure(FailureKind::unreadable_data, "too-many-columns",
                      "the table has " + std::to_string(layout_.columns) + " columns, where at most " +
                          std::to_string(most_columns) + " were expected",
                      "Samples must run down the rows: transpose the table, or check --delimiter.",
                      place_of(file_, layout_.first_data_line));
    }
}

std::optional<std::size_t> LayoutFinder::filled_row_above(std::size_t row) const {
    while (row > 0) {
        if (!rows_[--row].is_blank()) {
            return row;
        }
    }
    return std::nullopt;
}

/// The names on a row if it is a header; `below` is the row that it stands above.
std::vector<std::string> LayoutFinder::names_on(std::size_t row, std::size_t below) const {
    const HeadRow& head = rows_[row];
    const bool directly_above = row + 1 == below;
    if (head.texts == 0 || head.texts < head.numbers) {
        return {};
    }
    std::vector<std::string> names = header_cells(head.text, guess_.delimiter, layout_.columns);
    const std::size_t width = names.size();
    if (width == layout_.columns && (directly_above || width > 1)) {
        return names;
    }
    if (!directly_above || layout_.columns == 1 || is_channel_line(head.text)) {
        return {};
    }
    if (auto otherwise = header_cells_otherwise(head.text, guess_.delimiter, layout_.columns)) {
        return *otherwise;
    }
    return width >= 2 && 2 * width >= layout_.columns ? names : std::vector<std::string>();
}

void LayoutFinder::find_header() {
    const std::size_t first = layout_.first_data_row;
    std::optional<std::size_t> row = filled_row_above(first);
    if (!row) {
        return;
    }
    std::vector<std::string> cells = header_cells(rows_[*row].text, guess_.delimiter, layout_.columns);
    const std::optional<std::size_t> above = filled_row_above(*row);
    if (above && is_units_row(cells)) {
        names_ = names_on(*above, *row);
        if (!names_.empty()) {
            units_row_ = row;
            unit_cells_ = std::move(cells);
            header_row_ = above;
            return;
        }
    }
    names_ = names_on(*row, first);
    if (!names_.empty()) {
        header_row_ = row;
    }
}

/// A delimiter at the end of each line makes a column that is blank and has no name.
void LayoutFinder::drop_empty_last_column() {
    const std::size_t last = layout_.columns - 1;
    if (last >= std::max<std::size_t>(1, names_.size())) {
        const bool empty = std::all_of(rows_.begin() + static_cast<std::ptrdiff_t>(run_.first),
                                       rows_.begin() + static_cast<std::ptrdiff_t>(run_.last), [&](const HeadRow& r) {
                                           const auto kinds = guess_.head.kinds(r);
                                           return last >= kinds.size() || kinds[last] == CellKind::blank;
                                       });
        layout_.columns -= empty ? 1U : 0U;
    }
    layout_.kinds.resize(layout_.columns, CellKind::blank);
}

/// "Time,Angle" above "0,00,12,5": four whole numbers where there are two names.
void LayoutFinder::refuse_comma_twice() const {
    if (guess_.delimiter != ',' || guess_.decimal_mark != '.' || run_.has_mark || run_.texts > 0) {
        return;
    }
    const bool half_named =
        header_row_ && names_.size() < layout_.columns && (names_.size() * 2 == layout_.columns || run_.is_ragged);
    bool decimals = !header_row_ && layout_.columns % 2 == 0;
    bool leading_zero = false;
    for (std::size_t i = run_.first; decimals && i < run_.last; ++i) {
        for (std::size_t c = 1; c < rows_[i].width; c += 2) {
            const std::string_view text = cell(rows_[i], c);
            decimals = decimals && !text.starts_with('-') && !text.starts_with('+') && !text.empty();
            leading_zero = leading_zero || (text.size() > 1 && text.front() == '0');
        }
    }
    if (half_named || (decimals && leading_zero)) {
        throw Failure(FailureKind::unreadable_data, "comma-twice",
                      "the comma seems to be both the delimiter and the decimal mark: " +
                          (half_named ? std::to_string(names_.size()) + " names" : std::string("no names")) +
                          " stand above " + std::to_string(layout_.columns) + " columns of whole numbers",
                      "Export again with semicolons or tabs between the columns, or with a decimal point. If the "
                      "numbers are whole, say so with --delimiter comma --decimal point.",
                      place_of(file_, layout_.first_data_line));
    }
}

std::string_view LayoutFinder::cell(const HeadRow& row, std::size_t column) const {
    RowCells cells;
    split_row(row.text, guess_.delimiter, cells);
    return column < cells.cells.size() ? cells.cells[column] : std::string_view();
}

/// Labels at equal distances on the line above the header.
void LayoutFinder::find_groups() {
    if (!header_row_ || *header_row_ == 0 || rows_[*header_row_ - 1].is_blank()) {
        return;
    }
    const std::vector<std::string> labels =
        header_cells(rows_[*header_row_ - 1].text, guess_.delimiter, layout_.columns);
    std::vector<ColumnGroup> groups;
    for (std::size_t c = 0; c < std::min(labels.size(), layout_.columns); ++c) {
        if (!labels[c].empty()) {
            if (!groups.empty()) {
                groups.back().last = c;
            }
            groups.push_back({c, layout_.columns, labels[c]});
        }
    }
    const bool even = groups.size() >= 2 && std::ranges::all_of(groups, [&](const ColumnGroup& group) {
                          const std::size_t size = group.last - group.first;
                          return size >= 2 && size == groups.front().last - groups.front().first;
                      });
    if (even && labels.size() <= layout_.columns) {
        group_row_ = *header_row_ - 1;
        groups_ = std::move(groups);
    }
}

void LayoutFinder::find_preamble() {
    const std::size_t end = group_row_ ? *group_row_ : header_row_.value_or(layout_.first_data_row);
    const std::size_t last = units_row_ && !header_row_ ? *units_row_ : end;
    for (std::size_t i = 0; i < std::min(end, last); ++i) {
        if (!trimmed(rows_[i].text).empty()) {
            layout_.preamble.push_back(text_as_utf8(trimmed(rows_[i].text)));
        }
    }
    // Between header and first row there may be another line of text.
    const std::size_t below = std::max(header_row_.value_or(0), units_row_.value_or(0));
    for (std::size_t i = below + 1; header_row_ && i < layout_.first_data_row; ++i) {
        if (!trimmed(rows_[i].text).empty()) {
            layout_.preamble.push_back(text_as_utf8(trimmed(rows_[i].text)));
        }
    }
}

/// Whether the first column counts the rows, 0, 1, 2 or 1, 2, 3, or is text.
bool LayoutFinder::has_row_numbers() const {
    if (layout_.kinds.front() == CellKind::text) {
        return true;
    }
    const std::string_view first = cell(rows_[layout_.first_data_row], 0);
    return (first == "0" || first == "1") && layout_.first_data_row + 1 < rows_.size() &&
           cell(rows_[layout_.first_data_row + 1], 0) == (first == "0" ? "1" : "2");
}

/// Names to columns, by position; one to the right where the rows are numbered and the header is not.
void LayoutFinder::place_names() {
    const bool shifted = names_.size() + 1 == layout_.columns && has_row_numbers() && !names_.front().empty();
    const std::size_t offset = shifted ? 1 : 0;
    for (std::size_t i = 0; i < names_.size() && i + offset < layout_.columns; ++i) {
        layout_.headings[i + offset] = names_[i];
    }
    if (names_.size() != layout_.columns) {
        std::string text = "the header has " + std::to_string(names_.size()) + " names, the rows have " +
                           std::to_string(layout_.columns) + " cells; ";
        text += shifted ? "the first column was taken as row numbers without a name"
                        : "names were given to columns from the left";
        layout_.findings.emplace_back("header-mismatch", text, place_of(file_, rows_[*header_row_].line));
    }
}

void LayoutFinder::name_from_channel_lines() {
    const std::optional<ChannelNames> names = channel_names(layout_.preamble, layout_.columns);
    if (!names) {
        return;
    }
    std::ranges::copy(names->headings, layout_.headings.begin());
    std::ranges::copy(names->units, layout_.units.begin());
    if (names->headings.size() != layout_.columns) {
        layout_.findings.emplace_back("header-mismatch",
                                      std::to_string(names->headings.size()) + " channels are described above " +
                                          std::to_string(layout_.columns) +
                                          " columns; names were given to columns from the left",
                                      place_of(file_, layout_.first_data_line));
    }
}

void LayoutFinder::name_columns() {
    layout_.headings.resize(layout_.columns);
    layout_.units.resize(layout_.columns);
    if (header_row_) {
        layout_.header_line = rows_[*header_row_].line;
        layout_.header_text = text_as_utf8(trimmed(rows_[*header_row_].text));
        place_names();
    } else {
        name_from_channel_lines();
    }
    if (units_row_ && header_row_) {
        layout_.units_line = rows_[*units_row_].line;
        const std::size_t offset =
            unit_cells_.size() + 1 == layout_.columns && layout_.headings.front().empty() ? 1 : 0;
        for (std::size_t i = 0; i < unit_cells_.size() && i + offset < layout_.columns; ++i) {
            layout_.units[i + offset] = normalised_unit(unit_cells_[i]).value_or("");
        }
    }
    for (std::size_t c = 0; c < layout_.columns; ++c) {
        if (layout_.units[c].empty()) {
            layout_.units[c] = split_heading(layout_.headings[c]).unit;
        }
    }
    find_trials_in_names();
    if (layout_.trials.size() == 1 && !groups_.empty()) {
        for (const ColumnGroup& group : groups_) {
            for (std::size_t c = group.first; c < group.last; ++c) {
                layout_.headings[c] = group.label + " " + layout_.headings[c];
            }
        }
    }
    const std::vector<std::string> as_written = layout_.headings;
    const std::size_t repeated = make_distinct(layout_.headings);
    if (repeated > 0 && layout_.trials.size() == 1) {
        const auto first = std::ranges::mismatch(as_written, layout_.headings,
                                                 [](const auto& a, const auto& b) { return a.empty() || a == b; });
        layout_.findings.emplace_back("heading-repeated",
                                      std::to_string(repeated) + " headings repeat an earlier one, the first is \"" +
                                          *first.in1 + "\"; it is called " + *first.in2 + " here",
                                      place_of(file_, layout_.header_line));
    }
}

/// Trials side by side: groups that each begin with a time, or names that repeat from a time on.
void LayoutFinder::find_trials_in_names() {
    const auto is_time = [&](std::size_t c) {
        const std::string& unit = layout_.units[c];
        return names_time(layout_.headings[c]) || unit == "s" || unit == "ms" || unit == "min" ||
               layout_.kinds[c] == CellKind::time;
    };
    layout_.trials = {{0, layout_.columns, {}}};
    if (!groups_.empty() && groups_.front().first == 0) {
        if (std::ranges::all_of(groups_, [&](const ColumnGroup& group) { return is_time(group.first); })) {
            layout_.trials = groups_;
        }
        return;
    }
    const std::vector<std::string>& names = layout_.headings;
    for (std::size_t period = 2; header_row_ && groups_.empty() && period * 2 <= layout_.columns; ++period) {
        const bool repeats =
            layout_.columns % period == 0 && is_time(0) &&
            std::equal(names.begin() + static_cast<std::ptrdiff_t>(period), names.end(), names.begin());
        if (repeats) {
            layout_.trials.clear();
            for (std::size_t c = 0; c < layout_.columns; c += period) {
                layout_.trials.push_back({c, c + period, {}});
            }
            return;
        }
    }
}

}  // namespace

TableLayout find_layout(const DialectGuess& guess, const std::string& file) {
    if (!guess.run) {
        throw Failure(FailureKind::unreadable_data, "no-table",
                      "there is no row of numbers in " + std::to_string(guess.head.rows().size()) +
                          " lines, where a table of samples was expected",
                      "Check that the recording was exported with its data, and the delimiter (--delimiter).",
                      Place{file});
    }
    return LayoutFinder(guess, file).find();
}

}  // namespace jointrom
