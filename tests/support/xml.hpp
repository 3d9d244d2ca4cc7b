#pragma once

/// \file
/// Is a text well-formed XML?

#include <string>
#include <string_view>

namespace jointrom::test {

/// What is wrong with a document, and where; empty when elements nest, there is one root, attributes are quoted and not
/// repeated, every & starts one of the five predefined entities or a character reference, and ids are not repeated.
/// Knows elements, attributes and text; no processing instructions, comments or declarations.
[[nodiscard]] std::string xml_fault(std::string_view text);

}  // namespace jointrom::test
