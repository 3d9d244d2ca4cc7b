#include <jointrom/report/norm_tables.hpp>

#include <jointrom/norms/norm_band.hpp>

#include <algorithm>
#include <array>
#include <cmath>

namespace jointrom {
namespace {

std::string text(std::string_view view) {
    return std::string(view);
}

Cell angle(Degrees value) {
    return value.value();
}

Cell people(std::optional<std::size_t> n) {
    return n ? count_cell(*n) : Cell();
}

std::string group(const NormRow& row) {
    return text(sex_text(row)) + ", " + age_text(row);
}

/// "active", or "active / unstated" when only one says it.
std::string mode_of_pair(const NormDifference& pair) {
    const bool first_states = pair.first->mode.has_value();
    const std::string stated = text(mode_text(first_states ? *pair.first : *pair.second));
    const bool both_same = first_states == pair.second->mode.has_value();
    return both_same ? stated : stated + " / unstated";
}

void add_band(std::vector<Cell>& cells, const NormRow& row) {
    const std::optional<NormBand> band = normal_band(row);
    cells.push_back(band ? Cell(band->lower_deg) : Cell());
    cells.push_back(band ? Cell(band->upper_deg) : Cell());
    cells.push_back(text(band ? name_of(band->basis) : "none"));
}

/// How the spread was obtained; nothing where there is none.
std::string spread_text(const NormRow& row) {
    const bool has_spread = row.n || row.sd_deg > 0.0 || !row.percentiles.empty();
    return has_spread ? text(name_of(row.spread_provenance)) : std::string();
}

Cell percentile(const NormRow& row, double percent) {
    const auto found = std::ranges::find(row.percentiles, percent, &NormPercentile::percent);
    return found == row.percentiles.end() ? Cell() : Cell(found->value_deg);
}

}  // namespace

ResultTable norm_overview_table(std::span<const NormRow* const> rows) {
    ResultTable table("norms", {"source", "joint", "motion", "sex", "ages", "mode", "kind", "value_deg", "sd_deg",
                                "band_low_deg", "band_high_deg", "band_basis", "n", "provenance", "spread_provenance",
                                "position"});
    for (const NormRow* const row : rows) {
        std::vector<Cell> cells{row->source,    row->motion->joint,    row->direction(),         text(sex_text(*row)),
                                age_text(*row), text(mode_text(*row)), text(name_of(row->kind)), row->value_deg,
                                row->sd_deg};
        add_band(cells, *row);
        cells.push_back(people(row->n));
        cells.push_back(text(name_of(row->provenance)));
        cells.push_back(spread_text(*row));
        cells.push_back(row->position);
        table.add_row(std::move(cells));
    }
    return table;
}

ResultTable norm_table(const NormTable& norms, std::span<const NormRow* const> rows) {
    const auto columns = norm_table_columns();
    ResultTable table("norms", std::vector<std::string_view>(columns.begin(), columns.end()));
    constexpr auto percents = std::to_array({0.0, 2.5, 5.0, 10.0, 25.0, 50.0, 75.0, 90.0, 95.0, 97.5, 100.0});
    for (const NormRow* const row : rows) {
        std::vector<Cell> cells{row->source,           row->motion->joint, row->direction(),
                                text(sex_text(*row)),  row->age_min_years, row->age_max_years,
                                text(mode_text(*row)), row->position,      text(name_of(row->kind)),
                                row->value_deg,        row->sd_deg,        text(name_of(row->sd_basis)),
                                row->sd_lo_deg,        row->sd_hi_deg,     row->ci_low_deg,
                                row->ci_high_deg,      people(row->n)};
        for (const double percent : percents) {
            cells.push_back(percentile(*row, percent));
        }
        cells.emplace_back(row->is_skewed);
        cells.push_back(text(name_of(row->provenance)));
        cells.push_back(text(name_of(row->spread_provenance)));
        cells.push_back(row->note);
        cells.push_back(norms.source(row->source).citation);
        add_band(cells, *row);
        table.add_row(std::move(cells));
    }
    return table;
}

std::vector<std::string> citations(const NormTable& table, std::span<const NormRow* const> rows) {
    std::vector<std::string> result;
    for (const NormSource& source : table.sources()) {
        const bool is_used = std::ranges::any_of(rows, [&](const NormRow* row) { return row->source == source.key; });
        if (is_used && !source.citation.empty()) {
            std::string sentence = source.key + ": " + source.citation;
            result.push_back(sentence.append(sentence.ends_with('.') ? "" : "."));
        }
    }
    return result;
}

ResultTable norm_source_table(std::span<const NormSource> sources) {
    ResultTable table("sources", {"source", "reuse", "population", "read_in", "citation"});
    for (const NormSource& source : sources) {
        table.add_row({source.key, source.reuse, source.population, source.read_in, source.citation});
    }
    return table;
}

ResultTable norm_coverage_table(std::span<const NormCoverage> coverage) {
    ResultTable table("coverage",
                      {"joint", "motion", "sex", "mode", "band_years", "mean_years", "gap_years", "any_age"});
    for (const NormCoverage& cell : coverage) {
        table.add_row({cell.motion->joint, name_of(cell.part, *cell.motion), text(name_of(cell.sex)),
                       text(name_of(cell.mode)), span_text(cell.with_band), span_text(cell.without_band),
                       span_text(cell.uncovered), cell.has_any_age});
    }
    return table;
}

ResultTable norm_difference_table(std::span<const NormDifference> differences) {
    ResultTable table("differences",
                      {"motion", "mode", "first_source", "first_group", "first_value_deg", "second_source",
                       "second_group", "second_value_deg", "difference_deg", "difference_sd"});
    for (const NormDifference& pair : differences) {
        table.add_row({pair.first->direction(), mode_of_pair(pair), pair.first->source, group(*pair.first),
                       pair.first->value_deg, pair.second->source, group(*pair.second), pair.second->value_deg,
                       pair.difference_deg, pair.difference_sd});
    }
    return table;
}

ResultTable functional_arc_table(std::span<const FunctionalArc* const> arcs) {
    ResultTable table("tasks", {"joint", "motion", "task", "low_deg", "low_sd_deg", "high_deg", "high_sd_deg", "n",
                                "source", "provenance", "note"});
    for (const FunctionalArc* const arc : arcs) {
        table.add_row({arc->motion->joint, arc->motion->motion, arc->task, angle(arc->low), angle(arc->low_sd),
                       angle(arc->high), angle(arc->high_sd), people(arc->n), arc->source,
                       text(name_of(arc->provenance)), arc->note});
    }
    return table;
}

ResultTable measurement_error_table(std::span<const MeasurementError* const> errors) {
    ResultTable table("errors", {"joint", "motion", "statistic", "low_deg", "high_deg", "raters", "instrument",
                                 "source", "provenance", "note"});
    for (const MeasurementError* const error : errors) {
        table.add_row({error->joint.empty() ? "any" : error->joint,
                       error->motion == nullptr ? "any" : name_of(error->part, *error->motion), error->statistic,
                       angle(error->low), angle(error->high), error->raters, error->instrument, error->source,
                       text(name_of(error->provenance)), error->note});
    }
    return table;
}

ResultTable joint_table(std::span<const JointMotion* const> motions) {
    ResultTable table("joints", {"joint", "motion", "positive", "negative", "neutral", "isb_positive", "isb_zero",
                                 "typical_error_deg", "change_positive_deg", "change_negative_deg", "change_arc_deg",
                                 "change_source"});
    for (const JointMotion* const motion : motions) {
        const auto change = motion->detectable_change.value_or(DetectableChange{});
        table.add_row({motion->joint, motion->motion, motion->positive, motion->negative, motion->neutral_posture,
                       motion->isb ? motion->isb->positive : std::string(),
                       motion->isb ? motion->isb->zero : std::string(),
                       motion->typical_error ? angle(motion->typical_error->value) : Cell(), angle(change.positive),
                       angle(change.negative), angle(change.arc), change.source});
    }
    return table;
}

}  // namespace jointrom
