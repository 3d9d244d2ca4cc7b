#pragma once

/// \file
/// Pieces of a web page. What comes from data can only get in as text, so it can never act as markup.

#include <concepts>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace jointrom {

/// Markup that is well-formed XML and HTML at once.
class Markup {
  public:
    Markup() = default;
    /// Text: what has a meaning in markup is escaped; what is no UTF-8 or may not stand in XML becomes U+FFFD.
    template <std::convertible_to<std::string_view> Text>
    Markup(const Text& text) : Markup(Escaped{}, std::string_view(text)) {}  // NOLINT(google-explicit-constructor)

    /// Markup that was made with the same care elsewhere, such as a figure. Never anything that holds data as they
    /// came.
    [[nodiscard]] static Markup made(std::string markup);

    Markup& operator+=(const Markup& more) {
        source_ += more.source_;
        return *this;
    }
    [[nodiscard]] friend Markup operator+(Markup a, const Markup& b) { return std::move(a += b); }

    [[nodiscard]] const std::string& source() const noexcept { return source_; }
    [[nodiscard]] bool empty() const noexcept { return source_.empty(); }

  private:
    struct Escaped {};
    Markup(Escaped, std::string_view text);

    std::string source_;
};

struct Attribute {
    std::string_view name;
    std::string value;
};

/// <name attributes>content</name>; <name attributes/> for those that never have content, such as meta.
[[nodiscard]] Markup element(std::string_view name, const std::vector<Attribute>& attributes, const Markup& content);
[[nodiscard]] Markup element(std::string_view name, const Markup& content);
[[nodiscard]] Markup empty_element(std::string_view name, const std::vector<Attribute>& attributes);

}  // namespace jointrom
