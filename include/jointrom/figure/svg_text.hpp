#pragma once

/// \file
/// Text and numbers as an SVG holds them, and how wide text will be.

#include <string>
#include <string_view>

namespace jointrom {

/// Text as it may stand in XML: markup escaped; what is no UTF-8 or may not stand in XML replaced by U+FFFD.
[[nodiscard]] std::string xml_text(std::string_view text);

/// At most two decimals, as few as needed.
[[nodiscard]] std::string pixel_text(double value);

/// How wide a text will be at most in the usual sans-serif fonts: the sum of widths rounded up (DejaVu Sans).
[[nodiscard]] double text_width_px(std::string_view text, double font_px);

/// The text, cut with an ellipsis where it is wider than `width_px`.
[[nodiscard]] std::string shortened(std::string_view text, double width_px, double font_px);

}  // namespace jointrom
