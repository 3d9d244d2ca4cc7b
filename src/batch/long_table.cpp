#include <jointrom/batch/long_table.hpp>

#include "batch/text_codes.hpp"

#include <jointrom/core/failure.hpp>
#include <jointrom/core/natural_order.hpp>
#include <jointrom/table/record_reader.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <bit>
#include <cmath>
#include <filesystem>
#include <limits>
#include <memory>
#include <numeric>
#include <optional>
#include <system_error>

namespace jointrom {
namespace {

constexpr double largest_value = 1e15;  // far beyond any measurement, and its square is a number
constexpr std::uintmax_t most_reserved = std::uintmax_t{16} << 20U;

std::uintmax_t bytes_of(std::span<const std::string> files) {
    std::uintmax_t bytes = 0;
    for (const std::string& file : files) {
        std::error_code unknown;
        const std::uintmax_t size = std::filesystem::file_size(file, unknown);
        bytes += unknown ? 0 : size;
    }
    return bytes;
}

/// Where the wanted columns stand in one file.
struct ColumnPlaces {
    std::vector<std::size_t> texts;
    std::vector<std::size_t> numbers;
    std::optional<std::size_t> id;
    std::optional<std::size_t> status;
};

ColumnPlaces places_in(const RecordReader& reader, const LongTableRequest& request) {
    ColumnPlaces places;
    for (const std::string& name : request.texts) {
        places.texts.push_back(reader.column(name));
    }
    for (const std::string& name : request.numbers) {
        places.numbers.push_back(reader.column(name));
    }
    places.id = reader.find_column("id");
    places.status = reader.find_column("status");
    return places;
}

constexpr double nothing = std::numeric_limits<double>::quiet_NaN();

/// How spreadsheets and statistics programs write a value that is not there.
bool stands_for_nothing(std::string_view cell) {
    if (cell.empty() || (cell.front() >= '0' && cell.front() <= '9')) {
        return cell.empty();
    }
    constexpr auto words = std::to_array<std::string_view>({"NA", "N/A", "NaN", "nan", "null", "NULL", "-", "."});
    return std::ranges::find(words, cell) != words.end();
}

double number_in(const RecordReader& reader, std::size_t column) {
    if (stands_for_nothing(reader.text(column))) {
        return nothing;
    }
    const double value = reader.number(column);
    if (std::abs(value) > largest_value) {
        throw Failure(FailureKind::unreadable_data, "number-too-large",
                      fmt::format("{} is no measured value", reader.text(column)),
                      "Leave the cell empty if nothing was measured.", reader.place(column));
    }
    return value;
}

/// Gathers the rows of all files.
class Gatherer {
  public:
    /// \param bytes in all files, as far as known
    Gatherer(const ColumnChooser& choose, std::uintmax_t bytes) : choose_(choose), bytes_(bytes) {}

    void read(RecordReader reader, const std::string& name) {
        const ColumnPlaces places = begin_file(reader, name);
        std::size_t rows = 0;
        while (reader.next()) {
            ++rows;
            add_row(reader, places);
        }
        table_.files.emplace_back(name, rows);
    }

    LongTable finished() {
        drop_failed();
        for (std::size_t c = 0; c < codes_.size(); ++c) {
            put_in_order(table_.texts[c], codes_[c].texts());
        }
        return std::move(table_);
    }

  private:
    ColumnPlaces begin_file(const RecordReader& reader, const std::string& name) {
        const LongTableRequest request = choose_(reader.columns());
        const bool has_ids = reader.find_column("id") && reader.find_column("status");
        if (table_.files.empty()) {
            request_ = request;
            has_ids_ = has_ids;
            table_.headings = reader.columns();
            // Memory that is not used in the end is never touched.
            const std::uintmax_t shortest_row = 2 * std::max<std::size_t>(1, table_.headings.size());
            const auto most_rows = static_cast<std::size_t>(std::min(bytes_ / shortest_row, most_reserved));
            for (const std::string& column : request.texts) {
                table_.texts.push_back({column, {}, {}});
                table_.texts.back().codes.reserve(most_rows);
                codes_.emplace_back();
            }
            for (const std::string& column : request.numbers) {
                table_.numbers.push_back({column, {}});
                table_.numbers.back().values.reserve(most_rows);
            }
        } else if (request.texts != request_.texts || request.numbers != request_.numbers || has_ids != has_ids_) {
            throw Failure(FailureKind::unreadable_data, "columns-differ",
                          fmt::format("the columns of {} are others than those of {}", name, table_.files[0].first),
                          "Give tables of one kind; those of one result have the same columns.", Place{name});
        }
        return places_in(reader, request_);
    }

    void add_row(const RecordReader& reader, const ColumnPlaces& places) {
        for (std::size_t c = 0; c < places.texts.size(); ++c) {
            table_.texts[c].codes.push_back(codes_[c].code_of(reader.text(places.texts[c])));
        }
        const bool failed = places.status && reader.text(*places.status) == "failed";
        for (std::size_t c = 0; c < places.numbers.size(); ++c) {
            table_.numbers[c].values.push_back(number_in(reader, places.numbers[c]));
        }
        failed_.push_back(failed);
        if (has_ids_ && is_repeated(reader, *places.id)) {
            drop_last();
            ++table_.repeated;
        }
    }

    /// Whether the row just added stood there before.
    bool is_repeated(const RecordReader& reader, std::size_t id_column) {
        const std::string_view id = reader.text(id_column);
        if (id.empty()) {
            throw Failure(FailureKind::unreadable_data, "id-missing", "the row has no id",
                          "Fill in the column id, or rename it if it does not identify recordings.",
                          reader.place(id_column));
        }
        const auto row = static_cast<std::uint32_t>(table_.ids.size());
        const auto [before, known] =
            ids_.find_or_add(text_hash(id), row, [&](std::uint32_t candidate) { return table_.ids[candidate] == id; });
        if (!known) {
            table_.ids.add(id);
            return false;
        }
        if (!equal_rows(before, failed_.size() - 1)) {
            throw Failure(FailureKind::unreadable_data, "id-conflict",
                          fmt::format("the id '{}' stands for two different rows", id),
                          "Give each recording once; were the tables made with different settings?",
                          reader.place(id_column));
        }
        return true;
    }

    [[nodiscard]] bool equal_rows(std::size_t a, std::size_t b) const {
        const auto same_text = [&](const TextColumn& column) { return column.codes[a] == column.codes[b]; };
        const auto same_number = [&](const NumberColumn& column) {
            return std::bit_cast<std::uint64_t>(column.values[a]) == std::bit_cast<std::uint64_t>(column.values[b]);
        };
        return failed_[a] == failed_[b] && std::ranges::all_of(table_.texts, same_text) &&
               std::ranges::all_of(table_.numbers, same_number);
    }

    void drop_last() {
        for (TextColumn& column : table_.texts) {
            column.codes.pop_back();
        }
        for (NumberColumn& column : table_.numbers) {
            column.values.pop_back();
        }
        failed_.pop_back();
    }

    void drop_failed() {
        const auto drop = [&](auto& rows) {
            std::size_t kept = 0;
            for (std::size_t row = 0; row < rows.size(); ++row) {
                if (!failed_[row]) {
                    rows[kept++] = rows[row];
                }
            }
            rows.resize(kept);
        };
        table_.failed = static_cast<std::size_t>(std::ranges::count(failed_, true));
        table_.rows = failed_.size() - table_.failed;
        if (table_.failed == 0) {
            return;
        }
        for (TextColumn& column : table_.texts) {
            drop(column.codes);
        }
        for (NumberColumn& column : table_.numbers) {
            drop(column.values);
        }
        if (has_ids_) {
            table_.id_of.resize(failed_.size());
            std::iota(table_.id_of.begin(), table_.id_of.end(), 0U);
            drop(table_.id_of);
        }
    }

    /// Numbers the texts that are in use anew, in their natural order.
    static void put_in_order(TextColumn& column, const std::vector<std::string>& texts) {
        std::vector<std::uint32_t> order(texts.size());
        std::iota(order.begin(), order.end(), 0U);
        std::ranges::sort(order, [&](std::uint32_t a, std::uint32_t b) { return natural_less(texts[a], texts[b]); });
        std::vector<bool> in_use(texts.size(), false);
        for (const std::uint32_t code : column.codes) {
            in_use[code] = true;
        }
        std::vector<std::uint32_t> code_after(texts.size(), 0);
        for (const std::uint32_t code : order) {
            if (in_use[code]) {
                code_after[code] = static_cast<std::uint32_t>(column.texts.size());
                column.texts.push_back(texts[code]);
            }
        }
        for (std::uint32_t& code : column.codes) {
            code = code_after[code];
        }
    }

    const ColumnChooser& choose_;
    std::uintmax_t bytes_;
    LongTableRequest request_;
    bool has_ids_ = false;
    LongTable table_;
    std::vector<TextCodes> codes_;  ///< one a column of texts
    TextPlaces ids_;
    std::vector<bool> failed_;  ///< one a row
};

}  // namespace

std::size_t TextColumn::named() const {
    return static_cast<std::size_t>(std::ranges::count_if(texts, [](const auto& text) { return !text.empty(); }));
}

void TextList::add(std::string_view text) {
    letters_ += text;
    ends_.push_back(letters_.size());
}

std::string_view TextList::operator[](std::size_t row) const {
    const std::uint64_t begin = row == 0 ? 0 : ends_[row - 1];
    return std::string_view(letters_).substr(begin, ends_[row] - begin);
}

const TextColumn* LongTable::find_text(std::string_view name) const {
    const auto found = std::ranges::find(texts, name, &TextColumn::name);
    return found == texts.end() ? nullptr : &*found;
}

std::string_view LongTable::id(std::size_t row) const {
    if (ids.size() == 0) {
        return {};
    }
    return ids[id_of.empty() ? row : id_of[row]];
}

LongTable read_long_table(std::span<const std::string> files, std::istream& standard_input,
                          const ColumnChooser& choose) {
    Gatherer gatherer(choose, bytes_of(files));
    for (const std::string& file : files) {
        if (file == "-") {
            const std::unique_ptr<ByteSource> source = stream_source(standard_input);
            gatherer.read(RecordReader(*source, "standard input"), file);
        } else {
            gatherer.read(RecordReader(file), file);
        }
    }
    LongTable table = gatherer.finished();
    if (table.rows == 0) {
        const std::string what = table.failed > 0 ? fmt::format("all {} rows failed", table.failed)
                                                  : std::string("there are no rows below the headings");
        throw Failure(FailureKind::unreadable_data, "no-rows", what, "A class table needs at least one measurement.",
                      Place{files.empty() ? std::string() : files.front()});
    }
    return table;
}

}  // namespace jointrom
