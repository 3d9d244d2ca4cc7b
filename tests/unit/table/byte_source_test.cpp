#include <jointrom/table/byte_source.hpp>

#include <jointrom/core/failure.hpp>
#include <jointrom/core/whole_file.hpp>

#include <support/catch.hpp>
#include <support/reference_file.hpp>
#include <support/scratch_folder.hpp>

#include <fstream>
#include <sstream>
#include <string>
#include <vector>

using namespace jointrom;

namespace {

std::string all_of(ByteSource& source) {
    std::string text;
    std::vector<char> buffer(7);
    for (std::size_t got = source.read(buffer); got > 0; got = source.read(buffer)) {
        text.append(buffer.data(), got);
    }
    return text;
}

std::string failure_of(const std::filesystem::path& path) {
    try {
        static_cast<void>(file_source(path));
    } catch (const Failure& failure) {
        CHECK(failure.kind() == FailureKind::missing_file);
        CHECK(failure.place().file == path.string());
        return failure.code();
    }
    return {};
}

}  // namespace

TEST_CASE("files, texts and streams give their bytes in pieces", "[table][byte_source]") {
    const auto file = file_source(test::tests_path("data/exports/t_one_row.csv"));
    CHECK(file->size_hint() == 32);
    CHECK(all_of(*file) == "Time (s),Angle (deg)\n0.00,12.31\n");

    const auto text = text_source("1,2\n3,4\n");
    CHECK(text->size_hint() == 8);
    CHECK(all_of(*text) == "1,2\n3,4\n");

    std::istringstream stream("5,6\n7,8 and a longer line\n");
    const auto source = stream_source(stream);
    CHECK(source->size_hint() == 0);
    CHECK(all_of(*source) == "5,6\n7,8 and a longer line\n");
}

TEST_CASE("a missing file and a folder are told apart", "[table][byte_source]") {
    CHECK(failure_of("no-such-folder/no-such-file.csv") == "file-missing");
    CHECK(failure_of(test::tests_path("data")) == "not-a-file");
}

TEST_CASE("a file that grows or is cut while it is read is refused at its end", "[table][byte_source]") {
    const test::ScratchFolder folder;
    const auto path = folder.path() / "a.csv";
    const auto change = GENERATE(std::ios::app, std::ios::trunc);
    write_whole_file(path, "time,angle\n0,1\n1,2\n");
    const auto source = file_source(path);
    std::vector<char> buffer(7);
    REQUIRE(source->read(buffer) == 7);
    std::ofstream(path, change) << "2,3\n";
    try {
        (void)all_of(*source);
        FAIL("no failure");
    } catch (const Failure& failure) {
        CHECK(failure.code() == "file-changed");
        CHECK(failure.place().file == path.string());
    }
}
