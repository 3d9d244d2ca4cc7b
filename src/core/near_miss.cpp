#include <jointrom/core/near_miss.hpp>

#include <algorithm>
#include <numeric>
#include <vector>

namespace jointrom {
namespace {

char small_letter(char c) {
    return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
}

bool same(char a, char b) {
    return small_letter(a) == small_letter(b);
}

}  // namespace

std::size_t edit_distance(std::string_view a, std::string_view b) {
    // Three rows of the table of distances between the beginnings of both texts.
    std::vector<std::size_t> before_last, last(b.size() + 1), row(b.size() + 1);
    std::iota(last.begin(), last.end(), std::size_t{0});
    for (std::size_t i = 1; i <= a.size(); ++i) {
        row[0] = i;
        for (std::size_t j = 1; j <= b.size(); ++j) {
            const bool equal = same(a[i - 1], b[j - 1]);
            row[j] = std::min({last[j] + 1, row[j - 1] + 1, last[j - 1] + (equal ? 0 : 1)});
            if (i > 1 && j > 1 && same(a[i - 1], b[j - 2]) && same(a[i - 2], b[j - 1])) {
                row[j] = std::min(row[j], before_last[j - 2] + 1);
            }
        }
        before_last = last;
        std::swap(last, row);
    }
    return last[b.size()];
}

std::optional<std::string_view> nearest(std::string_view typed, std::span<const std::string_view> known) {
    std::optional<std::string_view> best;
    std::size_t best_distance = 0;
    for (const std::string_view name : known) {
        const std::size_t distance = edit_distance(typed, name);
        const std::size_t longer = std::max(typed.size(), name.size());
        const std::size_t allowed =
            std::min(std::max<std::size_t>(2, longer / 3), longer - std::min<std::size_t>(longer, 1));
        if (distance <= allowed && (!best || distance < best_distance)) {
            best = name;
            best_distance = distance;
        }
    }
    return best;
}

}  // namespace jointrom
