#include <jointrom/batch/hashed_file.hpp>
#include <jointrom/core/failure.hpp>
#include <jointrom/core/whole_file.hpp>

#include <support/catch.hpp>
#include <support/scratch_folder.hpp>

#include <array>
#include <fstream>

using namespace jointrom;

TEST_CASE("the checksum is that of the whole file, however much was read", "[batch][hashed_file]") {
    const test::ScratchFolder folder;
    const auto path = folder.path() / "a.csv";
    const std::string text(100000, 'x');
    write_whole_file(path, text);
    std::array<char, 100> buffer{};
    HashedFile unread(path), begun(path);
    CHECK(begun.size_hint() == text.size());
    REQUIRE(begun.read(buffer) == 100);
    CHECK(begun.sha256() == sha256_of(text));
    CHECK(unread.sha256() == sha256_of(text));
    CHECK_THROWS_AS(HashedFile(folder.path() / "none.csv"), Failure);
}

TEST_CASE("a file that grows while it is read is refused", "[batch][hashed_file]") {
    const test::ScratchFolder folder;
    const auto path = folder.path() / "a.csv";
    write_whole_file(path, "time,angle\n0,1\n");
    std::array<char, 4> buffer{};
    HashedFile file(path);
    REQUIRE(file.read(buffer) == 4);
    std::ofstream(path, std::ios::app) << "1,2\n";
    try {
        (void)file.sha256();
        FAIL("no failure");
    } catch (const Failure& failure) {
        CHECK(failure.code() == "file-changed");
        CHECK(failure.place().file == path.string());
    }
}
