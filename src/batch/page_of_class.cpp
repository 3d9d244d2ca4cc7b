#include <jointrom/batch/page_of_class.hpp>

#include "batch/class_cards.hpp"
#include "batch/class_pictures.hpp"

#include <jointrom/report/check_tables.hpp>
#include <jointrom/report/page.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <limits>

namespace jointrom {
namespace {

constexpr std::size_t all_rows = std::numeric_limits<std::size_t>::max();

std::string counted(std::size_t count, std::string_view what) {
    return fmt::format("{} {}{}", count, what, count == 1 ? "" : "s");
}

Markup header_of(const ClassPage& page, const std::string& title, std::size_t members) {
    const auto failed = static_cast<std::size_t>(
        std::ranges::count_if(page.results.outcomes, [](const TrialOutcome& outcome) { return !outcome.row.done; }));
    std::string text = counted(page.results.outcomes.size(), "recording") + " of " + counted(members, "participant");
    if (failed > 0) {
        text += fmt::format("; {} could not be measured", failed);
    }
    return element("header", element("h1", title) + element("p", {{"class", "soft"}}, text));
}

/// A table of statistics with measured columns in words: directions by name where all recordings have the same. Without
/// motions that joints alone tell, and without groups that nobody belongs to.
ResultTable in_words(const ResultTable& table, const ClassForm& form) {
    std::vector<std::string_view> keys;
    for (const ColumnKind* const column : table.columns()) {
        keys.push_back(column->key);
    }
    ResultTable result(table.name(), keys);
    for (std::vector<Cell> row : table.rows()) {
        bool is_empty = false;
        for (std::size_t c = 0; c < row.size(); ++c) {
            if (keys[c] == "quantity") {
                const std::string quantity = std::get<std::string>(row[c]);
                const auto own =
                    std::ranges::find(form.headings, quantity, &std::pair<std::string_view, std::string>::first);
                row[c] = own != form.headings.end() ? own->second : std::string(column_kind(quantity).heading);
            } else if (keys[c] == "motion" && !form.has_several_motions) {
                row[c] = Cell();
            }
            if (auto* const number = std::get_if<FixedNumber>(&row[c]); number != nullptr && keys[c] != "p") {
                number->decimals = std::min(number->decimals, 1);
            }
            is_empty = is_empty || (keys[c] == "first_count" && std::get<std::int64_t>(row[c]) == 0);
        }
        if (!is_empty) {
            result.add_row(std::move(row));
        }
    }
    return result;
}

Markup class_as_a_whole(const ClassPage& page, const ClassForm& form) {
    const ClassStatistics& statistics = page.statistics;
    if (!statistics.groups) {
        return paragraph("No recording could be measured.");
    }
    Markup content =
        table_markup(with_columns(in_words(*statistics.groups, form),
                                  {"joint", "motion", "side", "condition", "quantity", "participants", "mean", "sd",
                                   "ci_low", "ci_high", "middle", "minimum", "maximum"}),
                     {.caption = "Farthest angles of the groups, in degrees; from and to: 95 % interval of the mean",
                      .most_rows = all_rows});
    if (statistics.sides) {
        content += table_markup(
            with_columns(in_words(*statistics.sides, form),
                         {"joint", "motion", "condition", "quantity", "first_count", "first_mean", "second_mean",
                          "difference", "ci_low", "ci_high", "p"}),
            {.caption = "Right less left in degrees, over participants with both sides; from and to: 95 % interval",
             .most_rows = all_rows,
             .headings = {
                 {"first_count", "participants"}, {"first_mean", "mean left"}, {"second_mean", "mean right"}}});
    }
    if (statistics.outliers) {
        content += table_markup(with_columns(in_words(*statistics.outliers, form),
                                             {"participant", "id", "joint", "motion", "side", "condition", "quantity",
                                              "value", "middle", "modified_z"}),
                                {.caption = "Values that stand out from their group"});
    }
    return content;
}

Markup compared_with_others(const ClassPage& page) {
    if (page.comparison.judged.empty()) {
        return {};
    }
    return paragraph("How many recordings lie below, inside and above the normal range of published values, and of how "
                     "many their ± does not let us tell. Cards have the sentence for each.") +
           table_markup(verdict_count_table(page.comparison.judged), {.caption = "Extents by joint and direction"}) +
           table_markup(norm_used_table(page.comparison.judged), {.caption = "Whom the published values describe"});
}

Markup all_recordings(const ClassPage& page, const ClassForm& form, std::span<const ClassMember> members) {
    std::vector<std::size_t> recordings, member_of;
    for (std::size_t m = 0; m < members.size(); ++m) {
        recordings.insert(recordings.end(), members[m].recordings.begin(), members[m].recordings.end());
        member_of.resize(recordings.size(), m);
    }
    return table_markup(with_columns(recording_table(page.results, form, recordings),
                                     {"participant", "joint", "motion", "side", "condition", "trial", "rater",
                                      "load_kg", "positive_deg", "negative_deg", "arc_deg", "repetitions",
                                      "mean_arc_deg", "mean_arc_sd_deg", "warnings", "status"}),
                        {.caption = "A row for each recording; names lead to the cards below",
                         .sortable = true,
                         .most_rows = all_rows,
                         .headings = form.headings,
                         .link = [&](std::size_t row) { return "#" + card_id(member_of[row]); }});
}

Markup findings_of(const ClassPage& page) {
    std::vector<ToldFinding> findings = page.results.findings;
    for (ToldFinding& finding : told(page.comparison.findings)) {
        findings.push_back(std::move(finding));
    }
    return findings.empty() ? paragraph("Nothing about the class as a whole looks wrong.") : findings_markup(findings);
}

Markup words_of(const ClassPage& page) {
    Markup content = glossary({"0°", "±", "arc", "repetition", "raising, lowering", "holding, rest", "mean", "SD",
                               "95 % interval of the mean", "median", "outlier"});
    const bool has_muscles = std::ranges::any_of(page.results.outcomes,
                                                 [](const TrialOutcome& outcome) { return !outcome.activity.empty(); });
    if (has_muscles) {
        content += glossary({"EMG", "activity"});
    }
    if (!page.comparison.judged.empty()) {
        content += glossary({"normal range", "cannot tell"});
    }
    return content + glossary({"finding"});
}

}  // namespace

std::string page_of_class(const ClassPage& page) {
    const std::vector<ClassMember> members = class_members(page.results);
    const ClassForm form = class_form(page.results);
    const std::string title = page.title.empty() ? "Class results" : page.title;
    const std::vector<PageSection> sections{
        {"class", "The class", class_as_a_whole(page, form), false},
        {"pictures", "The class in pictures", class_pictures(page)},
        {"compared", "Compared with other people", compared_with_others(page), false},
        {"recordings", "All recordings", all_recordings(page, form, members), false},
        {"findings", "Findings about the class", findings_of(page)},
        {"participants", "Participants", class_cards(page, form, members), false},
        {"words", "Words", words_of(page)},
        {"origin", "How to get the same again",
         provenance(page.results.files, page.results.version, page.results.settings)}};
    const Markup body = header_of(page, title, members.size()) + element("p", {{"class", "caution"}}, caution_line()) +
                        sections_markup(sections);
    return page_text({title, "Range of motion of a class, with its uncertainty", body});
}

}  // namespace jointrom
