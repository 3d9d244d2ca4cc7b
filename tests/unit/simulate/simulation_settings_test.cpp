#include <jointrom/core/failure.hpp>
#include <jointrom/core/whole_file.hpp>
#include <jointrom/simulate/simulation_settings.hpp>

#include <support/catch.hpp>
#include <support/scratch_folder.hpp>

#include <algorithm>
#include <string>

using namespace jointrom;

namespace {

Simulation with(std::initializer_list<std::pair<std::string_view, std::string>> values) {
    SimulationTexts texts;
    for (const auto& [name, text] : values) {
        const auto setting = std::ranges::find(simulation_settings(), name, &SimulationSetting::name);
        REQUIRE(setting != simulation_settings().end());
        texts.emplace_back(&*setting, text);
    }
    Simulation simulation;
    apply_texts(texts, simulation);
    return simulation;
}

std::vector<Simulation> preset(const std::string& content, const SimulationTexts& overruling = {}) {
    const test::ScratchFolder folder;
    write_whole_file(folder.path() / "preset.json", content);
    return read_preset(folder.path() / "preset.json", overruling);
}

std::string complaint(const std::string& content) {
    try {
        (void)preset(content);
    } catch (const Failure& failure) {
        return std::string(failure.what()) + " / " + failure.advice();
    }
    return "accepted";
}

}  // namespace

TEST_CASE("settings of a simulation are read", "[simulate][settings]") {
    const Simulation simulation = with({{"emg-lead-ms", "Biceps=80"},
                                        {"burst", "Biceps=1,2,0.7"},
                                        {"emg", "Biceps=0.4,0.3,0.2,0.01"},
                                        {"emg", "Triceps=0.1,0,0.2,0.01"},
                                        {"emg-median-hz", "95"},
                                        {"side", "both"},
                                        {"top-deg", "130,140"},
                                        {"slip", "4,-12"},
                                        {"limits", "0,5"},
                                        {"gap-s", "3,3.5"},
                                        {"seed", "18446744073709551615"},
                                        {"wraps-at", "360"},
                                        {"delimiter", "tab"},
                                        {"decimal", "comma"},
                                        {"repetitions", "0"},
                                        {"stuck-s", "1,2"},
                                        {"unit-row", "true"},
                                        {"decimals", "4"},
                                        {"angle-rate-hz", "50"},
                                        {"raising-s", "1.1,1.25"},
                                        {"unit-brackets", "square"},
                                        {"note", "left, tired"},
                                        {"emg-tires", "Triceps=3,11,75,1.3"}});
    REQUIRE(simulation.muscles.size() == 2);
    CHECK(simulation.muscles[0].lead_ms == 80.0);
    CHECK(simulation.muscles[1].lead_ms == 60.0);
    CHECK(simulation.muscles[1].median_frequency == Hertz(95.0));
    CHECK(simulation.muscles[0].bursts.front().sd_mv == 0.7);
    CHECK_FALSE(simulation.muscles[0].fatigue);
    REQUIRE(simulation.muscles[1].fatigue);
    CHECK(simulation.muscles[1].fatigue->median_frequency == Hertz(75.0));
    CHECK(simulation.muscles[1].fatigue->sd_factor == 1.3);
    CHECK(simulation.movement.raising == std::vector<Seconds>{Seconds(1.1), Seconds(1.25)});
    CHECK(simulation.logger.square_brackets);
    CHECK(simulation.note == "left, tired");
    CHECK(simulation.sides == std::vector<Side>{Side::left, Side::right});
    CHECK(simulation.movement.top_deg == std::vector<double>{130.0, 140.0});
    CHECK(simulation.movement.repetitions == 0);
    CHECK(simulation.sensor.slips.front() == std::pair(4.0, -12.0));
    CHECK(simulation.sensor.wraps_at == 360.0);
    CHECK(simulation.seed == 18446744073709551615U);
    CHECK(simulation.logger.delimiter == '\t');
    CHECK(simulation.logger.gaps.front().end == Seconds(3.5));
}

TEST_CASE("values that do not fit a simulation are refused", "[simulate][settings]") {
    struct Case {
        const char* name;
        const char* text;
    };
    const auto bad = GENERATE(
        Case{"seed", "-1"}, Case{"seed", "1.5"}, Case{"trials", "0"}, Case{"repetitions", "2.5"},
        Case{"repetitions", "1000000"}, Case{"top-deg", ""}, Case{"top-deg", "400"}, Case{"raising-s", "0"},
        Case{"rest-s", "-1"}, Case{"rate-hz", "0"}, Case{"rate-hz", "1e9"}, Case{"limits", "5,0"}, Case{"slip", "3"},
        Case{"emg", "Biceps"}, Case{"emg", "Biceps=1,2"}, Case{"emg", "=1,2,3,4"}, Case{"emg", "Biceps=1,2,3,-4"},
        Case{"emg", "@x=1,2,3,4"}, Case{"burst", "Biceps=1,2,3"}, Case{"emg-lead-ms", "Biceps=50"},
        Case{"noise-deg", "-0.1"}, Case{"noise-deg", "nan"}, Case{"delimiter", ";"}, Case{"decimal", ","},
        Case{"decimals", "12"}, Case{"participant", "=1+1"}, Case{"participant", "../P01"}, Case{"unit", "a,b"},
        Case{"angle-heading", "a\nb"}, Case{"preamble", "a\nb"}, Case{"side", "up"}, Case{"unit-row", "yes"},
        Case{"gap-s", "3,2"}, Case{"raising-s", "1.1,0"}, Case{"lowering-s", ""}, Case{"unit-brackets", "[]"},
        Case{"emg-tires", "3,11,75,1.3,2"}, Case{"emg-tires", "11,3,75,1.3"}, Case{"emg-tires", "Deltoid=3,11,75,1"},
        Case{"students", "-3"}, Case{"wraps-at", "0"});
    CAPTURE(bad.name, bad.text);
    CHECK_THROWS_AS(with({{"emg", "Triceps=0.1,0,0.2,0.01"}, {bad.name, bad.text}}), Failure);
}

TEST_CASE("a preset describes a session", "[simulate][preset]") {
    const auto session = preset(R"({"seed": 9, "emg": ["Biceps=0.4,0.3,0.2,0.01"], "noise_deg": 0.5,
        "recordings": [{"participant": "P01", "top_deg": [130, 131.5]},
                       {"participant": "P02", "side": "left", "slip": [[4, -12], "6,3"], "noise_deg": 1}]})");
    REQUIRE(session.size() == 2);
    CHECK(session[0].movement.top_deg == std::vector<double>{130.0, 131.5});
    CHECK(session[0].sensor.noise_deg == 0.5);
    CHECK(session[1].sensor.noise_deg == 1.0);
    CHECK(session[1].sensor.slips.size() == 2);
    CHECK(session[1].muscles.size() == 1);
    CHECK(session[1].seed == 9);
    CHECK(preset(R"({"students": 4})").front().people.students == 4);

    const auto seed = std::ranges::find(simulation_settings(), "seed", &SimulationSetting::name);
    CHECK(preset(R"({"seed": 9})", {{&*seed, "11"}}).front().seed == 11);
}

TEST_CASE("a preset that makes no sense is refused with what is wrong", "[simulate][preset]") {
    CHECK_THAT(complaint(R"({"top_dge": 1})"),
               ContainsSubstring("there is no setting top_dge / Did you mean top_deg?"));
    CHECK_THAT(complaint("[1]"), ContainsSubstring("is no object"));
    CHECK_THAT(complaint("{"), ContainsSubstring("no JSON"));
    CHECK_THAT(complaint(R"({"top_deg": 1e400})"), ContainsSubstring("number overflow parsing '1e400'"));
    CHECK_THAT(complaint(R"({"recordings": []})"), ContainsSubstring("recordings is no list of objects"));
    CHECK_THAT(complaint(R"({"recordings": [{}, {"rate_hz": "x"}]})"), ContainsSubstring("recording 2 of the list"));
    CHECK_THAT(complaint(R"({"seed": null})"), ContainsSubstring("seed is null"));
    CHECK_THAT(complaint(R"({"top_deg": [[1]]})"), ContainsSubstring("expected a text"));
}
