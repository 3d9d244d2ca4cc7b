#include "cli/command.hpp"

#include <support/catch.hpp>
#include <support/program.hpp>
#include <support/reference_file.hpp>

using namespace jointrom;
using test::run_program;

namespace {

std::string demo(const std::string& name) {
    return test::tests_path("../data/demo/" + name).string();
}

}  // namespace

TEST_CASE("requests that cannot be served leave with status 2 and say so on the error stream", "[cli]") {
    for (const auto& arguments : {std::initializer_list<std::string>{},
                                  {"nosuch"},
                                  {"range"},
                                  {"range", "a.csv", "b.csv"},
                                  {"range", "a.csv", "--no-such-option"},
                                  {"range", "a.csv", "--lowpass-hz"},
                                  {"range", "a.csv", "--format", "xml"},
                                  {"range", "a.csv", "--joint", "gizmo"},
                                  {"angles", "a.csv", "--format", "table"}}) {
        const auto run = run_program(arguments);
        CHECK(run.status == cli::exit_usage);
        CHECK(run.out.empty());
        CHECK_FALSE(run.err.empty());
    }
}

TEST_CASE("a mistyped command or option is answered with the nearest one", "[cli]") {
    CHECK_THAT(run_program({"rnage", "a.csv"}).err, ContainsSubstring("did you mean range?"));
    CHECK_THAT(run_program({"range", "a.csv", "--lowpas-hz", "6"}).err,
               ContainsSubstring("did you mean --lowpass-hz?"));
    CHECK_THAT(run_program({"range", "--lowpas-hz=6", "a.csv"}).err, ContainsSubstring("did you mean --lowpass-hz?"));
    CHECK_THAT(run_program({"range", demo("P01_right_elbow.csv"), "--joint", "elbo"}).err, ContainsSubstring("elbow"));
}

TEST_CASE("help is no error, comes before everything else and starts with examples", "[cli]") {
    for (const char* command :
         {"inspect", "calibrate", "angles", "static", "range", "peaks", "phases", "repetitions", "activity", "load",
          "norms", "check", "batch", "summary", "agreement", "grade", "schema"}) {
        CAPTURE(command);
        const auto run = run_program({command, "--help"});
        CHECK(run.status == cli::exit_done);
        CHECK(run.err.empty());
        CHECK_THAT(run.out, ContainsSubstring("Examples:\n  jointrom " + std::string(command)));
        CHECK(run_program({"help", command}).out == run.out);
    }
    CHECK(run_program({"--version"}).out.starts_with("jointrom "));
    const auto list = run_program({"--help"});
    CHECK(list.status == cli::exit_done);
    CHECK_THAT(list.out, ContainsSubstring("agreement") && !ContainsSubstring("Examples:"));
}

TEST_CASE("options may stand before the file and negative numbers are values", "[cli]") {
    const std::string file = demo("P01_right_elbow.csv");
    const auto behind = run_program({"range", file, "--neutral-deg", "-12.5", "--format", "csv"});
    const auto before = run_program({"range", "--neutral-deg=-12.5", "--format=csv", file});
    CHECK(behind.status == cli::exit_done);
    CHECK(behind.out == before.out);
    CHECK_FALSE(behind.out.empty());
}

TEST_CASE("each kind of failure has its exit status", "[cli]") {
    CHECK(run_program({"range", "no-such-file.csv"}).status == cli::exit_missing_file);
    CHECK(run_program({"range", "-"}, "").status == cli::exit_data);
    const std::string folder = test::tests_path("").string();
    CHECK(run_program({"range", demo("P01_right_elbow.csv"), "--settings", folder}).status == cli::exit_missing_file);
    CHECK(run_program({"range", demo("P01_right_elbow.csv"), "--calibration", folder}).status ==
          cli::exit_missing_file);
    CHECK(run_program({"range", demo("P01_right_elbow.csv"), "--output", std::string(300, 'x')}).status ==
          cli::exit_cannot_create);
    CHECK(run_program({"range", demo("P01_right_elbow.csv"), "--output", "no/such/folder/x.csv"}).status ==
          cli::exit_cannot_create);
    CHECK(run_program({"static", demo("P05_right_elbow_static.csv"), "--expected-deg", "0,170"}).status ==
          cli::exit_not_met);
}
