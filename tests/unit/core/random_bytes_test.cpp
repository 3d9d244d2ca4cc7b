#include <jointrom/core/random_bytes.hpp>

#include <support/catch.hpp>

#include <set>

using namespace jointrom;

TEST_CASE("random bytes are as many as asked for and differ", "[core][random_bytes]") {
    CHECK(random_bytes(0).empty());
    std::set<std::string> seen;
    for (int i = 0; i < 100; ++i) {
        seen.insert(random_bytes(16));
    }
    CHECK(seen.size() == 100);
    const std::string many = random_bytes(100000);
    std::size_t zeros = 0;
    for (const char c : many) {
        zeros += c == '\0' ? 1U : 0U;
    }
    // 390.6 expected, SD 19.7 (binomial); seven SD on either side.
    CHECK(zeros > 250);
    CHECK(zeros < 530);
}
