#include "cli/output_options.hpp"

#include <jointrom/core/checksum.hpp>
#include <jointrom/core/failure.hpp>
#include <jointrom/core/whole_file.hpp>

#include <support/catch.hpp>
#include <support/scratch_folder.hpp>

using namespace jointrom;

TEST_CASE("a checksum is printed only of the bytes that were read", "[cli][output_options]") {
    const test::ScratchFolder folder;
    const std::string file = (folder.path() / "a.csv").string();
    write_whole_file(file, "time,angle\n0,1\n");
    cli::OutputOptions output;
    output.watch(file);
    output.format = "json";
    CHECK(output.input(file, 1).sha256 == sha256_of("time,angle\n0,1\n"));
    write_whole_file(file, "time,angle\n0,2\n");
    CHECK_THROWS_AS(output.input(file, 1), Failure);
    output.format = "csv";
    CHECK(output.input(file, 1).sha256.empty());
}
