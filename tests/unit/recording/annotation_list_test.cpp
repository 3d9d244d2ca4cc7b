#include <recording/annotation_list.hpp>

#include <support/catch.hpp>

using namespace jointrom;
using namespace std::string_literals;
using namespace std::string_view_literals;

namespace {

Annotations listed(std::string_view bytes, std::size_t most = 100) {
    AnnotationList list(most);
    list.add(bytes);
    return list.finish();
}

}  // namespace

// The lists of Kemp and Olivan (2003), section 2.2.2, behind one that keeps time.
TEST_CASE("annotations have a time, a duration where one is stated, and a text", "[recording][annotation_list]") {
    const Annotations found = listed("+0\x14\x14\0+180\x14Lights off\x14"
                                     "Close door\x14\0+1800.2\x15"
                                     "25.5\x14"
                                     "Apnea\x14\0-0.065\x14"
                                     "Pre-stimulus beep 1000Hz\x14\0\0\0\0"sv);
    CHECK(found.findings.empty());
    REQUIRE(found.rows.size() == 4);
    CHECK(found.rows[0].text == "Pre-stimulus beep 1000Hz");
    CHECK(found.rows[0].start.value() == -0.065);
    CHECK_FALSE(found.rows[0].duration.is_set());
    CHECK(found.rows[1].text == "Lights off");
    CHECK(found.rows[2].text == "Close door");
    CHECK(found.rows[2].start.value() == 180.0);
    CHECK(found.rows[3].start.value() == 1800.2);
    CHECK(found.rows[3].duration.value() == 25.5);
}

TEST_CASE("times count from the first record on", "[recording][annotation_list]") {
    AnnotationList list(10);
    list.add("+0.25\x14\x14\0+1\x14one\x14\0"sv);
    list.add("+1.25\x14\x14\0+2\x14two\x14\0"sv);
    const Annotations found = list.finish();
    REQUIRE(found.rows.size() == 2);
    CHECK(found.rows[0].start.value() == 0.75);
    CHECK(found.rows[1].start.value() == 1.75);
}

TEST_CASE("an annotation that is not written as it should be is left out and told", "[recording][annotation_list]") {
    for (const std::string_view wrong :
         {"1\x14no sign\x14"sv, "+1"sv, "+1\x14no end"sv, "+\x14no number\x14"sv, "+1e5\x14x\x14"sv, "+inf\x14x\x14"sv,
          "+9999999999\x14long\x14"sv, "+1\x15\x14no duration\x14"sv, "+1\x15-2\x14x\x14"sv, "+1.2.3\x14x\x14"sv,
          "\x14\x14"sv, "\xff\xfe"sv}) {
        CAPTURE(wrong);
        const Annotations found = listed(std::string("+0\x14\x14\0"sv) + std::string(wrong) + "\0+3\x14good\x14\0"s);
        REQUIRE(found.rows.size() == 1);
        CHECK(found.rows[0].text == "good");
        REQUIRE(found.findings.size() == 1);
        CHECK(found.findings[0].text == "1 annotation is not written as EDF+ has it");
    }
}

TEST_CASE("texts are harmless and in UTF-8, whatever the file holds", "[recording][annotation_list]") {
    const Annotations found =
        listed("+0\x14\x14\0+1\x14\x1b[31mred\nline\x7f\xc2\x9b\x14\xc3\xa9t\xc3\xa9\x14\xe9t\xe9\x14"sv);
    REQUIRE(found.rows.size() == 3);
    CHECK(found.rows[0].text == " [31mred line  ");
    CHECK(found.rows[1].text == "\xc3\xa9t\xc3\xa9");
    CHECK(found.rows[2].text == "\xc3\xa9t\xc3\xa9");
}

TEST_CASE("a file full of annotations is not taken in without end", "[recording][annotation_list]") {
    std::string bytes = "+0\x14\x14\0+1\x14"s;
    for (int i = 0; i < 50; ++i) {
        bytes += "x\x14";
    }
    const Annotations found = listed(bytes, 10);
    CHECK(found.rows.size() == 10);
    REQUIRE(found.findings.size() == 1);
    CHECK(found.findings[0].text == "40 annotations beyond the first 10");
}
