#include <recording/words.hpp>

#include <support/catch.hpp>

using namespace jointrom;

using Words = std::vector<std::string>;

TEST_CASE("words end at blanks, digits, marks and capitals", "[recording][words]") {
    CHECK(words_of("IMU_LeftElbow_Ext.-Flex.") == Words{"imu", "left", "elbow", "leftelbow", "ext", "flex"});
    CHECK(words_of("EMG1 (mV)") == Words{"emg", "m", "v", "mv"});
    CHECK(words_of("12.5 / 3").empty());
    CHECK(words_of("").empty());
}

TEST_CASE("accents are left out of words", "[recording][words]") {
    CHECK(words_of("Ángulo de la muñeca") == Words{"angulo", "de", "la", "muneca"});
    CHECK(words_of("Hüftwinkel [°]") == Words{"huftwinkel"});
    CHECK(words_of("kąt łokcia") == Words{"kat", "lokcia"});
    CHECK(words_of("e\xCC\x81paule") == Words{"epaule"});  // an accent behind its letter
    CHECK(words_of("\xC3") == Words{});                    // a letter cut in two
}

TEST_CASE("patterns fit whole words, beginnings, ends and parts", "[recording][words]") {
    CHECK(fits("t", "t"));
    CHECK_FALSE(fits("time", "t"));
    CHECK(fits("timestamp", "time*"));
    CHECK_FALSE(fits("centimeter", "time*"));
    CHECK(fits("messzeit", "*zeit"));
    CHECK(fits("kneeangle", "*angle*"));
    CHECK(any_fits({"knee", "angle"}, {"elbow", "ang*"}));
    CHECK_FALSE(any_fits({}, {"*"}));
}
