#include <table/text_blocks.hpp>

#include <jointrom/core/failure.hpp>

#include <algorithm>
#include <cstring>
#include <utility>

namespace jointrom {
namespace {

constexpr std::size_t block_size = std::size_t{256} << 10;  // fits the second-level cache
constexpr std::size_t longest_line = std::size_t{16} << 20;

}  // namespace

TextBlocks::TextBlocks(ByteSource& source, std::string name) : source_(source), name_(std::move(name)) {
    const std::size_t size = source_.size_hint();
    grow(size == 0 ? block_size : std::min(block_size, size + slack));
    // The encoding shows in the first bytes, before anything is converted.
    while (end_ < capacity_) {
        const std::size_t got = source_.read({buffer_.get() + end_, capacity_ - end_});
        if (got == 0) {
            at_end_ = true;
            break;
        }
        end_ += got;
    }
    const std::string_view head(buffer_.get(), end_);
    const EncodingGuess guess = guess_encoding(head);
    encoding_ = guess.encoding;
    begin_ = guess.mark_bytes;
    if (encoding_ == Encoding::utf16_little_endian || encoding_ == Encoding::utf16_big_endian) {
        utf16_.emplace(encoding_ == Encoding::utf16_big_endian);
        raw_.assign(buffer_.get() + begin_, buffer_.get() + end_);
        grow(Utf16Decoder::needed(raw_.size()));
        begin_ = 0;
        end_ = utf16_->decode(raw_, {buffer_.get(), capacity_});
        raw_.resize(block_size / 4);
    }
    if (at_end_) {
        drop_padding();
    }
    const std::string_view text(buffer_.get() + begin_, end_ - begin_);
    if (text.find_first_not_of(" \t\r\n\v\f\x1A") == std::string_view::npos && at_end_) {
        throw Failure(FailureKind::unreadable_data, "file-empty",
                      "the file is empty, where a table of numbers was expected",
                      "Export the recording again; the logger may have been stopped before it saved.", Place{name_});
    }
    if (const std::string_view what = not_text_but(text); !what.empty()) {
        throw Failure(FailureKind::unreadable_data, "not-text",
                      "this is " + std::string(what) + ", where a table as text was expected",
                      "Export the recording as CSV or tab-separated text.", Place{name_});
    }
    carriage_returns_ = text.find('\n') == std::string_view::npos && text.find('\r') != std::string_view::npos;
    if (carriage_returns_) {
        std::replace(buffer_.get() + begin_, buffer_.get() + end_, '\r', '\n');
    }
    std::memset(buffer_.get() + end_, 0, slack);
}

std::string_view TextBlocks::next() {
    while (true) {
        if (at_end_ && end_ > begin_ && buffer_[end_ - 1] != '\n') {
            buffer_[end_++] = '\n';
            buffer_[end_] = '\0';
            ends_in_a_line_ = true;
        }
        const std::string_view filled(buffer_.get() + begin_, end_ - begin_);
        if (const std::size_t last = filled.rfind('\n'); last != std::string_view::npos) {
            begin_ += last + 1;
            return filled.substr(0, last + 1);
        }
        if (at_end_) {
            return {};
        }
        fill();
    }
}

/// Zero bytes with which a memory card fills up a file, and the end-of-file mark of old systems.
void TextBlocks::drop_padding() {
    while (end_ > begin_ && (buffer_[end_ - 1] == '\0' || buffer_[end_ - 1] == '\x1A')) {
        --end_;
    }
}

/// Moves what is left to the front and reads on behind it.
void TextBlocks::fill() {
    std::memmove(buffer_.get(), buffer_.get() + begin_, end_ - begin_);
    end_ -= begin_;
    begin_ = 0;
    if (end_ > capacity_ / 2) {
        if (end_ >= longest_line) {
            throw Failure(FailureKind::unreadable_data, "line-too-long",
                          "a line is longer than 16 MiB, where rows of a table were expected",
                          "Export one row per sample, with line ends.", Place{name_});
        }
        grow(capacity_ * 2);
    }
    while (end_ < capacity_ && read_some() > 0) {
    }
    if (at_end_) {
        drop_padding();
    }
    std::memset(buffer_.get() + end_, 0, slack);
}

std::size_t TextBlocks::read_some() {
    std::size_t got = 0;
    if (utf16_) {
        const std::size_t space = capacity_ - end_;
        if (space < 16) {
            return 0;
        }
        const std::size_t room = std::min(raw_.size(), (space - 8) / 3 * 2);
        const std::size_t bytes = source_.read({raw_.data(), room});
        at_end_ = bytes == 0;
        got = utf16_->decode({raw_.data(), bytes}, {buffer_.get() + end_, capacity_ - end_});
    } else {
        got = source_.read({buffer_.get() + end_, capacity_ - end_});
        at_end_ = got == 0;
    }
    if (carriage_returns_) {
        std::replace(buffer_.get() + end_, buffer_.get() + end_ + got, '\r', '\n');
    }
    end_ += got;
    return got;
}

void TextBlocks::grow(std::size_t capacity) {
    // One more than the capacity for a last line end, and the slack.
    std::unique_ptr<char[]> larger(new char[capacity + 1 + slack]);
    if (end_ > 0) {
        std::memcpy(larger.get(), buffer_.get(), end_);
    }
    buffer_ = std::move(larger);
    capacity_ = capacity;
}

}  // namespace jointrom
