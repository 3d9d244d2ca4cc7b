#pragma once

/// \file
/// Numbers as text, the same on every machine: '.' is the decimal mark whatever the locale.

#include <optional>
#include <string>
#include <string_view>

namespace jointrom {

/// Reads the whole of `text` as one finite decimal number; a leading '+' is allowed. Empty text, blanks, hexadecimal,
/// "nan", "inf", a decimal comma or anything behind the number give nothing. Correctly rounded.
[[nodiscard]] std::optional<double> parse_number(std::string_view text);

/// `value` with a fixed number of decimals; minus zero is printed as zero, a missing value (NaN) as empty text. With
/// more than six decimals a small number has an exponent and the same figures: 0.0000000012 with ten decimals is
/// "1.2e-09".
[[nodiscard]] std::string fixed_text(double value, int decimals);

/// The shortest text that reads back as `value`; a missing value (NaN) as empty text.
[[nodiscard]] std::string shortest_text(double value);

}  // namespace jointrom
