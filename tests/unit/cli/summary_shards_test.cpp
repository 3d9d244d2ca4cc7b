#include <support/catch.hpp>
#include <support/program.hpp>
#include <support/scratch_folder.hpp>

#include <algorithm>
#include <cstdint>
#include <fstream>
#include <string>
#include <vector>

using namespace jointrom::test;

namespace {

const std::string head = "id,participant,side,condition,status,arc_deg\n";

/// Rows of 30 participants with numbers whose sums are rounded differently in every order.
std::vector<std::string> class_rows() {
    std::vector<std::string> rows;
    std::uint32_t state = 11;
    const auto drawn = [&] { return (state = state * 1664525U + 1013904223U) >> 12U; };
    for (int participant = 1; participant <= 30; ++participant) {
        const std::string who = "P" + std::to_string(participant);
        for (const char* const side : {"left", "right"}) {
            for (const char* const condition : {"before", "after"}) {
                for (int trial = 1; trial <= 3; ++trial) {
                    const bool failed = drawn() % 40 == 0;
                    std::string row = who + "_" + side + "_" + condition + std::to_string(trial) + "," + who + "," +
                                      side + "," + condition;
                    row += failed ? ",failed," : ",done," + std::to_string(100.0 + 1e-4 * drawn());
                    rows.push_back(row + "\n");
                }
            }
        }
    }
    return rows;
}

/// Writes the rows into `count` files and returns what the program makes of them.
std::string summary_of(const std::vector<std::string>& rows, std::size_t count, const std::string& format) {
    const ScratchFolder folder;
    const std::string list = (folder.path() / "list.txt").string();
    std::ofstream names(list);
    for (std::size_t shard = 0; shard < count; ++shard) {
        const std::string name = (folder.path() / (std::to_string(shard) + ".csv")).string();
        names << name << '\n';
        std::ofstream file(name);
        file << head;
        for (std::size_t row = shard; row < rows.size(); row += count) {
            file << rows[row];
        }
    }
    names.close();
    const ProgramRun run = run_program({"summary", "--files-from", list, "--by", "side,condition", "--compare",
                                        "condition=before,after", "--format", format, "--quiet"});
    REQUIRE(run.status == 0);
    // The inputs are named in JSON, and differ.
    return format == "json" ? run.out.substr(run.out.find("\"settings\"")) : run.out;
}

}  // namespace

TEST_CASE("a class gives the same bytes whole and in seven shards and in reversed order", "[cli][summary]") {
    std::vector<std::string> rows = class_rows();
    for (const char* const format : {"table", "csv", "json"}) {
        INFO(format);
        const std::string whole = summary_of(rows, 1, format);
        CHECK(summary_of(rows, 7, format) == whole);
        std::ranges::reverse(rows);
        CHECK(summary_of(rows, 1, format) == whole);
        CHECK(summary_of(rows, 7, format) == whole);
    }
}

TEST_CASE("a class can come through standard input", "[cli][summary]") {
    const ProgramRun run = run_program({"summary", "-", "--format", "csv"}, "participant,arc_deg\nP1,130\nP2,134\n");
    CHECK(run.status == 0);
    CHECK_THAT(run.out, ContainsSubstring("arc_deg,2,0,2,132.00,2.83"));
}
