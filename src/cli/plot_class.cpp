#include "cli/class_table_options.hpp"
#include "cli/plot_request.hpp"

#include "analysis/setting_text.hpp"

#include <jointrom/batch/class_columns.hpp>
#include <jointrom/batch/class_figures.hpp>
#include <jointrom/core/failure.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <optional>

namespace jointrom::cli {
namespace {

/// Columns of the table by what they are for.
struct Columns {
    std::string value;
    std::vector<std::string> by;
    std::string participant;
    std::string side;
    std::vector<std::string> repeats;  ///< that may tell measurements of one subject apart
    std::vector<RowFilter> filters;
};

std::string value_column(const PlotRequest& request, const std::vector<std::string>& headings) {
    if (!request.value.empty()) {
        return heading_named(headings, request.value, "--value");
    }
    for (const char* const name : {"positive_deg", "arc_deg", "negative_deg"}) {
        if (const auto heading = find_heading(headings, name)) {
            return *heading;
        }
    }
    throw Failure(FailureKind::usage, "not-a-class-table",
                  fmt::format("the figure {} takes a class table such as trials.csv; {} has no column positive_deg, "
                              "arc_deg or negative_deg",
                              request.figure, request.file),
                  "Make one with `jointrom batch`, or name a measured column with --value COLUMN.");
}

LongTableRequest chosen_columns(const PlotRequest& request, const std::vector<std::string>& headings,
                                Columns& columns) {
    columns.value = value_column(request, headings);
    columns.by = group_columns(headings, request.by.empty() ? std::nullopt : std::optional(comma_list(request.by)));
    columns.participant = participant_column(headings, request.participant);
    columns.side = find_heading(headings, "side").value_or("");
    LongTableRequest wanted{.texts = columns.by, .numbers = {columns.value}};
    const auto also = [&](const std::string& name) {
        if (!name.empty() && std::ranges::find(wanted.texts, name) == wanted.texts.end()) {
            wanted.texts.push_back(name);
        }
    };
    also(columns.participant);
    for (const char* const name : {"joint", "motion", "side", "sex", "age_years"}) {
        also(find_heading(headings, name).value_or(""));
    }
    if (!request.repeat.empty()) {
        columns.repeats = {heading_named(headings, request.repeat, "--repeat")};
    } else {
        for (const char* const name : {"trial", "rater", "condition"}) {
            if (const auto heading = find_heading(headings, name)) {
                columns.repeats.push_back(*heading);
            }
        }
    }
    std::ranges::for_each(columns.repeats, also);
    for (const std::string& text : request.only) {
        const auto [name, level] = named_value(text);
        if (name.empty()) {
            throw Failure(FailureKind::usage, "only-unclear", fmt::format("--only {}: expected COLUMN=TEXT", text),
                          "Write --only side=left, for instance.");
        }
        columns.filters.push_back({heading_named(headings, name, "--only"), level});
        also(columns.filters.back().column);
    }
    return wanted;
}

NormComparisonOptions comparison_options(const PlotRequest& request, const Columns& columns) {
    const NormFilter filter = request.norms.filter();
    return {.by = columns.by,
            .participant = columns.participant,
            .mode = filter.mode,
            .sex = filter.sex,
            .age_years = filter.age_years,
            .source = filter.source};
}

std::string sides_of(const PlotRequest& request, const Columns& columns, const LongTable& table) {
    if (columns.side.empty() || columns.participant.empty()) {
        throw Failure(FailureKind::usage, "sides-missing",
                      fmt::format("the figure sides needs columns side and participant; there are {}",
                                  fmt::join(table.headings, ", ")),
                      "Add them, or name the participants' column with --participant COLUMN.");
    }
    return sides_figure(side_pairs(table, comparison_options(request, columns), columns.side), request.style);
}

std::string agreement_of(const PlotRequest& request, const Columns& columns, const LongTable& table,
                         Findings& findings) {
    const auto varies = [&](const std::string& name) { return table.find_text(name)->named() > 1; };
    const auto repeat = std::ranges::find_if(columns.repeats, varies);
    if (columns.participant.empty() || repeat == columns.repeats.end()) {
        throw Failure(FailureKind::usage, "repeat-unknown",
                      fmt::format("the figure agreement needs a column participant and one that tells the measurements "
                                  "of a participant apart; there are {}",
                                  fmt::join(table.headings, ", ")),
                      "Name them with --participant COLUMN and --repeat COLUMN.");
    }
    RepeatedOptions options{.by = columns.by, .subject = {columns.participant}, .repeat = *repeat};
    std::erase(options.by, *repeat);
    std::erase(options.by, columns.participant);
    const std::vector<RepeatedScores> groups = repeated_scores(table, options);
    const auto usable = std::ranges::find_if(
        groups, [](const RepeatedScores& group) { return group.scores.rows() > 0 && group.scores.columns > 1; });
    if (usable == groups.end()) {
        throw Failure(FailureKind::unreadable_data, "too-few-subjects",
                      fmt::format("no participant has two measurements told apart by {}", *repeat),
                      "Name another column with --repeat COLUMN.");
    }
    if (groups.size() > 1) {
        findings.emplace_back(
            "group-chosen", fmt::format("{} is the first of {} groups", fmt::join(usable->group, ", "), groups.size()));
    }
    return agreement_figure(score_pairs(*usable, options), request.style);
}

}  // namespace

std::string class_table_figure(const PlotRequest& request, Console& console, Findings& findings) {
    Columns columns;
    const std::array files{request.file};
    const LongTable all = read_long_table(files, console.in, [&](const std::vector<std::string>& headings) {
        return chosen_columns(request, headings, columns);
    });
    if (all.failed > 0) {
        findings.emplace_back("rows-failed", fmt::format("{} of {} recordings failed and are left out", all.failed,
                                                         all.failed + all.rows));
    }
    const LongTable table = filtered_rows(all, columns.filters);
    if (request.by.empty()) {
        columns.by = filled_columns(table, columns.by);
    }
    if (request.figure == "sides") {
        return sides_of(request, columns, table);
    }
    if (request.figure == "agreement") {
        return agreement_of(request, columns, table, findings);
    }
    return class_figure(class_dots(table, request.norms.table(), comparison_options(request, columns)), request.style);
}

}  // namespace jointrom::cli
