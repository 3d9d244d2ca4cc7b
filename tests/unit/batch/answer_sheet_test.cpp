#include <jointrom/batch/answer_sheet.hpp>

#include <jointrom/core/failure.hpp>

#include <support/catch.hpp>

#include <cmath>
#include <sstream>

using namespace jointrom;

namespace {

template <typename Read>
auto read(const std::string& text, const Read& how) {
    std::istringstream stream(text);
    const auto source = stream_source(stream);
    RecordReader table(*source, "answers.csv");
    return how(table);
}

std::vector<Answer> answers(const std::string& rows, const std::string& more = "") {
    return read("participant,quantity,value" + more + "\n" + rows, read_answers);
}

/// A class of two; P02 was recorded on both sides and twice on the left.
std::vector<ComputedTrial> computed() {
    return read("id,file,participant,side,joint,motion,trial,status,positive_direction,positive_deg,positive_u95_deg,"
                "negative_direction,negative_deg,arc_deg,arc_u95_deg,repetitions,peak_velocity_deg_s\n"
                "1,a.csv,P01,right,elbow,flexion-extension,1,done,flexion,132.6,1.4,extension,-4.2,136.8,1.2,5,210.0\n"
                "2,b.csv,P02,left,elbow,flexion-extension,1,done,flexion,141.0,1.0,extension,3.5,137.5,1.0,4,180.0\n"
                "3,c.csv,P02,left,elbow,flexion-extension,2,done,flexion,145.0,1.0,extension,2.5,142.5,1.0,4,190.0\n"
                "4,d.csv,P02,right,elbow,flexion-extension,1,done,flexion,120.0,1.0,extension,0.5,119.5,1.0,6,170.0\n"
                "5,e.csv,P03,right,elbow,flexion-extension,1,failed,,,,,,,,,\n",
                read_computed);
}

GradedAnswer grade_one(const std::string& row, const GradeOptions& options = {}, const std::string& more = "") {
    return grade_answers(answers(row + "\n", more), computed(), options).answers.front();
}

}  // namespace

TEST_CASE("a reading within the uncertainty is right", "[batch][answer_sheet]") {
    CHECK(grade_one("P01,arc_deg,137.9").verdict == Verdict::right);  // 1.1 off, 1.2 + 0.05 allowed
    CHECK(grade_one("P01,arc_deg,138.2").verdict == Verdict::wrong);
    CHECK(grade_one("P01,arc_deg,138").verdict == Verdict::right);  // 1.2 off, 1.2 + 0.5 allowed for whole degrees
    CHECK(grade_one("P01,arc_deg,141.0", {.tolerance_deg = 3.0}).verdict == Verdict::right);
    const GradedAnswer graded = grade_one("P01,arc_deg,137.9");
    CHECK_THAT(graded.computed, WithinAbs(136.8, 1e-12));
    CHECK_THAT(graded.allowed, WithinAbs(1.25, 1e-12));
    CHECK(graded.trials == 1);
}

TEST_CASE("quantities have names in words", "[batch][answer_sheet]") {
    for (const char* name : {"arc_deg", "arc", "Arc", "ROM", "range of motion", "range-of-motion"}) {
        CAPTURE(name);
        CHECK(grade_one(std::string("p01,") + name + ",136.8").verdict == Verdict::right);
    }
    CHECK(grade_one("P01,flexion,132.6").column == "positive_deg");
    CHECK(grade_one("P01,Flexion,132.6").verdict == Verdict::right);
    CHECK(grade_one("P01,extension,4.2").verdict == Verdict::right);  // beyond neutral counts in its own direction
    CHECK(grade_one("P01,negative_deg,-4.2").verdict == Verdict::right);
    CHECK(grade_one("P01,repetitions,5").verdict == Verdict::right);
    CHECK(grade_one("P01,repetitions,6").verdict == Verdict::wrong);
    CHECK(grade_one("P01,peak velocity,202").verdict == Verdict::right);  // no uncertainty stated: within 5 %
    CHECK(grade_one("P01,peak velocity,180").verdict == Verdict::wrong);
}

TEST_CASE("the usual mistakes are recognised", "[batch][answer_sheet]") {
    struct Case {
        const char* row;
        Mistake mistake;
    };
    const std::vector<Case> cases{
        {"P01,flexion,-132.6", Mistake::sign},         {"P01,extension,-4.2", Mistake::sign},
        {"P01,flexion,47.4", Mistake::supplement},     {"P01,flexion,2.31", Mistake::radians},
        {"P01,peak velocity,3.67", Mistake::radians},  {"P01,flexion,136.8", Mistake::other_quantity},
        {"P01,flexion,13.26", Mistake::decimal_point}, {"P01,flexion,1326", Mistake::decimal_point},
        {"P01,flexion,66.3", Mistake::half},           {"P01,arc_deg,273.6", Mistake::twice},
        {"P01,flexion,130", Mistake::rounded},         {"P01,flexion,130.3", Mistake::near},
        {"P01,flexion,99.7", Mistake::unexplained}};
    for (const Case& row : cases) {
        CAPTURE(row.row);
        const GradedAnswer graded = grade_one(row.row);
        CHECK(graded.verdict == Verdict::wrong);
        CHECK(name_of(graded.mistake) == name_of(row.mistake));
        CHECK(graded.feedback.ends_with('.'));
    }
    CHECK(grade_one("P02,flexion,120.0,left,1", {}, ",side,trial").mistake == Mistake::other_side);
    CHECK(grade_one("P02,flexion,145.0,left,1", {}, ",side,trial").mistake == Mistake::other_trial);
}

TEST_CASE("units are understood in the cell and in a column of their own", "[batch][answer_sheet]") {
    for (const char* text : {"133 deg", "133°", "133.0", "2.314 rad", "\"132,6\""}) {
        CAPTURE(text);
        CHECK(grade_one(std::string("P01,flexion,") + text).verdict == Verdict::right);
    }
    CHECK(grade_one("P01,flexion,2.314,rad", {}, ",unit").verdict == Verdict::right);
    CHECK(grade_one("P01,peak velocity,3.66,rad/s", {}, ",unit").verdict == Verdict::right);
    CHECK(grade_one("P01,flexion,133,kg", {}, ",unit").verdict == Verdict::not_graded);
    CHECK(grade_one("P01,flexion,133 apples").verdict == Verdict::not_graded);
}

TEST_CASE("several trials of one side are taken together", "[batch][answer_sheet]") {
    const GradedAnswer graded = grade_one("P02,flexion,143,left", {}, ",side");
    CHECK(graded.verdict == Verdict::right);
    CHECK(graded.trials == 2);
    CHECK_THAT(graded.computed, WithinAbs(143.0, 1e-12));
    CHECK_THAT(graded.u95, WithinAbs(3.0, 1e-12));  // root of 1.0^2 and the SD 2.828^2
    CHECK(grade_one("P02,flexion,143,L", {}, ",side").verdict == Verdict::right);
}

TEST_CASE("what cannot be graded says why and what was meant", "[batch][answer_sheet]") {
    struct Case {
        const char* row;
        const char* reason;
    };
    const std::vector<Case> cases{{"P0l,flexion,130", "did you mean 'P01'"},
                                  {"P01,flexon,130", "did you mean 'flexion'"},
                                  {"P01,flexion,", "no value"},
                                  {"P01,,130", "no quantity"},
                                  {",flexion,130", "no participant"},
                                  {"P01,flexion,about 130", "is no number"},
                                  {"P01,flexion,nan", "is no number"},
                                  {"P02,flexion,130", "in a column side"},
                                  {"P03,flexion,130", "no participant is called 'P03'"}};
    for (const Case& row : cases) {
        CAPTURE(row.row);
        const GradedSheet sheet = grade_answers(answers(std::string(row.row) + "\n"), computed());
        CHECK(sheet.answers.front().verdict == Verdict::not_graded);
        CHECK_THAT(sheet.answers.front().feedback, ContainsSubstring(row.reason));
        REQUIRE(sheet.findings.size() == 1);
        CHECK(sheet.findings.front().place.text() == "answers.csv:2:3");
    }
    CHECK(grade_one("P01,flexion,130,left", {}, ",side").verdict == Verdict::not_graded);
}

TEST_CASE("of repeated answers the first counts", "[batch][answer_sheet]") {
    const GradedSheet sheet =
        grade_answers(answers("P01,flexion,99\nP01,positive_deg,132.6\nP02,extension,1\n"), computed());
    CHECK(sheet.answers[0].verdict == Verdict::wrong);
    CHECK(sheet.answers[1].verdict == Verdict::not_graded);
    CHECK(contains(sheet.findings, "answer-twice"));
}

TEST_CASE("the class is counted by participant and by quantity", "[batch][answer_sheet]") {
    const GradedSheet sheet = grade_answers(answers("P01,flexion,132.6,right\nP01,arc,137.5,right\nP02,flexion,-143,"
                                                    "left\nP02,arc,140.5,left\nP02,arc,,right\n",
                                                    ",side"),
                                            computed());
    const auto people = grades_by_participant(sheet);
    REQUIRE(people.size() == 2);
    CHECK(people[0].right == 2);
    CHECK_THAT(people[0].right_pct(), WithinAbs(100.0, 1e-12));
    CHECK(people[1].not_graded == 1);
    CHECK(people[1].commonest == Mistake::sign);
    const auto quantities = grades_by_quantity(sheet);
    REQUIRE(quantities.size() == 2);
    CHECK(quantities[0].name == "arc_deg");
    CHECK(quantities[0].answers == 3);
    CHECK_THAT(quantities[0].mean_error, WithinAbs((137.5 - 136.8 + 140.5 - 140.0) / 2.0, 1e-9));
}

TEST_CASE("empty sheets, empty results and negative tolerances are refused", "[batch][answer_sheet]") {
    const auto code_of = [](const auto& call) {
        try {
            call();
        } catch (const Failure& failure) {
            return failure.code();
        }
        return std::string("none");
    };
    CHECK(code_of([] { (void)answers(""); }) == "answers-empty");
    CHECK(code_of([] { (void)read("participant,status\nP01,failed\n", read_computed); }) == "results-empty");
    CHECK(code_of([] { (void)read("who,quantity,value\nP01,arc,1\n", read_answers); }) == "no-such-column");
    CHECK(code_of([] { (void)grade_one("P01,arc,1", {.tolerance_deg = -1.0}); }) == "tolerance-negative");
}
