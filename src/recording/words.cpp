#include "words.hpp"

#include <algorithm>
#include <array>
#include <cstddef>
#include <utility>

namespace jointrom {
namespace {

/// Letters U+00C0 to U+00FF without their accents, '?' where there is no letter.
constexpr std::string_view plain_latin1 = "AAAAAAACEEEEIIIIDNOOOOO?OUUUUYTsaaaaaaaceeeeiiiidnooooo?ouuuuyty";
static_assert(plain_latin1.size() == 64);

/// Further letters of Latin Extended-A that occur in the words that are looked for.
constexpr auto plain_latin_a = std::to_array<std::pair<unsigned, char>>(
    {{0x104, 'A'}, {0x105, 'a'}, {0x10C, 'C'}, {0x10D, 'c'}, {0x118, 'E'}, {0x119, 'e'}, {0x11A, 'E'},
     {0x11B, 'e'}, {0x141, 'L'}, {0x142, 'l'}, {0x147, 'N'}, {0x148, 'n'}, {0x158, 'R'}, {0x159, 'r'},
     {0x15A, 'S'}, {0x15B, 's'}, {0x160, 'S'}, {0x161, 's'}, {0x16E, 'U'}, {0x16F, 'u'}, {0x179, 'Z'},
     {0x17A, 'z'}, {0x17B, 'Z'}, {0x17C, 'z'}, {0x17D, 'Z'}, {0x17E, 'z'}});

/// The two-byte UTF-8 sequences are all that matter here; anything longer ends a word.
std::string without_accents(std::string_view text) {
    std::string result;
    for (std::size_t i = 0; i < text.size(); ++i) {
        const auto lead = static_cast<unsigned char>(text[i]);
        if (lead < 0x80) {
            result += text[i];
            continue;
        }
        if (lead < 0xC3 || lead > 0xCD || i + 1 == text.size()) {
            result += ' ';
            continue;
        }
        const unsigned letter = (lead & 0x1FU) << 6U | (static_cast<unsigned char>(text[++i]) & 0x3FU);
        const auto* const found = std::ranges::find(plain_latin_a, letter, &std::pair<unsigned, char>::first);
        if (letter < 0x100) {
            const char plain = plain_latin1[letter - 0xC0];
            result += plain == '?' ? ' ' : plain;
        } else if (found != plain_latin_a.end()) {
            result += found->second;
        } else if (letter < 0x300) {  // an accent that stands behind its letter needs nothing
            result += ' ';
        }
    }
    return result;
}

bool is_capital(char c) {
    return c >= 'A' && c <= 'Z';
}

bool is_small(char c) {
    return c >= 'a' && c <= 'z';
}

/// Adds one run of letters: its parts between capitals and, if there are several, the run itself.
void add_run(std::string_view run, std::vector<std::string>& words) {
    std::string whole;
    std::string part;
    std::size_t parts = 0;
    for (std::size_t i = 0; i < run.size(); ++i) {
        const bool starts_word =
            i > 0 && is_capital(run[i]) && (is_small(run[i - 1]) || (i + 1 < run.size() && is_small(run[i + 1])));
        if (starts_word) {
            words.push_back(std::exchange(part, {}));
            ++parts;
        }
        const char small = is_capital(run[i]) ? static_cast<char>(run[i] - 'A' + 'a') : run[i];
        part += small;
        whole += small;
    }
    words.push_back(part);
    if (parts > 0) {
        words.push_back(whole);
    }
}

}  // namespace

std::vector<std::string> words_of(std::string_view text) {
    const std::string plain = without_accents(text);
    std::vector<std::string> words;
    for (std::size_t i = 0; i < plain.size();) {
        std::size_t end = i;
        while (end < plain.size() && (is_capital(plain[end]) || is_small(plain[end]))) {
            ++end;
        }
        if (end > i) {
            add_run(std::string_view(plain).substr(i, end - i), words);
        }
        i = std::max(end, i + 1);
    }
    return words;
}

bool fits(std::string_view word, std::string_view pattern) {
    const bool open_front = pattern.starts_with('*');
    const bool open_back = pattern.ends_with('*');
    pattern.remove_prefix(open_front ? 1 : 0);
    pattern.remove_suffix(open_back ? 1 : 0);
    if (open_front && open_back) {
        return word.find(pattern) != std::string_view::npos;
    }
    return open_front ? word.ends_with(pattern) : open_back ? word.starts_with(pattern) : word == pattern;
}

bool any_fits(const std::vector<std::string>& words, std::initializer_list<std::string_view> patterns) {
    return std::ranges::any_of(words, [&](const std::string& word) {
        return std::ranges::any_of(patterns, [&](std::string_view pattern) { return fits(word, pattern); });
    });
}

}  // namespace jointrom
