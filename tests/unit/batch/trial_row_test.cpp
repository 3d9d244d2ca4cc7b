#include <jointrom/batch/trial_row.hpp>

#include <support/catch.hpp>

using namespace jointrom;

TEST_CASE("a trial has a cell for every column, done or failed", "[batch][trial_row]") {
    TrialRow row;
    row.subject.id = "3f";
    row.subject.file = "P01.csv";
    row.subject.participant = "P01";
    row.subject.side = "left";
    std::string text;
    append_csv_cells(trial_columns(), trial_cells(row), text);
    CHECK(text == "3f,P01.csv,P01,left,,,,,,,,,failed,,,,,,,,,,,,,,,,,,0,,,,,0.1.0");
    row.done = true;
    row.positive = {143.25, 1.1, 2.2};
    row.repetitions = 5;
    text.clear();
    append_csv_cells(trial_columns(), trial_cells(row), text);
    CHECK(text == "3f,P01.csv,P01,left,,,,,,,,,done,,,,143.25,1.100,2.200,,,,,,,,5,,,,0,,,,,0.1.0");
    CHECK(csv_header(trial_columns()) ==
          "id,file,participant,side,joint,motion,condition,trial,rater,age_years,sex,load_kg,status,code,reason,"
          "positive_direction,positive_deg,positive_u_deg,positive_u95_deg,negative_direction,negative_deg,"
          "negative_u_deg,negative_u95_deg,arc_deg,arc_u_deg,arc_u95_deg,repetitions,mean_arc_deg,mean_arc_sd_deg,"
          "peak_velocity_deg_s,findings,reading_unit,reading_direction,input_sha256,settings_sha256,version\n");
    CHECK(subject_cells(row.subject).size() == subject_columns().size());
}
