#include "targets.hpp"

#include <support/catch.hpp>
#include <support/reference_file.hpp>

#include <filesystem>
#include <fstream>
#include <iterator>
#include <string>

using namespace jointrom::test;

// Inputs on which a target once failed, kept in tests/fuzz/corpus/TARGET, and a few that look like what it reads.
TEST_CASE("kept inputs of the fuzz targets are read or refused in words", "[fuzz]") {
    std::size_t inputs = 0;
    for (const FuzzTarget& target : fuzz_targets()) {
        const auto folder = std::filesystem::path(JOINTROM_TESTS) / "fuzz" / "corpus" / target.name;
        INFO(folder);
        REQUIRE(std::filesystem::is_directory(folder));
        for (const auto& entry : std::filesystem::directory_iterator(folder)) {
            INFO(entry.path());
            std::ifstream file(entry.path(), std::ios::binary);
            const std::string bytes{std::istreambuf_iterator<char>(file), {}};
            CHECK_NOTHROW(read_safely(target, bytes));
            ++inputs;
        }
    }
    CHECK(inputs >= fuzz_targets().size());
}
