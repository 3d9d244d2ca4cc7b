#include "cli/command.hpp"
#include "cli/output_options.hpp"

#include "analysis/setting_text.hpp"

#include <jointrom/batch/answer_tables.hpp>
#include <jointrom/batch/results_folder.hpp>

#include <fmt/format.h>

#include <memory>
#include <utility>

namespace jointrom::cli {
namespace {

struct GradeOptionTexts {
    std::string answers;
    std::string results;
    std::string tolerance_deg = "0";
    std::string tolerance_pct = "5";
    std::string rows = "answer";
    OutputOptions output;
};

/// The table whose rows are asked for comes first, which is the one that CSV holds.
std::vector<ResultTable> tables_of(const GradedSheet& sheet, const std::string& rows) {
    std::vector<ResultTable> tables{answer_table(sheet), participant_grade_table(sheet), quantity_grade_table(sheet)};
    if (rows != "answer") {
        std::swap(tables[0], tables[rows == "participant" ? 1 : 2]);
    }
    return tables;
}

ExitStatus run_grade(const GradeOptionTexts& options, Console& console) {
    const GradeOptions grading{.tolerance_deg = number_setting("--tolerance-deg", options.tolerance_deg),
                               .tolerance_pct = number_setting("--tolerance-pct", options.tolerance_pct)};
    RecordReader answer_rows(options.answers);
    const std::vector<Answer> answers = read_answers(answer_rows);
    const std::string results = results_table_named(options.results);
    RecordReader result_rows(results);
    const std::vector<ComputedTrial> computed = read_computed(result_rows);
    const GradedSheet sheet = grade_answers(answers, computed, grading);

    Report report;
    report.schema = "jointrom-grade";
    report.title = fmt::format("answers graded: {} against {}", options.answers, results);
    report.inputs = {options.output.input(options.answers, answers.size()),
                     options.output.input(results, computed.size())};
    report.settings = {{"tolerance_deg", options.tolerance_deg}, {"tolerance_pct", options.tolerance_pct}};
    report.tables = tables_of(sheet, options.rows);
    report.findings = sheet.findings;
    report.remarks.emplace_back("Right: within the uncertainty of the computed value, the tolerance and half a unit of "
                                "the last digit written.");
    options.output.write(report, console);
    return sheet.findings.empty() ? exit_done : exit_not_met;
}

}  // namespace

Action attach_grade(OptionList& list) {
    auto options = std::make_shared<GradeOptionTexts>();
    list.argument("answers", options->answers, "FILE",
                  "CSV of readings: participant, quantity, value; also side, joint, motion, trial, unit")
        .required();
    list.group("Grading");
    list.value("--results", options->results, "FILE",
               "the computed results: the folder that batch wrote, or its trials.csv")
        .required();
    list.value("--tolerance-deg", options->tolerance_deg, "D",
               "error of reading, in degrees, that is allowed for angles")
        .otherwise(options->tolerance_deg);
    list.value("--tolerance-pct", options->tolerance_pct, "P",
               "error, in percent, that is allowed where the results state no uncertainty")
        .otherwise(options->tolerance_pct);
    list.value("--by", options->rows, "ROWS", "answer, participant or quantity: which rows CSV holds")
        .one_of({"answer", "participant", "quantity"})
        .otherwise("answer");
    options->output.attach(list, false);
    return [options](Console& console) { return run_grade(*options, console); };
}

}  // namespace jointrom::cli
