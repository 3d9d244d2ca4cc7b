#pragma once

/// \file
/// Questions about many bytes at once, in loops that compilers turn into vector instructions.

#include <algorithm>
#include <cstddef>
#include <cstdint>
#include <string_view>

namespace jointrom {

/// How many bytes of `text` fulfil `predicate`, which should have no branches.
template <typename Predicate>
[[nodiscard]] std::size_t count_bytes(std::string_view text, Predicate predicate) {
    constexpr std::size_t most = 255;  // what a byte can count
    std::size_t total = 0;
    while (!text.empty()) {
        const std::size_t size = std::min(text.size(), most);
        std::uint8_t count = 0;
        for (std::size_t i = 0; i < size; ++i) {
            count = static_cast<std::uint8_t>(count + (predicate(static_cast<unsigned char>(text[i])) ? 1 : 0));
        }
        total += count;
        text.remove_prefix(size);
    }
    return total;
}

[[nodiscard]] inline std::size_t count_lines(std::string_view text) {
    return count_bytes(text, [](unsigned char byte) { return byte == '\n'; });
}

[[nodiscard]] inline bool is_ascii(std::string_view text) {
    unsigned char all = 0;
    for (const char c : text) {
        all |= static_cast<unsigned char>(c);
    }
    return all < 0x80;
}

}  // namespace jointrom
