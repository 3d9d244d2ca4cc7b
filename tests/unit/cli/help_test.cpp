#include "cli/help_text.hpp"
#include "cli/shell_files.hpp"

#include <support/catch.hpp>
#include <support/program.hpp>

#include <jointrom/analysis/settings.hpp>

#include <algorithm>

using namespace jointrom;
using namespace jointrom::cli;

TEST_CASE("every command has two examples or more, and each of its arguments is explained", "[cli][help_text]") {
    for (const CommandText& command : command_texts()) {
        CAPTURE(command.name);
        CHECK(command.examples.size() >= 2);
        for (const std::string& example : command.examples) {
            CHECK(example.starts_with("jointrom " + std::string(command.name)));
        }
        for (const ArgumentText& argument : command.arguments) {
            CAPTURE(argument.names.front());
            CHECK(argument.help.size() > 5);
            CHECK((!argument.is_option || !argument.group.empty()));
            CHECK((argument.otherwise.empty() || argument.choices.empty() || argument.type.find('|') < 99 ||
                   std::ranges::find(argument.choices, argument.otherwise) != argument.choices.end()));
        }
    }
}

TEST_CASE("every word that is suggested for a setting is taken, and a mistyped one is corrected", "[cli][help_text]") {
    std::size_t count = 0;
    for (const SettingKind& kind : setting_catalogue()) {
        for (const std::string& choice : setting_choices(kind.name)) {
            CAPTURE(kind.name, choice);
            Settings settings;
            kind.set(settings, choice);
            CHECK_FALSE(kind.text(settings).empty());
            ++count;
        }
    }
    CHECK(count > 60);
    CHECK_THAT(test::run_program({"range", "x.csv", "--delimiter", "semicolom"}).err,
               ContainsSubstring("Did you mean semicolon?"));
    CHECK_THAT(test::run_program({"range", "x.csv", "--format", "jsn"}).err, ContainsSubstring("did you mean json?"));
    CHECK_THAT(test::run_program({"norms", "elbw"}).err, ContainsSubstring("'elbow'"));
}

TEST_CASE("help wraps at the width, states defaults and puts a command's own options first", "[cli][help_text]") {
    const auto commands = command_texts();
    const auto found = std::ranges::find(commands, "static", &CommandText::name);
    REQUIRE(found != commands.end());
    for (const std::size_t width : {60U, 100U}) {
        const std::string help = command_help(*found, width);
        for (std::size_t start = help.find("Usage:"); start < help.size(); start = help.find('\n', start) + 1) {
            CHECK(help.find('\n', start) - start <= width);
        }
        CHECK(help.find("Expected postures:") < help.find("Reading the file:"));
        CHECK(help.find("Output:") > help.find("Settings:"));
        CHECK_THAT(help, ContainsSubstring("order)") && ContainsSubstring("(repeatable)"));
    }
    CHECK(usage_of(*found) == "jointrom static FILE [OPTIONS]");
    CHECK(usage_of(*std::ranges::find(commands, "batch", &CommandText::name)) ==
          "jointrom batch [MANIFEST|FOLDER] --into FOLDER [OPTIONS]");
}

TEST_CASE("requests that are incomplete or too long say so in the program's words", "[cli][near_miss_message]") {
    CHECK_THAT(test::run_program({"range"}).err, ContainsSubstring("range needs FILE\n"));
    CHECK_THAT(test::run_program({"batch", "x"}).err, ContainsSubstring("batch needs --into FOLDER\n"));
    CHECK_THAT(test::run_program({"range", "x", "--format"}).err, ContainsSubstring("no value behind --format FORM\n"));
    CHECK_THAT(test::run_program({"range", "x", "y"}).err, ContainsSubstring("range does not take 'y' as well\n"));
}

TEST_CASE("a manual page leaves troff nothing to misread", "[cli][shell_files]") {
    const CommandText command{"shove", "it's a \\test", {"jointrom shove --hard"}, {}};
    const std::string page = command_man_page(command);
    CHECK_THAT(page, ContainsSubstring(".TH SHOVE 1") || ContainsSubstring(".TH JOINTROM\\-SHOVE 1"));
    CHECK_THAT(page, ContainsSubstring("it\\(aqs a \\etest") && ContainsSubstring("jointrom shove \\-\\-hard"));
}
