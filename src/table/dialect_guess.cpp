#include <table/dialect_guess.hpp>

#include <algorithm>
#include <array>
#include <utility>
#include <vector>

namespace jointrom {
namespace {

/// The part of the text that a sample of `rows` rows covers.
std::string_view sample_of(std::string_view text, std::size_t rows) {
    std::size_t end = 0;
    for (std::size_t i = 0; i < rows && end < text.size(); ++i) {
        end = std::min(text.find('\n', end), text.size() - 1) + 1;
    }
    return text.substr(0, end);
}

bool has(std::string_view text, char c) {
    return text.find(c) != std::string_view::npos;
}

double rating(const DialectGuess& guess) {
    if (!guess.run) {
        return -1.0e9;
    }
    double factor = 1.0;
    factor -= guess.head.grouping_mark() != 0 ? 0.02 : 0.0;
    factor -= guess.delimiter == ' ' ? 0.01 : 0.0;
    return guess.run->score - (1.0 - factor) * std::abs(guess.run->score);
}

class Contest {
  public:
    Contest(std::string_view text, std::size_t first_line, std::size_t rows, std::optional<char> decimal_mark)
        : text_(text), sample_(sample_of(text, rows)), first_line_(first_line), rows_(rows),
          decimal_mark_(decimal_mark) {}

    void try_delimiter(char delimiter) {
        if (decimal_mark_) {
            try_dialect(delimiter, *decimal_mark_);
            return;
        }
        try_dialect(delimiter, '.');
        const bool comma_can_mark = delimiter != ',' || best_->head.has_quotes();
        if (comma_can_mark && has(sample_, ',')) {
            try_dialect(delimiter, ',');
        }
    }

    [[nodiscard]] std::string_view sample() const noexcept { return sample_; }
    [[nodiscard]] bool is_empty() const noexcept { return !best_; }
    [[nodiscard]] const DialectGuess& best() const { return *best_; }
    [[nodiscard]] DialectGuess take() { return std::move(*best_); }

    /// Whether the best reading makes most rows even ones of numbers alone.
    [[nodiscard]] bool is_clean() const {
        return best_ && best_->run && best_->run->texts == 0 && best_->run->width > 1 && !best_->run->is_ragged &&
               2 * best_->run->rows > best_->head.rows().size();
    }

    /// Whether more rows could hardly change the choice.
    [[nodiscard]] bool is_settled() const {
        const std::optional<Run>& run = best_->run;
        return best_->head.complete() ||
               (run && run->rows >= 8 && run->numbers > 3 * run->texts && run->last == best_->head.rows().size());
    }

  private:
    void try_dialect(char delimiter, char decimal_mark) {
        DialectGuess guess{
            delimiter, decimal_mark, false, false, HeadRows(text_, first_line_, rows_, delimiter, decimal_mark), {}};
        guess.run = best_run(guess.head);
        const bool only_point = delimiter == ',' && decimal_mark == '.' && !guess.head.has_quotes();
        guess.decimal_known = decimal_mark_.has_value() || only_point || (guess.run && guess.run->proves_mark);
        if (!best_ || rating(guess) > rating(*best_)) {
            best_ = std::move(guess);
        }
    }

    std::string_view text_;
    std::string_view sample_;
    std::size_t first_line_;
    std::size_t rows_;
    std::optional<char> decimal_mark_;
    std::optional<DialectGuess> best_;
};

DialectGuess best_of(std::string_view text, std::size_t first_line, std::size_t rows, std::optional<char> delimiter,
                     std::optional<char> decimal_mark, bool& settled) {
    Contest contest(text, first_line, rows, decimal_mark);
    if (delimiter) {
        contest.try_delimiter(*delimiter);
    } else {
        for (const char candidate : {',', ';', '\t', '|'}) {
            if (has(contest.sample(), candidate)) {
                contest.try_delimiter(candidate);
            }
        }
        const bool has_blanks = has(contest.sample(), ' ') || has(contest.sample(), '\t');
        if (contest.is_empty() || (!contest.is_clean() && has_blanks)) {
            contest.try_delimiter(has_blanks ? ' ' : ',');
        }
    }
    settled = contest.is_settled();
    DialectGuess best = contest.take();
    best.stated = delimiter.has_value() && decimal_mark.has_value();
    return best;
}

}  // namespace

std::optional<char> take_separator_line(std::string_view& text) {
    const std::size_t end = text.find('\n');
    std::string_view line = trimmed(text.substr(0, end));
    if (line.size() >= 2 && line.front() == '"' && line.back() == '"') {
        line = line.substr(1, line.size() - 2);
    }
    const bool is_separator_line = line.size() == 5 && (line[0] | 0x20) == 's' && (line[1] | 0x20) == 'e' &&
                                   (line[2] | 0x20) == 'p' && line[3] == '=';
    // "sep=<tab>" loses its tab to trimming.
    const bool tab = (line == "sep=" || line == "SEP=") && has(text.substr(0, end), '\t');
    if (!is_separator_line && !tab) {
        return std::nullopt;
    }
    const char delimiter = tab ? '\t' : line[4];
    text.remove_prefix(std::min(end, text.size() - 1) + 1);
    return delimiter;
}

DialectGuess guess_dialect(std::string_view text, std::size_t first_line, std::optional<char> delimiter,
                           std::optional<char> decimal_mark) {
    constexpr std::array<std::size_t, 3> sample_rows = {16, 256, static_cast<std::size_t>(-1)};
    bool settled = false;
    for (std::size_t i = 0;; ++i) {
        DialectGuess guess = best_of(text, first_line, sample_rows[i], delimiter, decimal_mark, settled);
        if (settled || i + 1 == sample_rows.size()) {
            return guess;
        }
    }
}

}  // namespace jointrom
