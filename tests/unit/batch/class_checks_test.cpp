#include <jointrom/batch/class_checks.hpp>

#include <support/catch.hpp>

using namespace jointrom;

namespace {

/// A class as the checks see it, one recording after another.
struct Class {
    std::vector<TrialRow> rows;
    std::vector<TrialTask> tasks;

    TrialRow& add(const std::string& participant, const std::string& side, const std::string& direction) {
        TrialRow row;
        row.subject.id = std::to_string(rows.size());
        row.subject.file = participant + "_" + side + ".csv";
        row.subject.participant = participant;
        row.subject.side = side;
        row.subject.joint = "elbow";
        row.subject.motion = "flexion-extension";
        row.done = true;
        row.arc = {120.0, 1.0, 2.0};
        row.reading_unit = "deg";
        row.reading_direction = direction;
        row.input_sha256 = "hash" + row.subject.id;
        rows.push_back(row);
        TrialTask task;
        task.references = std::make_shared<SharedReferences>();
        tasks.push_back(task);
        return rows.back();
    }

    /// Codes, and the text of the last.
    [[nodiscard]] std::string codes() const {
        std::string text;
        for (const Finding& finding : class_findings(rows, tasks)) {
            text += std::string(finding.code()) + " ";
        }
        return text;
    }
};

Class plain_class() {
    Class all;
    for (const char* name : {"P1", "P2", "P3", "P4"}) {
        all.add(name, "left", "rising");
        all.add(name, "right", "falling");
    }
    return all;
}

std::shared_ptr<const SharedReferences> calibrated(Side side) {
    auto references = std::make_shared<SharedReferences>();
    references->files.calibration.emplace();
    references->files.calibration->side = side;
    return references;
}

}  // namespace

TEST_CASE("a class without blunders has no findings", "[batch][class_checks]") {
    CHECK(plain_class().codes().empty());
    CHECK(class_findings({}, {}).empty());
}

TEST_CASE("the same bytes under two names, and the same trial twice", "[batch][class_checks]") {
    Class all = plain_class();
    all.rows[3].input_sha256 = all.rows[0].input_sha256;
    CHECK(all.codes() == "recording-repeated ");
    all = plain_class();
    all.rows[2].input_sha256 = all.rows[0].input_sha256 = "";
    all.rows[2].subject.participant = "P1";
    CHECK(all.codes() == "trial-repeated ");
    all.rows[2].subject.trial = "2";
    CHECK(all.codes().empty());
}

TEST_CASE("contradictions within a participant", "[batch][class_checks]") {
    Class all = plain_class();
    all.rows[0].subject.age_years = 20;
    all.rows[1].subject.age_years = 21;
    all.rows[0].subject.sex = "F";
    CHECK(all.codes().empty());
    all.rows[1].subject.age_years = 30;
    CHECK(all.codes() == "participant-contradiction ");
    all.rows[1].subject.sex = "M";
    CHECK(all.codes() == "participant-contradiction participant-contradiction ");
}

TEST_CASE("calibrations of another day, of another side, and none", "[batch][class_checks]") {
    Class all = plain_class();
    for (TrialTask& task : all.tasks) {
        task.calibration_file = "cal/elbow_2026-03-02.json";
        task.date = "2026-03-02";
    }
    CHECK(all.codes().empty());
    all.tasks[1].date = "2026-03-09";
    CHECK(all.codes() == "calibration-other-date ");
    all.tasks[1].calibration_date = "2026-03-09";
    all.tasks[2].calibration_file = "";
    CHECK(all.codes() == "calibration-not-used ");
    all = plain_class();
    for (std::size_t i = 0; i < all.tasks.size(); ++i) {
        all.tasks[i].references = calibrated(i % 2 == 0 ? Side::left : Side::right);
    }
    CHECK(all.codes().empty());
    all.tasks[2].references = calibrated(Side::right);
    CHECK(all.codes() == "calibration-other-side ");
}

TEST_CASE("another unit than the class", "[batch][class_checks]") {
    Class all = plain_class();
    all.rows[5].reading_unit = "rad";
    CHECK(all.codes() == "unit-differs ");
    all.rows[5].reading_unit = "deg";
    all.rows[5].arc.value = 120.0 / 57.3;
    CHECK(all.codes() == "unit-differs ");
}

TEST_CASE("left and right of a participant that look swapped", "[batch][class_checks]") {
    Class all = plain_class();
    all.rows[4].reading_direction = "falling";
    CHECK(all.codes() == "reading-direction-differs ");
    all.rows[5].reading_direction = "rising";
    CHECK(all.codes() == "sides-swapped ");

    Class trials;
    for (const char* trial : {"1", "2", "3"}) {
        trials.add("P1", "left", "falling").subject.trial = trial;
        trials.add("P1", "right", "falling").subject.trial = trial;
        trials.rows[trials.rows.size() - 2].arc.value = 140.0;
    }
    CHECK(trials.codes().empty());
    std::swap(trials.rows[2].arc, trials.rows[3].arc);
    CHECK(trials.codes() == "sides-swapped ");
    CHECK(class_findings(trials.rows, trials.tasks)[0].text ==
          "P1, trial 2: left less right is -20.0 deg, in the other trials it has the other sign");
}
