#include <table/table_assembly.hpp>

#include <table/byte_scan.hpp>
#include <table/decoding.hpp>
#include <table/finished_table.hpp>

#include <jointrom/core/failure.hpp>

#include <algorithm>
#include <array>
#include <cmath>
#include <utility>

namespace jointrom {
namespace {

constexpr std::size_t most_trials = 1000;

/// "Trial 2", "run #3", "Versuch 4": a word for a trial and a number.
bool is_trial_label(std::string_view line) {
    constexpr std::array<std::string_view, 14> words = {"trial",  "run",   "set",     "versuch",    "messung",
                                                        "essai",  "prova", "prueba",  "ensayo",     "test",
                                                        "record", "block", "session", "participant"};
    std::string text(trimmed(line));
    std::ranges::transform(text, text.begin(),
                           [](char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c | 0x20) : c; });
    const std::size_t first = text.find_first_of("abcdefghijklmnopqrstuvwxyz");
    if (first == std::string::npos || text.find_first_of("0123456789", first) == std::string::npos) {
        return false;
    }
    return std::ranges::any_of(words,
                               [&](std::string_view word) { return text.compare(first, word.size(), word) == 0; });
}

/// What a trial is called by the lines above it.
std::string label_of(const TableLayout& layout) {
    const auto label = std::find_if(layout.preamble.rbegin(), layout.preamble.rend(), is_trial_label);
    return label == layout.preamble.rend() ? std::string() : *label;
}

/// Typical time step of the last rows if a column has run strictly forward in them.
std::optional<double> forward_step(const std::vector<double>& values, std::size_t rows) {
    constexpr std::size_t looked_at = 64;
    const std::size_t begin = rows > looked_at ? rows - looked_at : 0;
    if (rows - begin < 3) {
        return std::nullopt;
    }
    for (std::size_t i = begin + 1; i < rows; ++i) {
        if (!(values[i] > values[i - 1])) {
            return std::nullopt;
        }
    }
    return (values[rows - 1] - values[begin]) / static_cast<double>(rows - 1 - begin);
}

}  // namespace

TableAssembly::TableAssembly(TextBlocks& blocks, std::size_t size_hint, std::string name, const TableOptions& options)
    : blocks_(blocks), name_(std::move(name)), options_(options), size_hint_(size_hint) {}

Table TableAssembly::read() {
    start();
    while (!text_.empty()) {
        if (!pending_.empty()) {
            settle_pending();
        }
        while (!text_.empty()) {
            const RowReader::Stop stop = current_.reader->read(text_, line_);
            if (stop.kind != RowReader::LineKind::row) {
                pending_.push_back({std::string(stop.line), stop.number, stop.kind == RowReader::LineKind::wrong});
                break;
            }
        }
        if (text_.empty()) {
            next_text();
        }
    }
    finish_block();
    return finish();
}

void TableAssembly::next_text() {
    text_ = blocks_.next();
    if (blocks_.ends_in_a_line()) {
        cut_line_ = line_ + count_lines(text_) - 1;
        if (current_.reader) {
            current_.reader->expect_cut_line(cut_line_);
        }
    }
}

void TableAssembly::start() {
    next_text();
    dialect_.encoding = blocks_.encoding();
    if (dialect_.encoding == Encoding::utf8 && !is_ascii(text_) && !is_utf8(text_)) {
        dialect_.encoding = Encoding::windows_1252;
        windows_1252_ = true;
    }
    const std::string_view all = text_;
    const std::optional<char> named = take_separator_line(text_);
    line_ += named ? 1U : 0U;
    const std::optional<char> delimiter = options_.delimiter ? options_.delimiter : named;
    const DialectGuess guess = guess_dialect(text_, line_, delimiter, options_.decimal_mark);
    dialect_.delimiter = guess.delimiter;
    dialect_.decimal_mark = guess.decimal_mark;
    dialect_.grouping_mark = guess.head.grouping_mark();
    decimal_known_ = guess.decimal_known;
    begin_block(guess);
    preamble_ = current_.layout.preamble;
    if (named) {
        preamble_.insert(preamble_.begin(), std::string(trimmed(all.substr(0, all.find('\n')))));
    }
    const HeadRow& first = guess.head.rows()[current_.layout.first_data_row];
    text_.remove_prefix(static_cast<std::size_t>(first.text.data() - text_.data()));
    line_ = first.line;
}

std::size_t TableAssembly::expected_rows() const {
    const std::size_t lines = count_lines(text_);
    const bool wide =
        dialect_.encoding == Encoding::utf16_little_endian || dialect_.encoding == Encoding::utf16_big_endian;
    const std::size_t size = wide ? size_hint_ / 2 : size_hint_;
    if (lines == 0 || size <= text_.size()) {
        return lines;
    }
    const double rows = static_cast<double>(size) * static_cast<double>(lines) / static_cast<double>(text_.size());
    return static_cast<std::size_t>(rows * 1.02) + 64;
}

void TableAssembly::begin_block(const DialectGuess& guess) {
    current_ = Block{};
    current_.layout = find_layout(guess, name_);
    const TableLayout& layout = current_.layout;
    const auto lead = std::ranges::find_if(layout.kinds, [](CellKind kind) { return kind != CellKind::text; });
    std::vector<bool> wanted = wanted_columns(options_, layout);
    if (lead != layout.kinds.end()) {
        wanted[static_cast<std::size_t>(lead - layout.kinds.begin())] = true;
    }
    std::vector<ColumnStore::Column> columns(layout.columns);
    for (std::size_t c = 0; c < columns.size(); ++c) {
        columns[c].undetermined = layout.kinds[c] == CellKind::blank;
        columns[c].kind = columns[c].undetermined ? CellKind::number : layout.kinds[c];
        columns[c].keep = columns[c].kind != CellKind::text && wanted[c];
    }
    current_.store = std::make_unique<ColumnStore>(std::move(columns), options_.missing_values,
                                                   trials_.empty() ? expected_rows() : 0);
    current_.reader =
        std::make_unique<RowReader>(dialect_, decimal_known_, *current_.store, current_.layout.headings, name_);
    current_.reader->expect_cut_line(cut_line_);
    current_.first_line = layout.first_data_line;
}

/// Whether the lines that are waiting set a new trial apart: a label, or names of columns.
bool TableAssembly::has_label_or_header() {
    const std::size_t columns = current_.layout.columns;
    return std::ranges::any_of(pending_, [&](const PendingLine& line) {
        if (line.wrong || !holds_text(line.text)) {
            return false;
        }
        const bool same_header = text_as_utf8(trimmed(line.text)) == current_.layout.header_text;
        const std::size_t width = current_.reader->width_of(line.text);
        return same_header || is_trial_label(line.text) || (columns > 1 && width >= 2 && 2 * width >= columns);
    });
}

bool TableAssembly::begins_trial(std::string_view row) {
    const std::size_t c = current_.reader->first_column();
    const std::size_t rows = current_.store->rows();
    const std::optional<double> step = forward_step((*current_.store)[c].values, rows);
    const double next = current_.reader->first_value(row);
    if (step && !std::isnan(next)) {
        const double ahead = next - current_.store->last(c);
        if (ahead <= 0.0) {
            return true;
        }
        if (ahead <= 3.0 * *step) {
            return false;
        }
    }
    return has_label_or_header();
}

/// Lines that are no rows are waiting: reads on until a row or the end shows what they are.
void TableAssembly::settle_pending() {
    while (!text_.empty()) {
        const std::size_t length = std::min(row_end(text_, 0, dialect_.delimiter), text_.size() - 1);
        const std::string_view line = text_.substr(0, length);
        const RowReader::LineKind kind = current_.reader->kind_of(line);
        if (kind == RowReader::LineKind::row) {
            if (begins_trial(line)) {
                begin_next_block();
            } else {
                skip_pending();
            }
            return;
        }
        pending_.push_back({std::string(line), line_, kind == RowReader::LineKind::wrong});
        line_ += 1 + static_cast<std::size_t>(std::ranges::count(line, '\n'));
        text_.remove_prefix(length + 1);
    }
}

/// The lines that are waiting stand within a trial: remarks are passed over, damaged rows are not.
void TableAssembly::skip_pending() {
    for (const PendingLine& line : pending_) {
        if (line.wrong) {
            current_.reader->refuse_first_cell(line.text, line.number);
        }
        if (holds_text(line.text)) {
            first_skipped_line_ = skipped_lines_++ == 0 ? line.number : first_skipped_line_;
        }
    }
    pending_.clear();
}

void TableAssembly::begin_next_block() {
    constexpr std::size_t looked_at = 16384;
    finish_block();
    std::string head;
    const std::size_t head_line = pending_.front().number;
    for (const PendingLine& line : pending_) {
        head += line.text + "\n";
    }
    const std::size_t waiting = head.size();
    const std::string_view rest = text_.substr(0, std::max(std::min(text_.size(), looked_at), text_.find('\n') + 1));
    head += rest.substr(0, rest.rfind('\n') + 1);
    const std::optional<char> mark = decimal_known_ ? std::optional(dialect_.decimal_mark) : options_.decimal_mark;
    const DialectGuess guess = guess_dialect(head, head_line, dialect_.delimiter, mark);
    begin_block(guess);
    const HeadRow& first = guess.head.rows()[current_.layout.first_data_row];
    const auto begin = static_cast<std::size_t>(first.text.data() - head.data());
    if (begin > waiting) {
        text_.remove_prefix(begin - waiting);
        line_ = first.line;
    }
    pending_.clear();
}

void TableAssembly::finish_block() {
    Block& block = current_;
    dialect_ = block.reader->dialect();
    decimal_known_ = block.reader->decimal_known();
    block.rows = block.store->rows();
    if (block.rows == 0) {
        return;
    }
    block.last_line = block.rows - 1 + block.reader->line_offsets().back().second;
    block.columns = block.store->finish();
    block.first_index = trials_.size();
    for (TableBlock& trial : trials_of(block.layout, block.columns, block.rows)) {
        trial.first_line = block.first_line;
        trial.label = trial.label.empty() ? label_of(block.layout) : trial.label;
        trial.last_line =
            trial.rows == 0 ? block.first_line : line_of_row(block.reader->line_offsets(), trial.rows - 1);
        trials_.push_back(std::move(trial));
    }
    if (trials_.size() > most_trials) {
        throw Failure(FailureKind::unreadable_data, "too-many-trials",
                      "the rows fall apart into more than " + std::to_string(most_trials) + " trials",
                      "Check the file around this line; the delimiter may be wrong (--delimiter).",
                      Place{name_, block.first_line});
    }
    for (std::size_t i = block.first_index; i < trials_.size(); ++i) {
        const bool wanted =
            options_.trial ? !best_ || i + 1 == *options_.trial : !best_ || trials_[i].rows > trials_[best_trial_].rows;
        if (wanted) {
            best_trial_ = i;
            best_ = Block();
        }
    }
    if (best_ && best_trial_ >= block.first_index) {
        best_ = std::move(block);
    }
}

/// The trial that was chosen, as a table.
Table TableAssembly::finish() {
    if (trials_.empty()) {
        throw no_rows(name_);
    }
    // A lone trial may still come apart where its clock starts again, which is for the recording to see.
    if (options_.trial && *options_.trial > trials_.size() && trials_.size() > 1) {
        throw Failure(FailureKind::usage, "no-such-trial",
                      "trial " + std::to_string(*options_.trial) + " was asked for, but the file holds " +
                          std::to_string(trials_.size()),
                      "Choose with --trial 1 to " + std::to_string(trials_.size()) + ".", Place{name_});
    }
    Table table;
    TableDescription& description = table.description;
    description.dialect = best_->reader->dialect();
    description.dialect.encoding = dialect_.encoding;
    description.header_line = best_->layout.header_line;
    description.units_line = best_->layout.units_line;
    description.preamble = std::move(preamble_);
    std::size_t footer_line = 0;
    for (const PendingLine& line : pending_) {
        if (holds_text(line.text)) {
            footer_line = footer_line == 0 ? line.number : footer_line;
            description.footer.push_back(text_as_utf8(trimmed(line.text)));
        }
    }
    description.blocks = trials_;
    description.block_used = best_trial_;
    description.rows = trials_[best_trial_].rows;
    table.first_data_line = best_->first_line;
    table.line_offsets = best_->reader->line_offsets();

    Findings& findings = table.findings;
    if (windows_1252_) {
        findings.emplace_back("encoding-assumed", "the text is not UTF-8 and was read as Windows-1252", Place{name_});
    }
    note_lines(findings, "preamble-skipped", "above the table", description.preamble.size(), Place{name_, 1});
    findings.insert(findings.end(), best_->layout.findings.begin(), best_->layout.findings.end());
    note_blocks(findings, trials_, best_trial_, name_);
    note_lines(findings, "lines-skipped", "between the rows", skipped_lines_, Place{name_, first_skipped_line_});
    note_ragged(findings, best_->reader->ragged(), name_);
    if (best_->reader->has_cut_line()) {
        findings.emplace_back("last-row-cut", "the last line ends in the middle of a row; its last cell was not used",
                              Place{name_, cut_line_});
    }
    note_lines(findings, "footer-skipped", "below the table", description.footer.size(), Place{name_, footer_line});
    if (!best_->reader->decimal_known()) {
        check_decimal_mark(findings, best_->columns, best_->layout.headings, description.dialect, name_);
    }
    take_columns(table, best_->layout, std::move(best_->columns), options_, name_);
    return table;
}

}  // namespace jointrom
