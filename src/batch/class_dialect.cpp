#include "batch/class_dialect.hpp"

#include <jointrom/recording/recording_files.hpp>
#include <jointrom/table/table_reader.hpp>

#include <algorithm>
#include <array>
#include <vector>

namespace jointrom {
namespace {

constexpr std::size_t sample_size = 9;
constexpr std::size_t head_bytes = std::size_t{64} << 10;

std::optional<Dialect> dialect_of(const std::filesystem::path& path, const TableOptions& options) {
    try {
        std::array<char, head_bytes> head{};
        const std::unique_ptr<ByteSource> file = file_source(path);
        std::size_t size = 0;
        for (std::size_t got = 1; got > 0 && size < head.size(); size += got) {
            got = file->read(std::span(head).subspan(size));
        }
        std::string_view text(head.data(), size);
        if (size == head.size()) {
            text = text.substr(0, text.rfind('\n') + 1);  // the last row may be cut
        }
        const Table table = read_table_text(text, path.string(), options);
        return contains(table.findings, "decimal-ambiguous") ? std::nullopt : std::optional(table.description.dialect);
    } catch (const Failure&) {
        return std::nullopt;  // what is wrong with the file is told when it is measured
    }
}

bool is_alike(const Dialect& a, const Dialect& b) {
    return a.delimiter == b.delimiter && a.decimal_mark == b.decimal_mark;
}

}  // namespace

std::optional<Dialect> class_dialect(std::span<const ClassEntry> entries, const ReadingOptions& options) {
    if (options.delimiter && options.decimal_mark) {
        return std::nullopt;
    }
    TableOptions table_options;
    table_options.delimiter = options.delimiter;
    table_options.decimal_mark = options.decimal_mark;
    std::vector<const ClassEntry*> exports;
    for (const ClassEntry& entry : entries) {
        if (!is_of_standard(entry.path)) {
            exports.push_back(&entry);
        }
    }
    std::vector<Dialect> found;
    const std::size_t count = std::min(sample_size, exports.size());
    for (std::size_t k = 0; k < count; ++k) {
        if (const auto dialect = dialect_of(exports[k * exports.size() / count]->path, table_options)) {
            found.push_back(*dialect);
        }
    }
    std::optional<Dialect> best;
    std::ptrdiff_t most = 0;
    for (const Dialect& dialect : found) {
        const auto alike = std::ranges::count_if(found, [&](const Dialect& other) { return is_alike(dialect, other); });
        if (alike > most) {
            most = alike;
            best = dialect;
        }
    }
    return best;
}

}  // namespace jointrom
