#include "recording/annotation_list.hpp"

#include "table/decoding.hpp"

#include <jointrom/core/number_text.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <optional>
#include <utility>

namespace jointrom {
namespace {

constexpr char end_of_text = '\x14';
constexpr char start_of_duration = '\x15';
constexpr double longest_s = 1e9;  // 30 years

/// Digits with one '.' among them at most, as EDF+ writes times.
std::optional<double> plain_number(std::string_view text) {
    const bool is_plain = text.find_first_not_of("0123456789.") == std::string_view::npos;
    const auto number = is_plain ? parse_number(text) : std::nullopt;
    return number && *number <= longest_s ? number : std::nullopt;
}

/// "+12.5" or "-0.25".
std::optional<double> onset_of(std::string_view text) {
    if (!text.starts_with('+') && !text.starts_with('-')) {
        return std::nullopt;
    }
    const auto size = plain_number(text.substr(1));
    return size && text.starts_with('-') ? std::optional(-*size) : size;
}

/// On one line, and harmless on a terminal: control characters (U+0000 to U+001F, U+007F to U+009F) become blanks.
std::string clean_text(std::string_view bytes) {
    const std::string text = text_as_utf8(bytes);
    std::string result;
    for (std::size_t i = 0; i < text.size(); ++i) {
        const auto byte = static_cast<unsigned char>(text[i]);
        const auto next = static_cast<unsigned char>(i + 1 < text.size() ? text[i + 1] : 0);
        const bool is_high_control = byte == 0xC2 && next >= 0x80 && next < 0xA0;
        result += byte < 0x20 || byte == 0x7F || is_high_control ? ' ' : text[i];
        i += is_high_control ? 1U : 0U;
    }
    return result;
}

/// What stands before the mark; `rest` begins behind it, and is empty when there is none.
std::string_view cut_at(std::string_view& rest, char mark) {
    const std::size_t length = std::min(rest.find(mark), rest.size());
    const std::string_view part = rest.substr(0, length);
    rest.remove_prefix(std::min(length + 1, rest.size()));
    return part;
}

}  // namespace

void AnnotationList::add(std::string_view bytes) {
    while (!bytes.empty()) {
        const std::string_view list = cut_at(bytes, '\0');
        if (!list.empty()) {
            add_list(list);
        }
    }
}

void AnnotationList::add_list(std::string_view list) {
    const bool keeps_time = std::exchange(is_first_, false);
    if (!list.ends_with(end_of_text)) {
        ++malformed_;
        return;
    }
    std::string_view head = cut_at(list, end_of_text);
    const bool has_duration = head.find(start_of_duration) != std::string_view::npos;
    const auto onset = onset_of(cut_at(head, start_of_duration));
    const auto duration = has_duration ? plain_number(head) : std::nullopt;
    if (!onset || (has_duration && !duration)) {
        ++malformed_;
        return;
    }
    if (keeps_time) {
        first_record_ = Seconds(*onset);
    }
    while (!list.empty()) {
        const std::string_view text = cut_at(list, end_of_text);
        if (text.empty()) {  // keeps time
            continue;
        }
        if (rows_.size() == most_) {
            ++too_many_;
            continue;
        }
        rows_.push_back({Seconds(*onset) - first_record_, duration ? Seconds(*duration) : Seconds(), clean_text(text)});
    }
}

Annotations AnnotationList::finish() {
    std::ranges::stable_sort(rows_, {}, [](const Annotation& a) { return a.start.value(); });
    Annotations result{std::move(rows_), {}};
    if (malformed_ > 0) {
        result.findings.emplace_back("annotations-left-out",
                                     malformed_ == 1
                                         ? "1 annotation is not written as EDF+ has it"
                                         : fmt::format("{} annotations are not written as EDF+ has them", malformed_));
    }
    if (too_many_ > 0) {
        result.findings.emplace_back("annotations-left-out",
                                     fmt::format("{} annotations beyond the first {}", too_many_, most_));
    }
    return result;
}

}  // namespace jointrom
