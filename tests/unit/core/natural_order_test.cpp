#include <jointrom/core/natural_order.hpp>

#include <support/catch.hpp>

#include <algorithm>
#include <string>
#include <vector>

using namespace jointrom;

TEST_CASE("numbers in names are ordered by their value", "[core][natural_order]") {
    const std::vector<std::string> sorted{"",   "1",   "01",  "2",    "10",    "P1",    "P1_left",
                                          "P2", "P02", "P10", "P10a", "after", "before"};
    std::vector<std::string> shuffled = sorted;
    std::ranges::sort(shuffled);
    std::ranges::reverse(shuffled);
    std::ranges::sort(shuffled, natural_less);
    CHECK(shuffled == sorted);
    for (const std::string& text : sorted) {
        CHECK_FALSE(natural_less(text, text));
    }
    CHECK(natural_less("7", "123456789012345678901234567890"));
}
