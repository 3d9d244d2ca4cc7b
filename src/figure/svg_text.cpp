#include <jointrom/figure/svg_text.hpp>

#include <jointrom/core/number_text.hpp>

#include <cstddef>

namespace jointrom {
namespace {

/// One character of UTF-8 text.
struct Character {
    char32_t code = 0xFFFD;  ///< what is no character of XML counts as U+FFFD
    std::size_t bytes = 1;
};

bool is_continuation(char byte) {
    return (static_cast<unsigned char>(byte) & 0xC0U) == 0x80U;
}

bool may_stand_in_xml(char32_t code) {
    return code == U'\t' || code == U'\n' || code == U'\r' || (code >= 0x20 && code < 0x7F) ||
           (code >= 0xA0 && code < 0xD800) || (code >= 0xE000 && code < 0xFFFE) || (code >= 0x10000 && code < 0x110000);
}

Character first_character(std::string_view text) {
    const auto lead = static_cast<unsigned char>(text.front());
    const std::size_t length = lead < 0x80   ? 1
                               : lead < 0xC2 ? 0
                               : lead < 0xE0 ? 2
                               : lead < 0xF0 ? 3
                               : lead < 0xF5 ? 4
                                             : 0;
    if (length == 0 || text.size() < length) {
        return {};
    }
    char32_t code = length == 1 ? lead : lead & (0xFFU >> (length + 1));
    for (std::size_t i = 1; i < length; ++i) {
        if (!is_continuation(text[i])) {
            return {};
        }
        code = (code << 6U) | (static_cast<unsigned char>(text[i]) & 0x3FU);
    }
    const bool is_overlong = (length == 3 && code < 0x800) || (length == 4 && code < 0x10000);
    if (is_overlong || !may_stand_in_xml(code)) {
        return {.bytes = is_overlong ? 1 : length};
    }
    return {code, length};
}

/// Widths of a wide sans-serif font (DejaVu Sans), rounded up, in parts of the font size.
double width_em(char32_t code) {
    static constexpr std::u32string_view narrow = U"iljItf.,:;'|!()[]/ \u00b7";
    static constexpr std::u32string_view wide = U"mwMW%@";
    if (narrow.find(code) != std::u32string_view::npos) {
        return 0.38;
    }
    if (wide.find(code) != std::u32string_view::npos) {
        return 0.98;
    }
    if (code >= 0x1100) {
        return code == U'\u2212' || code == U'\u2013' || code == U'\u2026' ? 0.84 : 1.0;
    }
    const bool is_capital =
        (code >= U'A' && code <= U'Z') || code == U'+' || code == U'=' || code == U'<' || code == U'>';
    return is_capital ? 0.72 : 0.63;
}

}  // namespace

std::string xml_text(std::string_view text) {
    std::string escaped;
    escaped.reserve(text.size());
    while (!text.empty()) {
        const Character character = first_character(text);
        switch (character.code) {
        case U'&':
            escaped += "&amp;";
            break;
        case U'<':
            escaped += "&lt;";
            break;
        case U'>':
            escaped += "&gt;";
            break;
        case U'"':
            escaped += "&quot;";
            break;
        case U'\'':
            escaped += "&#39;";
            break;
        case char32_t{0xFFFD}:
            escaped += "\uFFFD";
            break;
        default:
            escaped += text.substr(0, character.bytes);
        }
        text.remove_prefix(character.bytes);
    }
    return escaped;
}

std::string pixel_text(double value) {
    std::string text = fixed_text(value, 2);
    text.erase(text.find_last_not_of('0') + 1);
    if (text.ends_with('.')) {
        text.pop_back();
    }
    return text;
}

double text_width_px(std::string_view text, double font_px) {
    double width = 0.0;
    while (!text.empty()) {
        const Character character = first_character(text);
        width += width_em(character.code);
        text.remove_prefix(character.bytes);
    }
    return width * font_px;
}

std::string shortened(std::string_view text, double width_px, double font_px) {
    if (text_width_px(text, font_px) <= width_px) {
        return std::string(text);
    }
    const double room = width_px - text_width_px("\u2026", font_px);
    double width = 0.0;
    std::size_t kept = 0;
    while (kept < text.size()) {
        const Character character = first_character(text.substr(kept));
        width += width_em(character.code) * font_px;
        if (width > room) {
            break;
        }
        kept += character.bytes;
    }
    return std::string(text.substr(0, kept)) + "\u2026";
}

}  // namespace jointrom
