#include "recording/annotation_list.hpp"

#include <jointrom/core/number_text.hpp>
#include <jointrom/recording/annotations.hpp>

#include <algorithm>
#include <fstream>
#include <optional>
#include <system_error>

namespace jointrom {
namespace {

constexpr std::size_t most_annotations = 100'000;
constexpr std::size_t head_bytes = 256;  // of the file, and of each signal
constexpr std::size_t sample_bytes = 2;

std::string read_bytes(std::ifstream& file, std::size_t at, std::size_t count) {
    std::string bytes(count, '\0');
    file.seekg(static_cast<std::streamoff>(at));
    file.read(bytes.data(), static_cast<std::streamsize>(count));
    return file ? bytes : std::string();
}

/// A field of the header that holds a whole number, filled up with blanks.
std::optional<std::size_t> whole_number(std::string_view header, std::size_t at, std::size_t width) {
    const std::string_view field = header.substr(at, width);
    const auto number = parse_number(field.substr(0, field.find_last_not_of(' ') + 1));
    return number && *number >= 0.0 && *number < 1e9 ? std::optional(static_cast<std::size_t>(*number)) : std::nullopt;
}

struct Piece {
    std::size_t offset, bytes;  ///< in a record
};

/// Where annotations stand in an EDF+ file (Kemp et al. 1992, table 1; Kemp and Olivan 2003).
struct AnnotationLayout {
    std::vector<Piece> pieces;
    std::size_t first_record = 0, record_bytes = 0, records = 0;
};

std::optional<AnnotationLayout> find_annotations(std::ifstream& file) {
    const std::string head = read_bytes(file, 0, head_bytes);
    if (head.size() != head_bytes || head.compare(192, 4, "EDF+") != 0) {
        return std::nullopt;
    }
    const auto records = whole_number(head, 236, 8), signals = whole_number(head, 252, 4);
    if (!records || !signals) {
        return std::nullopt;
    }
    const std::string heads = read_bytes(file, head_bytes, *signals * head_bytes);
    if (heads.size() != *signals * head_bytes) {
        return std::nullopt;
    }
    AnnotationLayout layout{{}, (*signals + 1) * head_bytes, 0, *records};
    for (std::size_t i = 0; i < *signals; ++i) {
        const auto samples = whole_number(heads, *signals * 216 + i * 8, 8);
        if (!samples) {
            return std::nullopt;
        }
        if (heads.compare(i * 16, 16, "EDF Annotations ") == 0) {
            layout.pieces.push_back({layout.record_bytes, *samples * sample_bytes});
        }
        layout.record_bytes += *samples * sample_bytes;
    }
    return layout;
}

}  // namespace

Annotations read_annotations(const std::filesystem::path& path) {
    std::ifstream file(path, std::ios::binary);
    const auto layout = find_annotations(file);
    if (!layout || layout->record_bytes == 0) {
        return {};
    }
    std::error_code none;
    const std::size_t size = std::filesystem::file_size(path, none);
    const std::size_t whole = size < layout->first_record ? 0 : (size - layout->first_record) / layout->record_bytes;
    AnnotationList list(most_annotations);
    for (std::size_t record = 0; record < std::min(layout->records, whole); ++record) {
        for (const Piece& piece : layout->pieces) {
            list.add(
                read_bytes(file, layout->first_record + record * layout->record_bytes + piece.offset, piece.bytes));
        }
    }
    return list.finish();
}

}  // namespace jointrom
