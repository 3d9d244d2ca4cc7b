#include <jointrom/core/failure.hpp>
#include <jointrom/core/whole_file.hpp>

#include <support/catch.hpp>
#include <support/scratch_folder.hpp>

#include <fstream>
#include <sstream>

using namespace jointrom;

namespace {

std::string content(const std::filesystem::path& path) {
    std::ostringstream text;
    text << std::ifstream(path).rdbuf();
    return text.str();
}

FailureKind kind_of_failure(const std::filesystem::path& path, const std::string& text) {
    try {
        write_whole_file(path, text);
    } catch (const Failure& failure) {
        return failure.kind();
    }
    return FailureKind::usage;
}

}  // namespace

TEST_CASE("a file appears only when it is committed, and replaces the one before", "[core][whole_file]") {
    const test::ScratchFolder folder;
    const auto path = folder.path() / "angles.csv";
    write_whole_file(path, "first\n");
    {
        WholeFile abandoned(path);
        abandoned.append("half a");
    }
    CHECK(content(path) == "first\n");
    {
        WholeFile finished(path);  // stored, but never given its name
        finished.append("all of another");
        finished.finish();
    }
    CHECK(content(path) == "first\n");
    write_whole_file(path, "second\n");
    CHECK(content(path) == "second\n");
    CHECK(std::distance(std::filesystem::directory_iterator(folder.path()), {}) == 1);
}

TEST_CASE("a file that cannot be made or filled is refused and leaves nothing behind", "[core][whole_file]") {
    const test::ScratchFolder folder;
    CHECK(kind_of_failure(folder.path() / "missing" / "a.csv", "x") == FailureKind::cannot_create);
    CHECK(kind_of_failure(folder.path(), "x") == FailureKind::cannot_create);
    CHECK(kind_of_failure(folder.path() / std::string(300, 'x'), "x") == FailureKind::cannot_create);
    CHECK(std::filesystem::is_empty(folder.path()));
    if (std::filesystem::exists("/dev/full")) {  // a device on which every write fails as on a full disk
        CHECK(kind_of_failure("/dev/full", "x") == FailureKind::cannot_write);
        CHECK(std::filesystem::is_character_file("/dev/full"));
    }
}

TEST_CASE("a small file is read whole, and a folder or a missing file is refused", "[core][whole_file]") {
    const test::ScratchFolder folder;
    const std::string text(10000, 'y');  // longer than one block of the reader
    write_whole_file(folder.path() / "a", text);
    CHECK(read_whole_file(folder.path() / "a", "note") == text);
    CHECK_THROWS_AS(read_whole_file(folder.path(), "note"), Failure);
    CHECK_THROWS_AS(read_whole_file(folder.path() / "b", "note"), Failure);
}
