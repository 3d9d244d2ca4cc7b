#include <jointrom/emg/muscle_action.hpp>

#include <jointrom/core/failure.hpp>

#include <support/catch.hpp>

#include <string>

using namespace jointrom;

// Actions as in any textbook of anatomy (from memory).
TEST_CASE("a muscle's name tells which way it moves the joint", "[emg][muscle_action]") {
    struct Row {
        const char* muscle;
        const char* joint;
        const char* direction;  ///< of the motion, "" when the name says nothing
    };
    const auto row = GENERATE(values<Row>({
        {"Biceps", "elbow", "flexion"},
        {"Triceps brachii", "elbow", "extension"},
        {"EMG triceps (L)", "elbow", "extension"},
        {"Brachioradialis", "elbow", "flexion"},
        {"Elbow flexors", "elbow", "flexion"},
        {"Trizeps", "elbow", "extension"},
        {"Vasto Medial", "knee", "extension"},
        {"Semitendinoso", "knee", "flexion"},
        {"Biceps Femoral", "knee", "flexion"},
        {"RF", "knee", "extension"},
        {"Quadriceps", "knee", "extension"},
        {"hamstrings", "knee", "flexion"},
        {"Soleus", "ankle", "plantarflexion"},
        {"Tibialis anterior", "ankle", "dorsiflexion"},
        {"wrist extensors", "wrist", "extension"},
        {"plantarflexors", "ankle", "plantarflexion"},
        {"EMG 1", "elbow", ""},
        {"Soleus", "elbow", ""},
        {"", "knee", ""},
    }));
    CAPTURE(row.muscle, row.joint);
    const JointMotion& motion = joint_motion(row.joint);
    const auto action = find_muscle_action(row.muscle, motion);
    const std::string found = !action ? std::string() : *action == Toward::positive ? motion.positive : motion.negative;
    CHECK(found == row.direction);
}

TEST_CASE("a direction may be named by its beginning", "[emg][muscle_action]") {
    const JointMotion& elbow = joint_motion("elbow");
    CHECK(direction_named("flexion", elbow, "--resists") == Toward::positive);
    CHECK(direction_named("EXT", elbow, "--resists") == Toward::negative);
    CHECK(direction_named("positive", unknown_joint_motion(), "--resists") == Toward::positive);
    CHECK_THROWS_AS(direction_named("", elbow, "--resists"), Failure);
    CHECK_THROWS_WITH(direction_named("abduction", elbow, "--resists"), ContainsSubstring("'abduction'"));
}

// By definition: shortening, constant and lengthening of the muscles that work against the load.
TEST_CASE("the load decides which phase is concentric", "[emg][muscle_action]") {
    CHECK(contraction_in(PhaseKind::raising, Toward::positive) == Contraction::concentric);
    CHECK(contraction_in(PhaseKind::lowering, Toward::positive) == Contraction::eccentric);
    CHECK(contraction_in(PhaseKind::raising, Toward::negative) == Contraction::eccentric);
    CHECK(contraction_in(PhaseKind::lowering, opposite(Toward::positive)) == Contraction::concentric);
    CHECK(contraction_in(PhaseKind::holding, Toward::negative) == Contraction::isometric);
    CHECK(name_of(contraction_in(PhaseKind::rest, Toward::negative)).empty());
}
