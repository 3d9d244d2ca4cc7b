#include <jointrom/core/checksum.hpp>
#include <jointrom/core/file_stamp.hpp>
#include <jointrom/core/whole_file.hpp>

#include <support/catch.hpp>
#include <support/scratch_folder.hpp>

#include <array>
#include <cstdio>
#include <fstream>
#include <memory>

#include <unistd.h>

using namespace jointrom;

TEST_CASE("a stamp stays until somebody writes", "[core][file_stamp]") {
    const test::ScratchFolder folder;
    const auto path = folder.path() / "a.csv";
    write_whole_file(path, "0,1\n");
    const std::unique_ptr<std::FILE, int (*)(std::FILE*)> file(std::fopen(path.c_str(), "rb"), &std::fclose);
    const auto stamp = find_file_stamp(::fileno(file.get()));
    REQUIRE(stamp);
    CHECK(stamp->size == 4);
    CHECK(find_file_stamp(::fileno(file.get())) == stamp);
    CHECK(find_file_stamp(path) == stamp);
    std::ofstream(path, std::ios::app) << "1,2\n";
    const auto longer = find_file_stamp(path);
    CHECK(longer != stamp);
    CHECK(find_file_stamp(::fileno(file.get())) == longer);
    write_whole_file(path, "0,1\n1,2\n");
    CHECK(find_file_stamp(path) != longer);
    CHECK(find_file_stamp(::fileno(file.get())) == longer);
    CHECK(sha256_of_unchanged(path, find_file_stamp(path)) == sha256_of("0,1\n1,2\n"));
    CHECK_THROWS_AS(sha256_of_unchanged(path, longer), Failure);
    CHECK_FALSE(find_file_stamp(folder.path()));
    CHECK_FALSE(find_file_stamp(folder.path() / "none.csv"));

    std::array<int, 2> pipe{};
    REQUIRE(::pipe(pipe.data()) == 0);
    CHECK_FALSE(find_file_stamp(pipe[0]));
    ::close(pipe[0]);
    ::close(pipe[1]);
    CHECK_FALSE(find_file_stamp(-1));
}
