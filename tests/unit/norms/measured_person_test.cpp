#include <jointrom/norms/measured_person.hpp>

#include <jointrom/core/failure.hpp>
#include <jointrom/core/whole_file.hpp>

#include <support/catch.hpp>
#include <support/scratch_folder.hpp>

#include <cmath>

using namespace jointrom;

namespace {

MeasuredPeople people(const std::string& text, const PersonDefaults& defaults = {}) {
    const auto source = text_source(text);
    return read_measured_people(*source, "trials.csv", defaults);
}

const std::string heading =
    "id,participant,side,joint,motion,condition,age_years,sex,status,positive_deg,positive_u_deg,"
    "positive_u95_deg,negative_deg,negative_u_deg,arc_deg\n";

/// The failure that reading the table ends with, as "code place".
std::string failure(const std::string& text) {
    try {
        (void)people(text);
    } catch (const Failure& error) {
        return error.code() + " " + error.place().text();
    }
    return "none";
}

}  // namespace

TEST_CASE("a table of results gives people with extents beyond neutral", "[norms][measured_person]") {
    const auto read =
        people(heading + "t1,P01,left,elbow,flexion-extension,passive,21,F,done,141.5,1.5,3.3423,-4.5,1.2,146\n"
                         "t2,P02,right,elbow,flexion-extension,,,,failed,,,,,,\n"
                         "t3,P03,r,knee,flexion,,30,m,done,138,,,,,\n",
               {.mode = MotionMode::active});
    REQUIRE(read.people.size() == 2);
    CHECK(read.rows == 3);
    CHECK(contains(read.findings, "results-row-skipped"));
    const MeasuredPerson& first = read.people.front();
    CHECK(first.label == "t1");
    CHECK(first.participant == "P01");
    CHECK(first.side == Side::left);
    CHECK(first.sex == Sex::female);
    CHECK(first.age_years == 21.0);
    CHECK(first.mode == MotionMode::passive);
    REQUIRE(first.extents.size() == 3);
    CHECK(first.extents[0].extent == Degrees(141.5));
    CHECK(first.extents[1].extent == Degrees(4.5));  // 4.5 deg beyond straight
    CHECK(first.extents[2].extent == Degrees(146.0));
    // 3.3423 / 1.5 is Student's factor for 10 degrees of freedom, 2.2281 (tables).
    CHECK(first.extents[0].budget.effective_degrees_of_freedom() == 10.0);
    CHECK(std::isinf(first.extents[1].budget.effective_degrees_of_freedom()));
    CHECK_FALSE(first.extents[2].assumed_basis.empty());
    CHECK(read.people[1].mode == MotionMode::active);
    REQUIRE(read.people[1].extents.size() == 1);
    CHECK_THAT(read.people[1].extents[0].assumed_basis, ContainsSubstring("boone1978"));
}

TEST_CASE("a name that looks like a formula is shown as it is", "[norms][measured_person]") {
    const auto read = people(heading + "'=1+1,'@Ada,left,elbow,flexion-extension,,21,F,done,141.5,1.5,3,,,\n");
    REQUIRE(read.people.size() == 1);
    CHECK(read.people[0].label == "=1+1");
    CHECK(read.people[0].participant == "@Ada");
}

TEST_CASE("a table of results is told from a recording by its headings", "[norms][measured_person]") {
    const test::ScratchFolder folder;
    const auto holds = [&](const std::string& text) {
        write_whole_file(folder.path() / "x.csv", text);
        return holds_measured_people(folder.path() / "x.csv");
    };
    CHECK(holds(heading + "t1,P01,left,elbow,flexion-extension,,21,F,done,141.5,1.5,3,,,\n"));
    CHECK(holds("Joint;Motion;arc_deg\n"));
    CHECK_FALSE(holds("joint,motion,side\nelbow,flexion,left\n"));
    CHECK_FALSE(holds("Time (s),Elbow angle (deg)\n0,1\n"));
    CHECK_FALSE(holds("0,1\n"));
    CHECK_FALSE(holds_measured_people(folder.path() / "none.csv"));
}

TEST_CASE("cells that cannot be are refused with their place", "[norms][measured_person]") {
    const auto with = [](const std::string& row) { return heading + row; };
    CHECK(failure("joint,motion\nelbow,flexion\n") == "results-column-missing trials.csv:1:1");
    CHECK(failure("side,motion,arc_deg\nleft,flexion,3\n").substr(0, 14) == "no-such-column");
    CHECK(failure(heading).substr(0, 13) == "results-empty");
    CHECK(failure(with("a,b,left,ellbow,flexion,,,,done,140,,,,,\n")) == "results-cell trials.csv:2:4");
    CHECK(failure(with("a,b,left,,flexion,,,,done,140,,,,,\n")) == "results-cell trials.csv:2:4");
    CHECK(failure(with("a,b,left,elbow,inversion,,,,done,140,,,,,\n")) == "results-cell trials.csv:2:5");
    CHECK(failure(with("a,b,middle,elbow,flexion,,,,done,140,,,,,\n")) == "results-cell trials.csv:2:3");
    CHECK(failure(with("a,b,left,elbow,flexion,,200,,done,140,,,,,\n")) == "results-cell trials.csv:2:7");
    CHECK(failure(with("a,b,left,elbow,flexion,,20,x,done,140,,,,,\n")) == "results-cell trials.csv:2:8");
    CHECK(failure(with("a,b,left,elbow,flexion,,20,F,done,1400,,,,,\n")) == "results-cell trials.csv:2:10");
    CHECK(failure(with("a,b,left,elbow,flexion,,20,F,done,140,-1,,,,\n")) == "results-cell trials.csv:2:11");
    CHECK(failure(with("a,b,left,elbow,flexion,,20,F,done,14O,,,,,\n")) == "not-a-number trials.csv:2:10");
}

TEST_CASE("an extent beyond the joint is refused", "[norms][measured_person]") {
    const JointMotion& elbow = joint_motion("elbow");  // plausible from -25 to 165 deg
    const auto refused = [&](MotionPart part, double deg) {
        try {
            check_plausible(elbow, {.part = part, .extent = Degrees(deg)});
            return false;
        } catch (const Failure& error) {
            return error.code() == "value-implausible";
        }
    };
    CHECK_FALSE(refused(MotionPart::positive, 165.0));
    CHECK(refused(MotionPart::positive, 166.0));
    CHECK_FALSE(refused(MotionPart::negative, -20.0));
    CHECK(refused(MotionPart::negative, 26.0));
    CHECK(refused(MotionPart::arc, -1.0));
    CHECK(refused(MotionPart::arc, 191.0));
    CHECK(refused(MotionPart::positive, std::nan("")));
}

TEST_CASE("sides of one participant are paired and trials of a side count with their mean",
          "[norms][measured_person]") {
    const auto read = people(heading + "t1,P01,left,elbow,flexion,,21,F,done,140,1.5,,,,\n"
                                       "t2,P02,right,elbow,flexion,,21,F,done,120,1,,,,\n"
                                       "t3,P01,right,elbow,flexion,,21,F,done,150,2,,,,\n"
                                       "t4,P01,right,elbow,flexion,,21,F,done,152,1,,,,\n"
                                       "t5,P01,right,elbow,flexion,loaded,21,F,done,90,1,,,,\n");
    const auto pairs = side_pairs(read.people);
    REQUIRE(pairs.size() == 1);
    CHECK(pairs[0].participant == "P01");
    CHECK(pairs[0].right_trials == 2);
    CHECK(pairs[0].comparison.difference == Degrees(-11.0));
    CHECK_THAT(pairs[0].comparison.budget.standard_uncertainty(), WithinRel(2.5, 1e-12));
    CHECK(pairs[0].comparison.is_larger);
}

TEST_CASE("a person is outside when an extent that has a norm is", "[norms][measured_person]") {
    const auto source =
        text_source("source,joint,motion,sex,age_min_years,age_max_years,mode,kind,value_deg,sd_deg,"
                    "sd_basis,n,provenance\nmade,elbow,flexion,F,20,44,active,mean,145,5,reported,90,found\n");
    const NormTable norms = read_norm_table(*source, "made.csv");
    const auto read = people(heading + "t1,P01,left,elbow,flexion,,21,F,done,120,1.5,,-4,1,124\n"
                                       "t2,P02,left,elbow,flexion,,21,F,done,145,1.5,,-4,1,149\n"
                                       "t3,P03,left,elbow,flexion,,50,F,done,145,1.5,,-4,1,149\n",
                             {.mode = MotionMode::active});
    const auto low = judge_person(norms, read.people[0]);
    CHECK(low.is_outside());
    REQUIRE(low.extents.size() == 2);  // the arc has no rows and is left out
    CHECK(low.extents[0].verdict() == LimitVerdict::below);
    CHECK(low.extents[1].judgements.empty());
    CHECK_FALSE(judge_person(norms, read.people[1]).is_outside());
    CHECK(judge_person(norms, read.people[1]).has_judgement());
    CHECK_FALSE(judge_person(norms, read.people[2]).has_judgement());
}
