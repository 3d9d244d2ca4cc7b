#include <jointrom/analysis/joint_choices.hpp>
#include <jointrom/analysis/settings.hpp>

#include <support/catch.hpp>

#include <algorithm>

using namespace jointrom;

using Words = std::vector<std::string>;

TEST_CASE("motions and postures are narrowed by the joint", "[analysis][joint_choices]") {
    CHECK(choices_by_joint("motion").at("elbow") == Words{"extension", "flexion", "flexion-extension"});
    CHECK(choices_by_joint("posture").at("elbow") == Words{"hanging", "horizontal", "overhead"});
    CHECK_FALSE(choices_by_joint("posture").contains("neck"));
    CHECK(choices_by_joint("side").empty());
}

TEST_CASE("what a joint leaves is among the words for all joints, and every joint leaves a motion",
          "[analysis][joint_choices]") {
    for (const char* name : {"motion", "posture"}) {
        const Words all = setting_choices(name);
        for (const auto& [joint, words] : choices_by_joint(name)) {
            for (const std::string& word : words) {
                CAPTURE(joint, word);
                CHECK(std::ranges::count(all, word) == 1);
            }
        }
    }
    CHECK(choices_by_joint("motion").size() == joint_choices().size());
}
