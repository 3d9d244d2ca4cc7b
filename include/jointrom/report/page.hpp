#pragma once

/// \file
/// A web page in one file: style and script are in it, it asks for nothing from outside, and it is complete without the
/// script.

#include <jointrom/report/markup.hpp>

#include <string>

namespace jointrom {

struct Page {
    std::string title;
    std::string description;  ///< one sentence
    Markup body;
};

/// The page as text. Same page, same bytes.
///
/// Method: a policy in its head forbids every request and every style and script but the two in it, which it names by
/// their SHA-256 (W3C Content Security Policy Level 3). Well-formed XML, so that other programs can take it apart.
[[nodiscard]] std::string page_text(const Page& page);

}  // namespace jointrom
