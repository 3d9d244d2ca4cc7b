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

TEST_CASE("the checksum of a motion recording is that of its three files' checksums", "[batch][hashed_file]") {
    const test::ScratchFolder folder;
    write_whole_file(folder.path() / "a.csv", "abc");
    // SHA-256 of "abc": FIPS 180-2, appendix B.1.
    CHECK(HashedRecording(folder.path() / "a.csv").sha256() ==
          "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");

    const auto motion = folder.path() / "a_motion.tsv";
    const auto channels = folder.path() / "a_channels.tsv", sidecar = folder.path() / "a_motion.json";
    CHECK_THROWS_AS(HashedRecording(motion), Failure);
    write_whole_file(motion, "1\n");
    CHECK_THROWS_AS(HashedRecording(motion), Failure);
    write_whole_file(channels, "2\n");
    write_whole_file(sidecar, "3\n");
    // for f in a_motion.tsv a_channels.tsv a_motion.json; do sha256sum < $f | cut -c1-64; done | sha256sum
    const std::string before = HashedRecording(motion).sha256();
    CHECK(before == "8f8da82ae6c0f7960eb7e4c04bcc7adbe2bc102734053790a2b400e73c205d36");
    write_whole_file(sidecar, "4\n");
    CHECK(HashedRecording(motion).sha256() != before);
}
