#include <jointrom/recording/joint_inference.hpp>

#include <support/catch.hpp>

#include <string>
#include <vector>

using namespace jointrom;

namespace {

Recording named(const std::string& source, const std::string& heading = "Angle",
                std::vector<std::string> preamble = {}) {
    Recording recording;
    recording.source = source;
    recording.table.preamble = std::move(preamble);
    Channel channel;
    channel.name = heading;
    channel.role = ChannelRole::angle;
    recording.channels.push_back(channel);
    recording.angle = 0;
    return recording;
}

}  // namespace

TEST_CASE("joint and side are read from names as people write them", "[recording][joint_inference]") {
    struct Case {
        const char* source;
        const char* heading;
        const char* joint;
        const char* side;
    };
    for (const Case& c :
         {Case{"P01_right_elbow.csv", "Angle", "elbow", "right"}, Case{"lab3/S07-Knee-L.txt", "Angle", "knee", "left"},
          Case{"export 4.csv", "IMU_LeftElbow_Ext.-Flex.", "elbow", "left"},
          Case{"a.csv", "Kniewinkel rechts", "knee", "right"}, Case{"a.csv", "Angle coude gauche", "elbow", "left"},
          Case{"a.csv", "Ángulo de la muñeca derecha", "wrist", "right"},
          Case{"Schulter_links.csv", "Winkel", "shoulder", "left"}, Case{"Hüfte.csv", "Winkel", "hip", ""},
          Case{"kneeR_02.csv", "Angle", "knee", "right"}, Case{"trial L-R.csv", "Angle", "", ""},
          Case{"P01R.csv", "Angle", "", "right"}, Case{"R2 day 1.csv", "l'angle", "", ""},
          Case{"left/relation.csv", "Chip", "", ""}, Case{"-", "Forearm pronation", "forearm", ""}}) {
        CAPTURE(c.source, c.heading);
        const Inferred inferred = infer_joint_and_side(named(c.source, c.heading));
        CHECK(inferred.joint == c.joint);
        CHECK(inferred.side == c.side);
        CHECK(inferred.joint_where.empty() == inferred.joint.empty());
        CHECK(inferred.side_where.empty() == inferred.side.empty());
        CHECK(inferred.contradiction.empty());
    }
}

TEST_CASE("it is said which text named the joint and the side", "[recording][joint_inference]") {
    const Inferred inferred = infer_joint_and_side(named("knee.csv", "Angle", {"Participant P02", "Side: right"}));
    CHECK(inferred.joint_where == "the file name 'knee.csv'");
    CHECK(inferred.side_where == "the lines above the table");
}

TEST_CASE("texts that contradict each other settle nothing", "[recording][joint_inference]") {
    const Inferred sides = infer_joint_and_side(named("elbow_left.csv", "Right elbow"));
    CHECK(sides.side.empty());
    CHECK(sides.joint == "elbow");
    CHECK(sides.contradiction == "the heading 'Right elbow' says right, the file name 'elbow_left.csv' says left");

    const Inferred both = infer_joint_and_side(named("knee and hip.csv"));
    CHECK(both.joint.empty());
    CHECK(both.contradiction.empty());
}

TEST_CASE("a recording without an angle still tells its joint by its file name", "[recording][joint_inference]") {
    Recording recording;
    recording.source = "ankle_r.csv";
    CHECK(infer_joint_and_side(recording).joint == "ankle");
    CHECK(infer_joint_and_side(recording).side == "right");
}
