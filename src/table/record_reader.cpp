#include <jointrom/table/record_reader.hpp>

#include <table/decoding.hpp>
#include <table/formula_guard.hpp>
#include <table/row_split.hpp>
#include <table/text_blocks.hpp>

#include <jointrom/core/failure.hpp>
#include <jointrom/core/near_miss.hpp>
#include <jointrom/core/number_text.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <deque>
#include <limits>
#include <utility>

namespace jointrom {
namespace {

constexpr std::size_t longest_quoted_cell = std::size_t{16} << 10;

/// The delimiter that stands most often in a line, outside quotes.
char delimiter_of(std::string_view line) {
    char best = ',';
    std::size_t most = 1;
    for (const char delimiter : {',', ';', '\t'}) {
        RowCells row;
        split_row(line, delimiter, row);
        if (row.cells.size() > most) {
            most = row.cells.size();
            best = delimiter;
        }
    }
    return best;
}

bool same_letters(std::string_view a, std::string_view b) {
    const auto small = [](char letter) {
        return letter >= 'A' && letter <= 'Z' ? static_cast<char>(letter + 32) : letter;
    };
    return std::ranges::equal(a, b, {}, small, small);
}

bool is_ascii(std::string_view text) {
    return std::ranges::all_of(text, [](char letter) { return static_cast<unsigned char>(letter) < 0x80U; });
}

/// Neither quotes nor letters beyond ASCII.
bool is_plain(std::string_view block) {
    unsigned char beyond = 0;
    bool quote = false;
    for (const char letter : block) {
        beyond |= static_cast<unsigned char>(letter);
        quote |= letter == '"';
    }
    return beyond < 0x80U && !quote;
}

bool is_blank(char letter) {
    return letter == ' ' || letter == '\t' || letter == '\r';
}

std::string_view without_blanks(const char* begin, const char* end) {
    while (begin < end && is_blank(*begin)) {
        ++begin;
    }
    while (begin < end && is_blank(end[-1])) {
        --end;
    }
    return {begin, static_cast<std::size_t>(end - begin)};
}

}  // namespace

class RecordReader::State {
  public:
    State(std::unique_ptr<ByteSource> own, ByteSource& source, std::string name)
        : own_(std::move(own)), name_(std::move(name)), blocks_(source, name_) {
        read_headings();
    }

    bool next() {
        while (next_row()) {
            if (row_.cells.size() > 1 || !row_.cells.front().empty()) {
                check_width();
                return true;
            }
        }
        return false;
    }

    [[nodiscard]] Place place(std::size_t column) const { return {name_, line_, column + 1}; }

    std::vector<std::string> columns;
    [[nodiscard]] const RowCells& row() const noexcept { return row_; }
    [[nodiscard]] std::size_t line() const noexcept { return line_; }
    [[nodiscard]] char delimiter() const noexcept { return delimiter_; }
    [[nodiscard]] const std::string& name() const noexcept { return name_; }

  private:
    void read_headings() {
        next_block();
        while (!rest_.empty() && !holds_text(rest_.substr(0, rest_.find('\n')))) {
            rest_.remove_prefix(rest_.find('\n') + 1);
            ++next_line_;
        }
        delimiter_ = delimiter_of(rest_.substr(0, rest_.find('\n')));
        if (!next_row()) {
            return;
        }
        while (row_.cells.size() > 1 && row_.cells.back().empty()) {
            row_.cells.pop_back();
        }
        for (const std::string_view cell : row_.cells) {
            columns.emplace_back(without_guard(cell));
        }
        check_headings();
    }

    void check_headings() const {
        for (std::size_t k = 0; k < columns.size(); ++k) {
            if (parse_number(columns[k])) {
                throw Failure(FailureKind::unreadable_data, "headings-missing",
                              fmt::format("'{}' is a number, where the first row should name the columns", columns[k]),
                              "Put a row of column names on top of the table.", place(k));
            }
            for (std::size_t other = 0; other < k; ++other) {
                if (!columns[k].empty() && same_letters(columns[k], columns[other])) {
                    throw Failure(FailureKind::unreadable_data, "column-twice",
                                  fmt::format("two columns are named '{}'", columns[k]),
                                  "Rename or remove one of them.", place(k));
                }
            }
        }
    }

    /// Cuts the next row, blank or not.
    bool next_row() {
        if (rest_.empty()) {
            next_block();
            if (rest_.empty()) {
                return false;
            }
        }
        line_ = next_line_;
        if (is_plain_) {
            cut_at_delimiters();
            return true;
        }
        const std::size_t line_end = rest_.find('\n');
        if (rest_.substr(0, line_end).find('"') == std::string_view::npos) {
            cut_plain(rest_.substr(0, line_end));
            rest_.remove_prefix(line_end + 1);
            ++next_line_;
        } else {
            cut_quoted();
        }
        return true;
    }

    void next_block() {
        rest_ = blocks_.next();
        is_plain_ = is_plain(rest_);
    }

    /// The quick way, for a block without quotes and letters beyond ASCII.
    void cut_at_delimiters() {
        row_.cells.clear();
        const char* begin = rest_.data();
        const char* at = begin;
        while (true) {
            while (*at != delimiter_ && *at != '\n') {
                ++at;
            }
            row_.cells.push_back(without_blanks(begin, at));
            if (*at == '\n') {
                break;
            }
            begin = ++at;
        }
        rest_.remove_prefix(static_cast<std::size_t>(at + 1 - rest_.data()));
        ++next_line_;
    }

    void cut_plain(std::string_view line) {
        row_.cells.clear();
        converted_.clear();
        std::size_t begin = 0;
        while (true) {
            const std::size_t end = std::min(line.find(delimiter_, begin), line.size());
            row_.cells.push_back(as_utf8(trimmed(line.substr(begin, end - begin))));
            if (end == line.size()) {
                return;
            }
            begin = end + 1;
        }
    }

    void cut_quoted() {
        if (rest_.size() < longest_quoted_cell) {
            // A cell may go on in the next block.
            joined_ = std::string(rest_);
            joined_ += blocks_.next();
            rest_ = joined_;
        }
        const std::size_t end = row_end(rest_, 0, delimiter_);
        const std::string_view text = rest_.substr(0, end);
        split_row(text, delimiter_, row_);
        converted_.clear();
        for (std::string_view& cell : row_.cells) {
            cell = as_utf8(cell);
        }
        next_line_ += 1 + static_cast<std::size_t>(std::ranges::count(text, '\n'));
        rest_.remove_prefix(std::min(end + 1, rest_.size()));
    }

    std::string_view as_utf8(std::string_view cell) {
        if (is_ascii(cell) || is_utf8(cell)) {
            return cell;
        }
        return converted_.emplace_back(text_as_utf8(cell));
    }

    void check_width() {
        std::vector<std::string_view>& cells = row_.cells;
        while (cells.size() > columns.size() && cells.back().empty()) {
            cells.pop_back();
        }
        if (cells.size() != columns.size()) {
            throw Failure(
                FailureKind::unreadable_data, "row-width",
                fmt::format("the row has {} cells, where the headings name {} columns", cells.size(), columns.size()),
                "Put a cell with a comma in it in quotes, and a delimiter for each empty cell.",
                Place{name_, line_, 0});
        }
    }

    std::unique_ptr<ByteSource> own_;
    std::string name_;
    TextBlocks blocks_;
    std::string_view rest_;  ///< of the block, from the next row on
    std::string joined_;     ///< a block and the end of the one before
    bool is_plain_ = false;  ///< no quotes and nothing but ASCII in the block
    char delimiter_ = ',';
    RowCells row_;
    std::deque<std::string> converted_;  ///< cells that were not in UTF-8
    std::size_t line_ = 0;
    std::size_t next_line_ = 1;
};

RecordReader::RecordReader(const std::filesystem::path& path) {
    std::unique_ptr<ByteSource> source = file_source(path);
    ByteSource& reference = *source;
    state_ = std::make_unique<State>(std::move(source), reference, path.string());
}

RecordReader::RecordReader(ByteSource& source, std::string name)
    : state_(std::make_unique<State>(nullptr, source, std::move(name))) {}

RecordReader::RecordReader(RecordReader&&) noexcept = default;
RecordReader& RecordReader::operator=(RecordReader&&) noexcept = default;
RecordReader::~RecordReader() = default;

const std::vector<std::string>& RecordReader::columns() const noexcept {
    return state_->columns;
}

std::optional<std::size_t> RecordReader::find_column(std::string_view name) const {
    const std::vector<std::string>& names = state_->columns;
    const auto found = std::ranges::find_if(names, [&](const std::string& known) { return same_letters(known, name); });
    if (found == names.end()) {
        return std::nullopt;
    }
    return static_cast<std::size_t>(found - names.begin());
}

std::size_t RecordReader::column(std::string_view name) const {
    if (const auto found = find_column(name)) {
        return *found;
    }
    const std::vector<std::string_view> known(state_->columns.begin(), state_->columns.end());
    const auto near = nearest(name, known);
    throw Failure(FailureKind::unreadable_data, "no-such-column",
                  fmt::format("there is no column '{}' among {}", name, fmt::format("{}", fmt::join(known, ", "))),
                  near ? fmt::format("Is '{}' meant?", *near) : "Add the column or check its heading.",
                  Place{state_->name()});
}

bool RecordReader::next() {
    return state_->next();
}

std::string_view RecordReader::text(std::size_t column) const {
    return without_guard(state_->row().cells[column]);
}

double RecordReader::number(std::size_t column) const {
    const std::string_view cell = text(column);
    if (cell.empty()) {
        return std::numeric_limits<double>::quiet_NaN();
    }
    if (const auto value = parse_number(cell)) {
        return *value;
    }
    if (state_->delimiter() != ',' && cell.find('.') == std::string_view::npos) {
        std::string with_point(cell);
        std::ranges::replace(with_point, ',', '.');
        if (const auto value = parse_number(with_point)) {
            return *value;
        }
    }
    throw Failure(FailureKind::unreadable_data, "not-a-number",
                  fmt::format("'{}' is not a number, where {} expects one", cell, state_->columns[column]),
                  "Write the number with a decimal point, without a unit.", place(column));
}

std::size_t RecordReader::line() const noexcept {
    return state_->line();
}

Place RecordReader::place(std::size_t column) const {
    return state_->place(column);
}

}  // namespace jointrom
