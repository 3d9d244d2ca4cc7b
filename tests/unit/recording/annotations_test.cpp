#include <jointrom/core/whole_file.hpp>
#include <jointrom/recording/annotations.hpp>

#include <support/catch.hpp>
#include <support/edf_text.hpp>
#include <support/program.hpp>
#include <support/scratch_folder.hpp>

#include <nlohmann/json.hpp>

using namespace jointrom;
using namespace std::string_literals;

namespace {

const std::vector<test::TestSignal> signals{{"Elbow angle", "deg", -200, 200, {-1000, 0, 500, 1000, 200, 7}}};
const std::string lists = "+0\x14\x14\0+0.5\x15\x30.25\x14held\x14\0+0.75\x14=1+1\x14\0"s;

}  // namespace

TEST_CASE("the annotations of an EDF+ file are found beside its signals", "[recording][annotations]") {
    const test::ScratchFolder folder;
    const auto path = folder.path() / "arm.edf";
    write_whole_file(path, test::edf_text(signals, lists));
    const Annotations found = read_annotations(path);
    REQUIRE(found.rows.size() == 2);
    CHECK(found.rows[0].text == "held");
    CHECK(found.rows[0].start.value() == 0.5);
    CHECK(found.rows[0].duration.value() == 0.25);
    write_whole_file(path, test::edf_text(signals));
    CHECK(read_annotations(path).rows.empty());
    write_whole_file(path, "no EDF");
    CHECK(read_annotations(path).rows.empty());
    CHECK(read_annotations(folder.path() / "none.edf").rows.empty());
}

TEST_CASE("a header that cannot be gives no annotations", "[recording][annotations]") {
    const test::ScratchFolder folder;
    const auto path = folder.path() / "arm.edf";
    const std::string good = test::edf_text(signals, lists);
    const std::size_t samples_at = 256 + 2 * 216;  // of the two signals
    for (const auto& [at, text] : std::vector<std::pair<std::size_t, std::string>>{
             {236, "-1      "}, {252, "9999"}, {252, "two "}, {samples_at, "x       "}, {samples_at + 8, "99999999"}}) {
        CAPTURE(at, text);
        write_whole_file(path, std::string(good).replace(at, text.size(), text));
        CHECK(read_annotations(path).rows.empty());
    }
    write_whole_file(path, good.substr(0, good.size() - 3));  // a record that is not whole
    CHECK(read_annotations(path).rows.empty());
}

TEST_CASE("inspect shows annotations as a table and in JSON", "[cli][inspect][annotations]") {
    const test::ScratchFolder folder;
    const std::string path = (folder.path() / "arm.edf").string();
    write_whole_file(path, test::edf_text(signals, lists + "+x\x14" + "bad\x14"));
    const test::ProgramRun table = test::run_program({"inspect", path});
    if (table.err.find("edf-unsupported") != std::string::npos) {
        return;
    }
    CHECK(table.status == 0);
    CHECK(table.out.find("  start (s)  duration (s)  annotation\n"
                         "      0.500         0.250  held\n"
                         "      0.750             -  =1+1\n") != std::string::npos);
    CHECK(table.err.find("[annotations-left-out]") != std::string::npos);
    const auto json = nlohmann::json::parse(test::run_program({"inspect", path, "--format", "json"}).out);
    const auto& rows = json.at("result").at("annotations");
    REQUIRE(rows.size() == 2);
    CHECK(rows[1] == nlohmann::json{{"start_s", 0.75}, {"duration_s", nullptr}, {"annotation", "=1+1"}});
}
