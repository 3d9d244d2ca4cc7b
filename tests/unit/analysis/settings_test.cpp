#include <jointrom/analysis/settings.hpp>
#include <jointrom/core/failure.hpp>
#include <jointrom/core/whole_file.hpp>

#include <support/catch.hpp>
#include <support/scratch_folder.hpp>

#include <array>
#include <string>

using namespace jointrom;

namespace {

const SettingKind& setting(std::string_view name) {
    for (const SettingKind& kind : setting_catalogue()) {
        if (kind.name == name) {
            return kind;
        }
    }
    throw std::out_of_range(std::string(name));
}

/// What the setting reads as after `text` was set.
std::string round_trip(std::string_view name, const std::string& text) {
    Settings settings;
    setting(name).set(settings, text);
    return setting(name).text(settings);
}

Failure failure_of_file(const std::string& content) {
    const test::ScratchFolder folder;
    const auto path = folder.path() / "settings.json";
    write_whole_file(path, content);
    Settings settings;
    try {
        apply_settings_file(path, settings);
    } catch (const Failure& failure) {
        return failure;
    }
    FAIL("accepted: " << content);
    throw std::logic_error("unreachable");
}

}  // namespace

TEST_CASE("every setting says what it is, and its text sets it again", "[analysis][settings]") {
    const Settings untouched;
    for (const SettingKind& kind : setting_catalogue()) {
        CAPTURE(kind.name);
        CHECK_FALSE(kind.help.empty());
        if (const std::string text = kind.text(untouched); !text.empty()) {
            CHECK(round_trip(kind.name, text) == text);
        }
    }
    CHECK(setting("lowpass-hz").text(untouched) == "6");
    CHECK(setting("joint").text(untouched).empty());
    CHECK(round_trip("window-s", "0.5,12.25") == "0.5,12.25");
    CHECK(round_trip("lowpass-hz", "auto") == "auto");
    CHECK(round_trip("lowpass-hz", "8.5") == "8.5");
    CHECK(round_trip("rate-hz", "EMG 1=1000") == "EMG 1=1000");
    CHECK(round_trip("decimal", "comma") == "comma");
    CHECK(round_trip("side", "L") == "left");
    CHECK(round_trip("missing", "-0.50") == "-0.5");
    CHECK(round_trip("emg-band-hz", "30,400") == "30,400");
    CHECK(round_trip("emg-band-hz", "off") == "off");
    CHECK(round_trip("mains-hz", "60") == "60");
    CHECK(round_trip("emg-form", "envelope") == "envelope");
    CHECK(round_trip("pair", "biceps,triceps") == "biceps,triceps");
    CHECK(round_trip("onset", "teager-kaiser") == "teager-kaiser");
    CHECK(round_trip("load-kg", "2,0.5") == "2,0.5");
    CHECK(round_trip("load-u-kg", "0.01") == "0.01");
    CHECK(round_trip("posture-deg", "-90") == "-90");
    CHECK(round_trip("moment-arm-m", "0.04") == "0.04");
    CHECK(setting("moment-arm-m").text(untouched).empty());
}

TEST_CASE("values that do not fit are refused with the name of the setting", "[analysis][settings]") {
    struct Case {
        const char* name;
        const char* text;
    };
    const auto bad = GENERATE(
        Case{"window-s", "3"}, Case{"window-s", "3,1"}, Case{"window-s", "1,2,3"}, Case{"rate-hz", "0"},
        Case{"rate-hz", "angle="}, Case{"lowpass-hz", "six"}, Case{"trial", "1.5"}, Case{"trial", "0"},
        Case{"missing", "nan"}, Case{"missing", "0x10"}, Case{"side", "middle"}, Case{"emg", "biceps"},
        Case{"delimiter", ";"}, Case{"mirror", "yes"}, Case{"hold-s", "-1"}, Case{"keep-spikes", "1"},
        Case{"neutral-deg", ""}, Case{"emg-band-hz", "450,20"}, Case{"emg-band-hz", "20"}, Case{"emg-band-hz", "0,450"},
        Case{"mains-hz", "-50"}, Case{"emg-form", "smooth"}, Case{"pair", "biceps"}, Case{"pair", ",triceps"},
        Case{"onset", "first"}, Case{"normalise", "mvc"}, Case{"onset-sd", "0"});
    CAPTURE(bad.name, bad.text);
    Settings settings;
    CHECK_THROWS_AS(setting(bad.name).set(settings, bad.text), Failure);
}

TEST_CASE("a settings file sets what it names, and null leaves a setting alone", "[analysis][settings]") {
    const test::ScratchFolder folder;
    const auto path = folder.path() / "class.json";
    write_whole_file(path,
                     R"({"joint": "elbow", "lowpass_hz": 8, "mirror": true, "missing": [666, "-1"], "side": null})");
    Settings settings;
    apply_settings_file(path, settings);
    CHECK(settings.joint == "elbow");
    CHECK(settings.preparation.lowpass.cutoff == Hertz(8.0));
    CHECK(settings.preparation.mirror == true);
    CHECK(settings.reading.missing_values == std::vector<double>{666.0, -1.0});
    constexpr std::array groups{SettingGroup::joint};
    const auto in_force = settings_in_force(settings, groups);
    REQUIRE(in_force.size() == 3);
    CHECK(in_force.front() == std::pair<std::string, std::string>("joint", "elbow"));
}

TEST_CASE("what the command line says of a setting replaces all that the file says of it", "[analysis][settings]") {
    const test::ScratchFolder folder;
    const auto path = folder.path() / "class.json";
    write_whole_file(path, R"({"load_kg": [2, 0.5], "load_at_m": "0.3,0.2", "joint": "elbow"})");
    Settings settings;
    apply_settings_file(path, settings);
    CHECK(settings.load.load_kg == std::vector<double>{2.0, 0.5});
    CHECK(settings.load.load_at_m == std::vector<double>{0.3, 0.2});
    Settings overruled;
    constexpr std::array names{std::string_view("load-kg")};
    apply_settings_file(path, overruled, names);
    CHECK(overruled.load.load_kg.empty());
    CHECK(overruled.joint == "elbow");
}

TEST_CASE("a settings file with a mistake is refused as a whole", "[analysis][settings]") {
    CHECK_THAT(failure_of_file(R"({"lowpas_hz": 8})").advice(), ContainsSubstring("lowpass_hz"));
    CHECK_THAT(failure_of_file(R"({"joint": ["elbow", "knee"]})").what(), ContainsSubstring("list"));
    CHECK_THAT(failure_of_file(R"({"joint": {}})").what(), ContainsSubstring("joint"));
    CHECK_THAT(failure_of_file("[1]").what(), ContainsSubstring("object"));
    CHECK_THAT(failure_of_file("{\"joint\": ").what(), ContainsSubstring("line 1"));
    CHECK_THAT(failure_of_file(R"({"lowpass_hz": 1e400})").what(), ContainsSubstring("overflow parsing '1e400'"));
    Settings settings;
    CHECK_THROWS_AS(apply_settings_file("no-such-file.json", settings), Failure);
}
