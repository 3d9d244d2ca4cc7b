#include <table/plain_rows.hpp>

#include <table/decoding.hpp>
#include <table/row_split.hpp>

#include <limits>
#include <optional>
#include <string_view>

namespace jointrom {
namespace {

constexpr double missing = std::numeric_limits<double>::quiet_NaN();

/// What does not change from row to row. Runs of blanks as the delimiter have a loop of their own.
template <bool blanks_delimit>
class PlainRows {
  public:
    PlainRows(char delimiter, char mark, const char* end, ColumnStore& columns)
        : delimiter_(delimiter), mark_(mark), end_(end), columns_(columns), slots_(columns.slots()),
          count_(columns.size()) {}

    /// The front of the line behind a plain row; null if the row is not one.
    const char* read(const char* p, std::size_t row) const {
        bool has_value = false;
        for (std::size_t c = 0; c < count_; ++c) {
            ColumnStore::Slot& slot = slots_[c];
            double& value = slot.values[row];
            if (slot.kind == CellKind::number) [[likely]] {
                if (scan_number(p, end_, mark_, slot.shape, value)) [[likely]] {
                    has_value = true;
                } else {
                    p = read_padded(p, slot, value, has_value);
                }
            } else {
                p = read_other(p, c, value, has_value);
            }
            if (p == nullptr) {
                return nullptr;
            }
            if (!blanks_delimit && *p == delimiter_) [[likely]] {
                ++p;
                continue;
            }
            const char* const behind = p;
            p = skip_blanks(p);
            const bool at_end = *p == '\n' || *p == '\r';
            if (c + 1 < count_ && (at_end || (blanks_delimit ? p == behind : *p != delimiter_))) {
                return nullptr;
            }
            p += c + 1 < count_ && !blanks_delimit ? 1 : 0;
        }
        while (*p == '\r' || *p == delimiter_ || is_blank(*p)) {
            ++p;
        }
        return *p == '\n' && has_value ? p + 1 : nullptr;
    }

  private:
    static bool is_blank(char c) { return c == ' ' || (blanks_delimit && c == '\t'); }

    static const char* skip_blanks(const char* p) {
        while (is_blank(*p)) {
            ++p;
        }
        return p;
    }

    /// A number behind blanks, or a blank cell.
    const char* read_padded(const char* p, ColumnStore::Slot& slot, double& value, bool& has_value) const {
        p = skip_blanks(p);
        if (scan_number(p, end_, mark_, slot.shape, value)) {
            has_value = true;
            return p;
        }
        value = missing;
        return *p == delimiter_ || *p == '\n' || *p == '\r' ? p : nullptr;
    }

    /// A cell of a column of text or of times.
    const char* read_other(const char* p, std::size_t c, double& value, bool& has_value) const {
        const char* const begin = skip_blanks(p);
        p = begin;
        while (*p != delimiter_ && *p != '\n' && !is_blank_delimiter(*p)) {
            ++p;
        }
        const std::string_view cell = trimmed({begin, static_cast<std::size_t>(p - begin)});
        ColumnStore::Column& column = columns_[c];
        value = missing;
        if (column.kind == CellKind::text) {
            if (cell.starts_with('"')) {
                return nullptr;
            }
            if (column.first_text.empty()) {
                column.first_text = text_as_utf8(cell);
            }
            return p;
        }
        const std::optional<TimeCell> time = read_time_cell(cell);
        if (!time) {
            return nullptr;
        }
        value = column.times.seconds(*time);
        has_value = true;
        return p;
    }

    static bool is_blank_delimiter(char c) { return blanks_delimit && is_blank(c); }

    char delimiter_;
    char mark_;
    const char* end_;
    ColumnStore& columns_;
    ColumnStore::Slot* slots_;
    std::size_t count_;
};

template <bool blanks_delimit>
const char* read_rows(const char* p, const char* end, char delimiter, char mark, ColumnStore& columns) {
    const PlainRows<blanks_delimit> rows(delimiter, mark, end, columns);
    while (p < end) {
        const std::size_t first = columns.rows_in_step();
        const std::size_t room = columns.room();
        std::size_t count = 0;
        const char* next = p;
        while (count < room && p < end && (next = rows.read(p, first + count)) != nullptr) {
            p = next;
            ++count;
        }
        columns.add_rows(count);
        if (next == nullptr) {
            break;
        }
    }
    return p;
}

}  // namespace

const char* read_plain_rows(const char* begin, const char* end, char delimiter, char mark, ColumnStore& columns) {
    return delimiter == ' ' ? read_rows<true>(begin, end, delimiter, mark, columns)
                            : read_rows<false>(begin, end, delimiter, mark, columns);
}

}  // namespace jointrom
