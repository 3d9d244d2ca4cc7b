#include <jointrom/core/checksum.hpp>
#include <jointrom/core/failure.hpp>
#include <jointrom/core/whole_file.hpp>

#include <support/catch.hpp>
#include <support/scratch_folder.hpp>

using namespace jointrom;

// The one-block example of FIPS 180-2, appendix B.1, and the empty message (from memory, and equal to sha256sum).
TEST_CASE("checksums are SHA-256", "[core][checksum]") {
    CHECK(sha256_of("abc") == "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
    CHECK(sha256_of("") == "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855");
    Sha256 pieces;
    pieces.add("a");
    pieces.add("");
    pieces.add("bc");
    CHECK(pieces.hexadecimal() == sha256_of("abc"));
    const test::ScratchFolder folder;
    write_whole_file(folder.path() / "abc", "abc");
    CHECK(sha256_of_file(folder.path() / "abc") == sha256_of("abc"));
    CHECK_THROWS_AS(sha256_of_file(folder.path() / "none"), Failure);
}
