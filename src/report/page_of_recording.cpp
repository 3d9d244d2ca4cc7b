#include <jointrom/report/page_of_recording.hpp>

#include <jointrom/core/number_text.hpp>
#include <jointrom/core/version.hpp>
#include <jointrom/figure/angle_figure.hpp>
#include <jointrom/figure/ensemble_figure.hpp>
#include <jointrom/movement/ensemble_curve.hpp>
#include <jointrom/report/activity_tables.hpp>
#include <jointrom/report/check_tables.hpp>
#include <jointrom/report/movement_tables.hpp>
#include <jointrom/report/page.hpp>
#include <jointrom/report/page_parts.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <cctype>
#include <cmath>
#include <filesystem>

namespace jointrom {
namespace {

/// "26.2 s at 200 Hz; muscles: Biceps, Triceps".
std::string recording_in_words(const Trial& trial) {
    const AngleTrace& trace = trial.trace;
    std::string text = fmt::format("{} s, angle at {} Hz", fixed_text(trace.duration({0, trace.size()}).value(), 1),
                                   shortest_text(std::round(trace.rate().value() * 10.0) / 10.0));
    std::string muscles;
    for (const Channel& channel : trial.recording.channels) {
        if (channel.role == ChannelRole::emg) {
            muscles += (muscles.empty() ? "" : ", ") + channel.name;
        }
    }
    return muscles.empty() ? text : text + "; muscles: " + muscles;
}

Markup header_of(const RecordingPage& page, const std::string& title) {
    const std::string& source = page.measured.trial.recording.source;
    const std::string file = source == "-" ? "standard input" : std::filesystem::path(source).filename().string();
    return element("header", element("h1", title) + element("p", {{"class", "soft"}},
                                                            file + " – " + recording_in_words(page.measured.trial)));
}

Markup headline(const std::string& quantity, Degrees angle, const Budget& budget) {
    const Measured value = measured(angle.value(), budget);
    return element("div", element("dt", quantity) +
                              element("dd", Markup(angle_text(value.value)) +
                                                element("span", {{"class", "u"}}, " ± " + angle_text(value.u95))));
}

Markup result_of(const RecordingPage& page) {
    const AngleTrace& trace = page.measured.trial.trace;
    const JointMotion& motion = trace.motion();
    const RangeOfMotion& range = page.measured.range;
    Markup content = element("dl", {{"class", "results"}},
                             headline(with_capital(motion.positive), range.positive.angle, range.positive.budget) +
                                 headline(with_capital(motion.negative), range.negative.angle, range.negative.budget) +
                                 headline("Arc between them", range.arc, range.arc_budget));
    content += paragraph(with_degree_signs(neutral_zero_sentence(motion, range)));
    if (motion.is_known()) {
        content += paragraph(fmt::format("0° is the neutral posture ({}); angles above 0° are {}, angles below are {}.",
                                         motion.neutral_posture, motion.positive, motion.negative));
    }
    content += table_markup(
        with_columns(range_table(trace, range), {"quantity", "extent_deg", "held_deg", "mean_deg", "sd_deg", "count"}),
        {.caption = "The farthest angle, the farthest one that was held, and the mean over the repetitions",
         .headings = {{"extent_deg", "farthest"}, {"count", "repetitions"}}});
    return content;
}

/// The figure for wide screens and paper, and one that can be read on a phone.
Markup movement_of(const MeasuredRecording& measured) {
    const std::span<const MuscleActivity> muscles =
        measured.muscles ? std::span<const MuscleActivity>(measured.muscles->activity.muscles)
                         : std::span<const MuscleActivity>();
    Markup figures = figure_markup("movement-figure", [&](const FigureStyle& style) {
        return angle_figure(measured.trial.trace, measured.phases.phases, measured.peaks, muscles, style);
    });
    if (measured.repetitions.rows.size() > 1) {
        const EnsembleCurve curve = ensemble_curve(measured.trial.trace, measured.repetitions.rows);
        figures += figure_markup("curve-figure", [&](const FigureStyle& style) {
            return ensemble_figure(measured.trial.trace, curve, style);
        });
    }
    return figures;
}

/// What a budget is made of, the largest part first.
Markup budget_markup(const std::string& quantity, const Budget& budget) {
    std::vector<BudgetLine> lines = budget.lines();
    std::ranges::stable_sort(lines, std::ranges::greater(), &BudgetLine::contribution);
    const double u = budget.standard_uncertainty();
    ResultTable table("uncertainty of " + quantity, {"source", "contribution_deg", "variance_share_pct"});
    for (const BudgetLine& line : lines) {
        const double share = line.contribution() / u;
        table.add_row({line.input, FixedNumber{line.contribution(), 2}, 100.0 * share * share});
    }
    return table_markup(table, {.caption = fmt::format("What the ± of {} is made of: ± {} = {} times {}°", quantity,
                                                       angle_text(budget.expanded_uncertainty()),
                                                       fixed_text(budget.coverage_factor(), 2), fixed_text(u, 2)),
                                .headings = {{"source", "comes from"}}});
}

Markup certainty_of(const RecordingPage& page) {
    const RangeOfMotion& range = page.measured.range;
    const JointMotion& motion = page.measured.trial.trace.motion();
    Markup content = paragraph(
        "No measurement is exact. The ± behind an angle says how far the true angle may be from it: in 95 of 100 such "
        "measurements it is no farther, as far as sensor, zero and noise are known. Two values differ for sure only "
        "when their difference is clearly larger than their ±.");
    content += budget_markup(motion.positive, range.positive.budget);
    content += budget_markup("the arc", range.arc_budget);
    const std::span<const std::string> steps = page.measured.trial.trace.steps();
    content += element("h3", "From the sensor's reading to the angle");
    content += list_of(steps);
    return content;
}

Markup repetitions_of(const MeasuredRecording& measured) {
    const Repetitions& repetitions = measured.repetitions;
    if (repetitions.rows.empty()) {
        return paragraph("No repetition was found: the joint did not move away from rest and back again.");
    }
    std::string sentence =
        fmt::format("{} repetition{}", repetitions.rows.size(), repetitions.rows.size() == 1 ? "" : "s");
    if (!std::isnan(repetitions.cadence_per_min)) {
        sentence += fmt::format(", {} a minute", fixed_text(repetitions.cadence_per_min, 1));
    }
    if (!std::isnan(repetitions.arc_cv_pct)) {
        sentence += fmt::format("; from one to the next the arc varies by {} % and the duration by {} %",
                                fixed_text(repetitions.arc_cv_pct, 1), fixed_text(repetitions.duration_cv_pct, 1));
    }
    Markup content = paragraph(sentence + ".");
    content +=
        table_markup(with_columns(repetition_table(measured.trial.trace, repetitions),
                                  {"repetition", "start_s", "duration_s", "arc_deg", "turn_deg", "raising_s",
                                   "holding_s", "lowering_s", "raising_velocity_deg_s", "lowering_velocity_deg_s"}),
                     {.caption = "Each repetition", .sortable = true});
    content += table_markup(with_columns(phase_table(measured.trial.trace, measured.phases.phases, repetitions.rows),
                                         {"repetition", "phase", "direction", "start_s", "duration_s", "start_deg",
                                          "end_deg", "excursion_deg", "peak_velocity_deg_s"}),
                            {.caption = "Phases, in order of time", .most_rows = 60});
    return content;
}

Markup muscles_of(const MeasuredRecording& measured) {
    if (!measured.muscles) {
        return {};
    }
    const ActivityResult& activity = measured.muscles->activity;
    Markup content =
        paragraph("How hard each muscle worked on average while the joint was raising, holding and lowering, "
                  "and when. Between people and between muscles only percentages of a greatest voluntary "
                  "contraction compare.");
    content += table_markup(
        with_columns(muscle_table(activity), {"muscle", "activity_unit", "raising_activity", "holding_activity",
                                              "lowering_activity", "most_active", "rise_to_fall", "bursts", "lead_s"}),
        {.caption = "Muscles"});
    content += table_markup(
        with_columns(co_contraction_table(activity),
                     {"mover", "antagonist", "repetition", "activity_unit", "common_area_pct", "mean_of_lower"}),
        {.caption = "Both at once: co-contraction; the row without a number is the whole recording", .most_rows = 40});
    content += table_markup(fatigue_table(activity), {.caption = "Does the muscle tire? Median frequency over time"});
    content += table_markup(treatment_table(activity), {.caption = "What was done to the electromyograms"});
    return content;
}

Markup comparison_of(const RecordingPage& page) {
    if (!page.judged) {
        return {};
    }
    std::vector<std::string> sentences;
    for (const ExtentJudgement& extent : page.judged->extents) {
        sentences.push_back(verdict_sentence(extent));
    }
    return list_of(sentences) +
           table_markup(with_columns(judgement_table(*page.judged),
                                     {"direction", "extent_deg", "reference_deg", "band_low_deg", "band_high_deg",
                                      "deviation_deg", "verdict", "norm_source"}),
                        {.caption = "Measured beside published values; an extent counts beyond neutral"}) +
           table_markup(norm_used_table({&*page.judged, 1}), {.caption = "Whom the published values describe"});
}

Markup findings_of(const Report& report) {
    const std::vector<ToldFinding> findings = told(report.findings);
    return findings.empty() ? paragraph("Nothing had to be assumed and nothing looks wrong.")
                            : paragraph(findings_count(findings) + ".") + findings_markup(findings);
}

Markup words_of(const MeasuredRecording& measured, bool is_judged) {
    Markup content =
        glossary({"0°", "±", "arc", "held", "repetition", "raising, lowering", "holding, rest", "mean", "SD"});
    if (measured.muscles) {
        content += glossary({"EMG", "activity", "mover, antagonist", "co-contraction"});
    }
    if (is_judged) {
        content += glossary({"normal range", "cannot tell"});
    }
    return content + glossary({"finding"});
}

}  // namespace

std::string heading_of_motion(const JointMotion& motion, Side side) {
    if (!motion.is_known()) {
        return "Joint angle";
    }
    const std::string of_side = side == Side::unknown ? "" : std::string(name_of(side)) + " ";
    return with_capital(fmt::format("{}{}: {} and {}", of_side, motion.joint, motion.positive, motion.negative));
}

std::string page_of_recording(const RecordingPage& page) {
    const AngleTrace& trace = page.measured.trial.trace;
    const std::string title =
        page.report.title.empty() ? heading_of_motion(trace.motion(), trace.side()) : page.report.title;
    const std::vector<PageSection> sections{
        {"result", "Result", result_of(page)},
        {"movement", "The movement", movement_of(page.measured)},
        {"compared", "Compared with other people", comparison_of(page)},
        {"certainty", "How sure is it?", certainty_of(page)},
        {"findings", "Findings", findings_of(page.report)},
        {"repetitions", "Repetitions", repetitions_of(page.measured)},
        {"muscles", "Muscles", muscles_of(page.measured)},
        {"words", "Words", words_of(page.measured, page.judged.has_value())},
        {"origin", "How to get the same again", provenance(page.report.inputs, version(), page.report.settings)}};
    const Markup body =
        header_of(page, title) + element("p", {{"class", "caution"}}, caution_line()) + sections_markup(sections);
    return page_text({title, "Range of motion of one recording, with its uncertainty", body});
}

}  // namespace jointrom
