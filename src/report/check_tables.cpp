#include <jointrom/report/check_tables.hpp>

#include <jointrom/core/number_text.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <limits>

namespace jointrom {
namespace {

constexpr double missing = std::numeric_limits<double>::quiet_NaN();

Cell value_cell(Degrees value, const Budget& budget) {
    return budget.lines().empty() ? Cell(Measured{value.value(), missing, missing})
                                  : Cell(measured(value.value(), budget));
}

std::string direction_of(const ExtentJudgement& judged) {
    return judged.measured.part == MotionPart::arc ? "arc" : name_of(judged.measured.part, *judged.query.motion);
}

std::string verdict_text(const ExtentJudgement& judged, const Judgement* judgement) {
    if (judgement == nullptr) {
        return judged.judgements.empty() ? "no norm" : "difference only";
    }
    return judgement->verdict ? std::string(name_of(*judgement->verdict)) : "difference only";
}

/// From "reference" to "norm_source"; `judgement` is null where no row applies.
void add_judgement_cells(std::vector<Cell>& row, const ExtentJudgement& judged, const Judgement* judgement) {
    const auto number = [&](auto value_of) { return judgement ? Cell(value_of(*judgement)) : Cell(); };
    row.push_back(number([](const Judgement& j) { return j.norm.row->value_deg; }));
    row.push_back(number([](const Judgement& j) { return j.band ? j.band->lower_deg : missing; }));
    row.push_back(number([](const Judgement& j) { return j.band ? j.band->upper_deg : missing; }));
    row.push_back(number([](const Judgement& j) { return j.difference_deg; }));
    row.push_back(number([](const Judgement& j) { return j.standing ? j.standing->z : missing; }));
    row.push_back(number([](const Judgement& j) { return j.standing ? j.standing->percentile_low : missing; }));
    row.push_back(number([](const Judgement& j) { return j.standing ? j.standing->percentile_high : missing; }));
    row.push_back(number([](const Judgement& j) { return 100.0 * j.inside_probability; }));
    row.emplace_back(verdict_text(judged, judgement));
    row.push_back(judgement ? Cell(judgement->norm.row->source) : Cell());
}

const Judgement* first_of(const ExtentJudgement& judged) {
    return judged.judgements.empty() ? nullptr : &judged.judgements.front();
}

Cell text_cell(std::string_view text) {
    return text.empty() ? Cell() : Cell(std::string(text));
}

Cell side_cell(Side side) {
    return side == Side::unknown ? Cell() : Cell(std::string(name_of(side)));
}

std::string group_text(const NormRow& row) {
    return fmt::format("{}, {}, {}", sex_text(row) == "both" ? "both sexes" : sex_text(row), age_text(row),
                       mode_text(row));
}

std::string value_text(Degrees value, const Budget& budget) {
    const std::string text = fixed_text(value.value(), 1);
    return budget.lines().empty() ? text + " deg"
                                  : fmt::format("{} ± {} deg", text, fixed_text(budget.expanded_uncertainty(), 1));
}

std::string_view verdict_words(LimitVerdict verdict) {
    switch (verdict) {
    case LimitVerdict::within:
        return "lies within";
    case LimitVerdict::below:
        return "lies below";
    case LimitVerdict::above:
        return "lies above";
    case LimitVerdict::cannot_tell:
        break;
    }
    return "is too near a limit, given its uncertainty, to be told inside from outside";
}

std::string capitalised(std::string text) {
    text.front() = static_cast<char>(std::toupper(static_cast<unsigned char>(text.front())));
    return text;
}

std::string band_words(const Judgement& judgement) {
    const NormBand& band = *judgement.band;
    std::string text =
        fmt::format("{} deg ({}, {}; {}, {} % of people", band_text(judgement), judgement.norm.row->source,
                    group_text(*judgement.norm.row), name_of(band.basis), fixed_text(band.coverage_pct, 0));
    if (judgement.limit_slack_deg > 0.0) {
        text += fmt::format("; limits known to {} deg", fixed_text(judgement.limit_slack_deg, 1));
    }
    return text + ")";
}

/// Rows for the tasks of one person who was measured in both directions.
void add_tasks(const MeasuredPerson& person, bool with_label, ResultTable& table) {
    const auto extent = [&](MotionPart part) { return std::ranges::find(person.extents, part, &MeasuredExtent::part); };
    const auto positive = extent(MotionPart::positive), negative = extent(MotionPart::negative);
    if (positive == person.extents.end() || negative == person.extents.end()) {
        return;
    }
    const auto guard = [](const Budget& budget) {
        return Degrees(budget.lines().empty() ? 0.0 : budget.expanded_uncertainty());
    };
    const Degrees low = -negative->extent, high = positive->extent;
    const Degrees low_u = guard(negative->budget), high_u = guard(positive->budget);
    const auto measured_cover = task_cover(*person.motion, low, high);
    const auto drawn_in = task_cover(*person.motion, low + low_u, high - high_u);
    const auto drawn_out = task_cover(*person.motion, low - low_u, high + high_u);
    for (std::size_t i = 0; i < measured_cover.size(); ++i) {
        const FunctionalArc& arc = *measured_cover[i].arc;
        const char* covered = drawn_in[i].is_covered() ? "yes" : drawn_out[i].is_covered() ? "cannot tell" : "no";
        std::vector<Cell> row{arc.task,
                              arc.low.value(),
                              arc.high.value(),
                              std::string(covered),
                              measured_cover[i].short_at_low.value(),
                              measured_cover[i].short_at_high.value(),
                              arc.source,
                              std::string(name_of(arc.provenance))};
        if (with_label) {
            row.insert(row.begin(), person.label);
        }
        table.add_row(std::move(row));
    }
}

}  // namespace

ResultTable judgement_table(const JudgedPerson& judged) {
    ResultTable table("judgements",
                      {"direction", "extent_deg", "reference_deg", "band_low_deg", "band_high_deg", "deviation_deg",
                       "z", "percentile_low_pct", "percentile_high_pct", "inside_pct", "verdict", "norm_source"});
    for (const ExtentJudgement& extent : judged.extents) {
        const auto add = [&](const Judgement* judgement) {
            std::vector<Cell> row{direction_of(extent), value_cell(extent.measured.extent, extent.measured.budget)};
            add_judgement_cells(row, extent, judgement);
            table.add_row(std::move(row));
        };
        for (const Judgement& judgement : extent.judgements) {
            add(&judgement);
        }
        if (extent.judgements.empty()) {
            add(nullptr);
        }
    }
    return table;
}

ResultTable class_judgement_table(std::span<const JudgedPerson> people) {
    ResultTable table("judgements",
                      {"id", "participant", "side", "joint", "direction", "sex", "age_years", "mode", "extent_deg",
                       "reference_deg", "band_low_deg", "band_high_deg", "deviation_deg", "z", "percentile_low_pct",
                       "percentile_high_pct", "inside_pct", "verdict", "norm_source"});
    for (const JudgedPerson& judged : people) {
        const MeasuredPerson& person = judged.person;
        for (const ExtentJudgement& extent : judged.extents) {
            std::vector<Cell> row{person.label,
                                  text_cell(person.participant),
                                  side_cell(person.side),
                                  person.motion->joint,
                                  direction_of(extent),
                                  person.sex ? text_cell(name_of(*person.sex)) : Cell(),
                                  person.age_years ? Cell(*person.age_years) : Cell(),
                                  person.mode ? text_cell(name_of(*person.mode)) : Cell(),
                                  value_cell(extent.measured.extent, extent.measured.budget)};
            add_judgement_cells(row, extent, first_of(extent));
            table.add_row(std::move(row));
        }
    }
    return table;
}

ResultTable norm_used_table(std::span<const JudgedPerson> people) {
    ResultTable table("norms", {"norm_source", "joint", "motion", "sex", "ages", "mode", "value_deg", "sd_deg", "n",
                                "band_basis", "provenance", "remarks"});
    std::vector<const NormRow*> seen;
    for (const JudgedPerson& judged : people) {
        for (const ExtentJudgement& extent : judged.extents) {
            const Judgement* first = first_of(extent);
            if (first == nullptr || std::ranges::find(seen, first->norm.row) != seen.end()) {
                continue;
            }
            const NormRow& row = *first->norm.row;
            seen.push_back(&row);
            table.add_row({row.source, row.motion->joint, row.direction(), std::string(sex_text(row)), age_text(row),
                           std::string(mode_text(row)), row.value_deg, row.sd_deg, row.n ? count_cell(*row.n) : Cell(),
                           first->band ? text_cell(name_of(first->band->basis)) : Cell(),
                           std::string(name_of(row.provenance)), text_cell(first->norm.remarks())});
        }
    }
    return table;
}

ResultTable side_table(std::span<const SidePair> pairs) {
    ResultTable table("sides", {"participant", "joint", "direction", "left_deg", "right_deg", "side_difference_deg",
                                "limit_deg", "verdict", "basis"});
    for (const SidePair& pair : pairs) {
        const SideComparison& c = pair.comparison;
        table.add_row({text_cell(pair.participant), pair.motion->joint,
                       pair.part == MotionPart::arc ? std::string("arc") : name_of(pair.part, *pair.motion),
                       c.left.value(), c.right.value(), value_cell(c.difference, c.budget), c.limit.limit.value(),
                       in_words(c), c.limit.basis});
    }
    return table;
}

ResultTable task_table(std::span<const MeasuredPerson> people, bool is_class) {
    std::vector<std::string_view> columns{"task",          "low_deg",        "high_deg",    "covered",
                                          "short_low_deg", "short_high_deg", "norm_source", "provenance"};
    if (is_class) {
        columns.insert(columns.begin(), "id");
    }
    ResultTable table("tasks", columns);
    for (const MeasuredPerson& person : people) {
        add_tasks(person, is_class, table);
    }
    return table;
}

std::string verdict_sentence(const ExtentJudgement& judged) {
    const std::string what =
        capitalised(direction_of(judged)) + " " + value_text(judged.measured.extent, judged.measured.budget);
    if (judged.judgements.empty()) {
        return what + ": no norm applies. " + judged.no_verdict;
    }
    const Judgement& first = judged.judgements.front();
    if (!first.verdict) {
        return fmt::format("{}: {} deg {} {} deg ({}, {}). {}", what, fixed_text(std::abs(first.difference_deg), 1),
                           first.difference_deg < 0.0 ? "less than" : "more than",
                           shortest_text(first.norm.row->value_deg), first.norm.row->source,
                           group_text(*first.norm.row), judged.no_verdict);
    }
    if (!judged.measured.has_uncertainty()) {
        return fmt::format("{} cannot be judged against {} without an uncertainty.", what, band_words(first));
    }
    return fmt::format("{} {}{} {}.", what, verdict_words(*first.verdict),
                       first.verdict == LimitVerdict::cannot_tell ? ":" : " the normal range", band_words(first));
}

std::string side_sentence(const SidePair& pair) {
    const SideComparison& c = pair.comparison;
    const double difference_deg = c.difference.value();
    return fmt::format(
        "{}{}{}: left {} by {}, {} ({} deg: {}).", pair.participant, pair.participant.empty() ? "" : ", ",
        pair.part == MotionPart::arc ? "arc" : name_of(pair.part, *pair.motion),
        difference_deg < 0.0 ? "smaller" : "larger", value_text(Degrees(std::abs(difference_deg)), c.budget),
        in_words(c), shortest_text(c.limit.limit.value()), c.limit.basis);
}

}  // namespace jointrom
