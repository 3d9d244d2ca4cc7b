#include <jointrom/report/markup.hpp>

#include <jointrom/figure/svg_text.hpp>

#include <algorithm>
#include <array>

namespace jointrom {
namespace {

/// Elements that a line end may follow without a change to what is seen.
bool ends_line(std::string_view name) {
    constexpr auto blocks = std::to_array<std::string_view>(
        {"body",    "dd",    "div",   "dl",     "dt",    "figcaption", "figure", "h1", "h2",
         "h3",      "h4",    "head",  "header", "li",    "meta",       "nav",    "p",  "script",
         "section", "style", "table", "tbody",  "thead", "title",      "tr",     "ul"});
    return std::ranges::find(blocks, name) != blocks.end();
}

std::string opening(std::string_view name, const std::vector<Attribute>& attributes) {
    std::string text = "<" + std::string(name);
    for (const Attribute& attribute : attributes) {
        text.append(" ").append(attribute.name).append("=\"").append(xml_text(attribute.value)).append("\"");
    }
    return text;
}

}  // namespace

Markup::Markup(Escaped, std::string_view text) : source_(xml_text(text)) {}

Markup Markup::made(std::string markup) {
    Markup result;
    result.source_ = std::move(markup);
    return result;
}

Markup element(std::string_view name, const std::vector<Attribute>& attributes, const Markup& content) {
    std::string text = opening(name, attributes) + ">";
    text.append(content.source()).append("</").append(name).append(ends_line(name) ? ">\n" : ">");
    return Markup::made(std::move(text));
}

Markup element(std::string_view name, const Markup& content) {
    return element(name, {}, content);
}

Markup empty_element(std::string_view name, const std::vector<Attribute>& attributes) {
    return Markup::made(opening(name, attributes) + (ends_line(name) ? "/>\n" : "/>"));
}

}  // namespace jointrom
