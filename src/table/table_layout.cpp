#include <table/table_layout.hpp>

#include <table/column_names.hpp>
#include <table/decoding.hpp>
#include <table/table_start.hpp>

#include <jointrom/core/failure.hpp>
#include <jointrom/table/heading.hpp>

#include <algorithm>
#include <optional>

namespace jointrom {
namespace {

constexpr std::size_t most_columns = 4096;

/// Finds the parts of one table; each find_ function fills its part of the layout.
class LayoutFinder {
  public:
    LayoutFinder(const DialectGuess& guess, std::string file)
        : guess_(guess), rows_(guess.head.rows()), run_(first_run(guess)), file_(std::move(file)) {}

    TableLayout find() {
        find_rows();
        find_header();
        drop_empty_last_columns();
        refuse_comma_twice();
        find_groups();
        find_preamble();
        name_columns();
        return std::move(layout_);
    }

  private:
    void find_rows();
    void find_header();
    void drop_empty_last_columns();
    void refuse_comma_twice() const;
    void find_groups();
    void find_preamble();
    void name_columns();
    void place_names();
    void place_units();
    void name_from_channel_lines();
    void tell_names_apart();
    [[nodiscard]] std::size_t usual_or_widest() const;
    [[nodiscard]] bool has_row_numbers() const;
    [[nodiscard]] bool is_empty_column(std::size_t column) const;
    [[nodiscard]] std::optional<std::size_t> filled_row_above(std::size_t row) const;
    [[nodiscard]] std::vector<std::string> names_on(std::size_t row, std::size_t below) const;
    [[nodiscard]] Place place_of(std::size_t line) const { return Place{file_, line}; }

    const DialectGuess& guess_;
    const std::vector<HeadRow>& rows_;
    Run run_;
    std::string file_;
    TableLayout layout_;
    std::optional<std::size_t> header_row_;
    std::optional<std::size_t> units_row_;
    std::optional<std::size_t> group_row_;
    std::vector<std::string> names_;
    std::vector<std::string> unit_cells_;
    std::vector<ColumnGroup> groups_;
};

void LayoutFinder::find_rows() {
    layout_.kinds = column_kinds(guess_.head, run_);
    layout_.first_data_row = first_data_row(guess_.head, run_, layout_.kinds);
    layout_.first_data_line = rows_[layout_.first_data_row].line;
    layout_.columns = usual_or_widest();
    if (layout_.columns > most_columns) {
        throw Failure(FailureKind::unreadable_data, "too-many-columns",
                      "the table has " + std::to_string(layout_.columns) + " columns, where at most " +
                          std::to_string(most_columns) + " were expected",
                      "Samples must run down the rows: transpose the table, or check --delimiter.",
                      place_of(layout_.first_data_line));
    }
}

/// Where rows differ in width, the lines of text above the first tell how many columns there are.
std::size_t LayoutFinder::usual_or_widest() const {
    std::optional<std::size_t> row = layout_.first_data_row;
    for (int i = 0; i < 2 && run_.width < run_.widest && (row = filled_row_above(*row)); ++i) {
        const std::size_t names = header_cells(rows_[*row].text, guess_.delimiter, run_.width).size();
        if (names == run_.width || names == run_.widest) {
            return names;
        }
    }
    return run_.widest;
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
    const bool is_channel = is_channel_line(head.text) && row > 0 && is_channel_line(rows_[row - 1].text);
    if (head.texts == 0 || head.texts < head.numbers || is_channel) {
        return {};
    }
    std::vector<std::string> names = header_cells(head.text, guess_.delimiter, layout_.columns);
    const std::size_t width = names.size();
    if (width == layout_.columns && (directly_above || width > 1)) {
        return names;
    }
    if (!directly_above || layout_.columns == 1) {
        return {};
    }
    if (auto otherwise = header_cells_otherwise(head.text, guess_.delimiter, layout_.columns)) {
        return *otherwise;
    }
    return width >= 2 && 2 * width >= layout_.columns ? names : std::vector<std::string>();
}

void LayoutFinder::find_header() {
    const std::optional<std::size_t> row = filled_row_above(layout_.first_data_row);
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
    names_ = names_on(*row, layout_.first_data_row);
    if (!names_.empty()) {
        header_row_ = row;
    }
}

bool LayoutFinder::is_empty_column(std::size_t column) const {
    for (std::size_t i = run_.first; i < run_.last; ++i) {
        const auto kinds = guess_.head.kinds(rows_[i]);
        if (column < kinds.size() && kinds[column] != CellKind::blank) {
            return false;
        }
    }
    return true;
}

/// Delimiters at the end of each line make columns that are blank and have no name.
void LayoutFinder::drop_empty_last_columns() {
    while (layout_.columns > std::max<std::size_t>(1, names_.size()) && is_empty_column(layout_.columns - 1)) {
        --layout_.columns;
    }
    layout_.kinds.resize(layout_.columns, CellKind::blank);
}

void LayoutFinder::refuse_comma_twice() const {
    if (!is_comma_twice(guess_, run_, layout_.columns, names_.size())) {
        return;
    }
    throw Failure(FailureKind::unreadable_data, "comma-twice",
                  "the comma seems to be both the delimiter and the decimal mark: " +
                      (names_.empty() ? std::string("no names") : std::to_string(names_.size()) + " names") +
                      " stand above " + std::to_string(layout_.columns) + " columns of whole numbers",
                  "Export again with semicolons or tabs between the columns, or with a decimal point. If the numbers "
                  "are whole, say so with --delimiter comma --decimal point.",
                  place_of(layout_.first_data_line));
}

void LayoutFinder::find_groups() {
    if (!header_row_ || *header_row_ == 0 || rows_[*header_row_ - 1].is_blank()) {
        return;
    }
    groups_ =
        labelled_groups(header_cells(rows_[*header_row_ - 1].text, guess_.delimiter, layout_.columns), layout_.columns);
    if (!groups_.empty()) {
        group_row_ = *header_row_ - 1;
    }
}

/// Every line above the rows that is not one of the parts found; blank cells and their delimiters are no text.
void LayoutFinder::find_preamble() {
    for (std::size_t i = 0; i < layout_.first_data_row; ++i) {
        const bool is_part = i == header_row_ || i == units_row_ || i == group_row_;
        if (!is_part && holds_text(rows_[i].text)) {
            layout_.preamble.push_back(text_as_utf8(trimmed(rows_[i].text)));
        }
    }
}

/// Whether the first column counts the rows, 0, 1, 2 or 1, 2, 3, or is text.
bool LayoutFinder::has_row_numbers() const {
    if (layout_.kinds.front() == CellKind::text) {
        return true;
    }
    RowCells row;
    split_row(rows_[layout_.first_data_row].text, guess_.delimiter, row);
    const std::string first(row.cells.front());
    if ((first != "0" && first != "1") || layout_.first_data_row + 1 >= rows_.size()) {
        return false;
    }
    split_row(rows_[layout_.first_data_row + 1].text, guess_.delimiter, row);
    return !row.cells.empty() && row.cells.front() == (first == "0" ? "1" : "2");
}

/// Names to columns, by position; one to the right where the rows are numbered and the header is not.
void LayoutFinder::place_names() {
    layout_.header_line = rows_[*header_row_].line;
    layout_.header_text = text_as_utf8(trimmed(rows_[*header_row_].text));
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
        layout_.findings.emplace_back("header-mismatch", text, place_of(layout_.header_line));
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
                                      place_of(layout_.first_data_line));
    }
}

/// Units from their own row, else from the headings.
void LayoutFinder::place_units() {
    if (units_row_) {
        layout_.units_line = rows_[*units_row_].line;
        const bool shifted = unit_cells_.size() + 1 == layout_.columns && layout_.headings.front().empty();
        for (std::size_t i = 0, c = shifted ? 1 : 0; i < unit_cells_.size() && c < layout_.columns; ++i, ++c) {
            layout_.units[c] = normalised_unit(unit_cells_[i]).value_or("");
        }
    }
    for (std::size_t c = 0; c < layout_.columns; ++c) {
        if (layout_.units[c].empty()) {
            layout_.units[c] = split_heading(layout_.headings[c]).unit;
        }
    }
}

void LayoutFinder::name_columns() {
    layout_.headings.resize(layout_.columns);
    layout_.units.resize(layout_.columns);
    if (header_row_) {
        place_names();
    } else {
        name_from_channel_lines();
    }
    place_units();
    std::vector<bool> is_time;
    for (std::size_t c = 0; c < layout_.columns; ++c) {
        const std::string& unit = layout_.units[c];
        is_time.push_back(names_time(layout_.headings[c]) || unit == "s" || unit == "ms" || unit == "min" ||
                          layout_.kinds[c] == CellKind::time);
    }
    layout_.trials = trials_side_by_side(groups_, layout_.headings, is_time);
    if (layout_.trials.size() == 1) {
        for (const ColumnGroup& group : groups_) {
            for (std::size_t c = group.first; c < group.last; ++c) {
                layout_.headings[c] = group.label + " " + layout_.headings[c];
            }
        }
    }
    tell_names_apart();
}

/// Trials side by side are told apart by their numbers; everything else by NAME#2.
void LayoutFinder::tell_names_apart() {
    for (const ColumnGroup& trial : layout_.trials) {
        const auto begin = layout_.headings.begin() + static_cast<std::ptrdiff_t>(trial.first);
        const auto end = layout_.headings.begin() + static_cast<std::ptrdiff_t>(trial.last);
        const std::vector<std::string> as_written(begin, end);
        const std::size_t repeated = make_distinct({begin, end}, trial.first);
        if (repeated > 0) {
            const auto first = std::ranges::mismatch(as_written, std::span(begin, end),
                                                     [](const auto& a, const auto& b) { return a.empty() || a == b; });
            layout_.findings.emplace_back("heading-repeated",
                                          std::to_string(repeated) +
                                              " headings repeat an earlier one, the first is \"" + *first.in1 +
                                              "\"; it is called " + *first.in2 + " here",
                                          place_of(layout_.header_line));
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
