#include <jointrom/report/page.hpp>

#include <jointrom/core/checksum.hpp>
#include <jointrom/figure/figure_style.hpp>

#include <charconv>

namespace jointrom {
namespace embedded {
extern const std::string_view page_css;
extern const std::string_view page_js;
}  // namespace embedded
namespace {

/// The bytes that hexadecimal text stands for, in base64 (RFC 4648).
std::string base64_of_hexadecimal(std::string_view text) {
    constexpr std::string_view digits = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";
    std::string result;
    for (std::size_t at = 0; at < text.size(); at += 6) {  // three bytes make four digits
        const std::string_view piece = text.substr(at, 6);
        unsigned bits = 0;
        std::from_chars(piece.data(), piece.data() + piece.size(), bits, 16);
        bits <<= 4U * static_cast<unsigned>(6 - piece.size());
        const std::size_t wanted = piece.size() * 2 / 3 + (piece.size() == 6 ? 0 : 1);
        for (std::size_t digit = 0; digit < 4; ++digit) {
            result += digit < wanted ? digits[(bits >> (18U - 6U * static_cast<unsigned>(digit))) & 63U] : '=';
        }
    }
    return result;
}

std::string source_of(std::string_view text) {
    return "'sha256-" + base64_of_hexadecimal(sha256_of(text)) + "'";
}

const std::string& style() {
    static const std::string text = "\n" + std::string(embedded::page_css) + figure_style_sheet();
    return text;
}

const std::string& script() {
    static const std::string text = "\n" + std::string(embedded::page_js);
    return text;
}

Markup meta(std::string name, std::string content) {
    return empty_element("meta", {{"name", std::move(name)}, {"content", std::move(content)}});
}

Markup head(const Page& page) {
    static const std::string policy = "default-src 'none'; style-src " + source_of(style()) + "; script-src " +
                                      source_of(script()) + "; base-uri 'none'; form-action 'none'";
    return element("head", empty_element("meta", {{"charset", "utf-8"}}) +
                               empty_element("meta", {{"http-equiv", "Content-Security-Policy"}, {"content", policy}}) +
                               meta("viewport", "width=device-width, initial-scale=1") +
                               meta("referrer", "no-referrer") + meta("description", page.description) +
                               element("title", page.title) + element("style", Markup::made(style())));
}

}  // namespace

std::string page_text(const Page& page) {
    return "<!DOCTYPE html>\n" +
           element("html", {{"lang", "en"}},
                   head(page) + element("body", page.body + element("script", Markup::made(script()))))
               .source() +
           "\n";
}

}  // namespace jointrom
