#pragma once

/// \file
/// Words in names that people give to columns and files: "IMU_LeftElbow_Ext.-Flex." holds "left", "elbow", "flex".

#include <initializer_list>
#include <string>
#include <string_view>
#include <vector>

namespace jointrom {

/// The words of `text` in small letters without accents. Words end at anything but letters, at digits and where a
/// small letter is followed by a capital; a name that was cut at capitals is there as a whole as well.
[[nodiscard]] std::vector<std::string> words_of(std::string_view text);

/// Whether a word fits a pattern: "t" is the whole word, "time*" its beginning, "*zeit" its end, "*angle*" any part.
[[nodiscard]] bool fits(std::string_view word, std::string_view pattern);

/// Whether any of the words fits any of the patterns.
[[nodiscard]] bool any_fits(const std::vector<std::string>& words, std::initializer_list<std::string_view> patterns);

}  // namespace jointrom
