#include "class_table.hpp"

#include <cmath>

using namespace jointrom;
using namespace jointrom::test;

namespace {

const std::string head = "id,participant,side,status,arc_deg\n";
const LongTableRequest request{{"participant", "side"}, {"arc_deg"}};

std::string code_for(const std::vector<std::string>& contents) {
    return failure_code([&] { (void)table_of(contents, request); });
}

}  // namespace

TEST_CASE("texts become codes in their natural order and numbers stay", "[batch][long_table]") {
    const LongTable table = table_of({head + "a,P10,right,done,140.5\nb,P2,left,done,\nc,P10,left,done,NA\n"}, request);
    CHECK(table.rows == 3);
    CHECK(table.find_text("participant")->texts == std::vector<std::string>{"P2", "P10"});
    CHECK(table.find_text("participant")->codes == std::vector<std::uint32_t>{1, 0, 1});
    CHECK(table.find_text("side")->text(0) == "right");
    CHECK(table.find_text("load") == nullptr);
    CHECK(table.numbers[0].values[0] == 140.5);
    CHECK(std::isnan(table.numbers[0].values[1]));
    CHECK(std::isnan(table.numbers[0].values[2]));
    CHECK(table.id(2) == "c");
    CHECK(table.headings.size() == 5);
}

TEST_CASE("failed recordings are counted and left out", "[batch][long_table]") {
    const LongTable table =
        table_of({head + "a,P1,left,failed,\nb,P2,left,done,131\nc,P3,right,failed,\nd,P1,left,done,128\n"}, request);
    CHECK(table.rows == 2);
    CHECK(table.failed == 2);
    CHECK(table.id(0) == "b");
    CHECK(table.id(1) == "d");
    CHECK(table.find_text("participant")->texts == std::vector<std::string>{"P1", "P2"});
    CHECK(table.find_text("side")->texts == std::vector<std::string>{"left"});
}

TEST_CASE("a row that stands in two shards counts once", "[batch][long_table]") {
    const std::string a = "a,P1,left,done,140.5\n";
    const std::string b = "b,P2,left,done,\n";
    const LongTable table = table_of({head + a + b, head + b + "c,P1,right,done,139\n", head + a}, request);
    CHECK(table.rows == 3);
    CHECK(table.repeated == 2);
    CHECK(table.files.size() == 3);
    CHECK(table.files[1].second == 2);
}

TEST_CASE("class tables that contradict themselves are refused", "[batch][long_table]") {
    CHECK(code_for({head + "a,P1,left,done,140.5\na,P1,left,done,140.6\n"}) == "id-conflict");
    CHECK(code_for({head + "a,P1,left,done,140.5\n", head + "a,P1,right,done,140.5\n"}) == "id-conflict");
    CHECK(code_for({head + "a,P1,left,done,140.5\na,P1,left,failed,140.5\n"}) == "id-conflict");
    CHECK(code_for({head + "a,P1,left,done,140.5\n,P2,left,done,140.5\n"}) == "id-missing");
    CHECK(code_for({head}) == "no-rows");
    CHECK(code_for({head + "a,P1,left,failed,\n"}) == "no-rows");
    CHECK(code_for({head + "a,P1,left,done,14o\n"}) == "not-a-number");
    CHECK(code_for({head + "a,P1,left,done,1e300\n"}) == "number-too-large");
    CHECK(code_for({head + "a,P1,left,done,140\n", "participant,side,arc_deg\nP1,left,7\n"}) == "columns-differ");
    CHECK(code_for({"participant,side\nP1,left\n"}) == "no-such-column");
}

TEST_CASE("rows without ids may be equal", "[batch][long_table]") {
    const LongTable table = table_of({"participant,side,arc_deg\nP1,left,140\nP1,left,140\n"}, request);
    CHECK(table.rows == 2);
    CHECK(table.id(1).empty());
}

TEST_CASE("many different texts keep their codes apart", "[batch][long_table]") {
    std::string text = "participant,side,arc_deg\n";
    for (int i = 0; i < 5000; ++i) {
        text += "P" + std::to_string(i * 7 % 5000) + ",left," + std::to_string(i) + "\n";
    }
    const LongTable table = table_of({text}, request);
    CHECK(table.find_text("participant")->texts.size() == 5000);
    CHECK(table.find_text("participant")->text(1) == "P7");
    CHECK(table.find_text("participant")->codes[1] == 7);
    CHECK(table.find_text("participant")->text(4999) == "P4993");
}
