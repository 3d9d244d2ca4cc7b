#include <jointrom/norms/norm_table.hpp>

#include <norms/norm_cells.hpp>
#include <norms/plausible_reach.hpp>

#include <jointrom/core/failure.hpp>
#include <jointrom/core/number_text.hpp>
#include <jointrom/norms/sd_from_interval.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <map>

namespace jointrom {
namespace {

constexpr auto required_columns = std::to_array<std::string_view>({"source", "joint", "motion", "value_deg"});

struct PercentileColumn {
    std::string_view name;
    double percent;
};

constexpr auto percentile_columns = std::to_array<PercentileColumn>({{"min_deg", 0.0},
                                                                     {"p2_5_deg", 2.5},
                                                                     {"p5_deg", 5.0},
                                                                     {"p10_deg", 10.0},
                                                                     {"p25_deg", 25.0},
                                                                     {"p50_deg", 50.0},
                                                                     {"p75_deg", 75.0},
                                                                     {"p90_deg", 90.0},
                                                                     {"p95_deg", 95.0},
                                                                     {"p97_5_deg", 97.5},
                                                                     {"max_deg", 100.0}});

constexpr auto known_columns = std::to_array<std::string_view>({"source",
                                                                "joint",
                                                                "motion",
                                                                "sex",
                                                                "age_min_years",
                                                                "age_max_years",
                                                                "mode",
                                                                "position",
                                                                "kind",
                                                                "value_deg",
                                                                "sd_deg",
                                                                "sd_basis",
                                                                "sd_lo_deg",
                                                                "sd_hi_deg",
                                                                "ci_low_deg",
                                                                "ci_high_deg",
                                                                "n",
                                                                "min_deg",
                                                                "p2_5_deg",
                                                                "p5_deg",
                                                                "p10_deg",
                                                                "p25_deg",
                                                                "p50_deg",
                                                                "p75_deg",
                                                                "p90_deg",
                                                                "p95_deg",
                                                                "p97_5_deg",
                                                                "max_deg",
                                                                "skewed",
                                                                "provenance",
                                                                "spread_provenance",
                                                                "note",
                                                                "citation",
                                                                "band_low_deg",
                                                                "band_high_deg",
                                                                "band_basis"});

/// Extents in radians are below pi; one that a joint reaches far beyond 60 degrees in is never that small in degrees.
constexpr double largest_radians = 3.6;
constexpr double clearly_more_deg = 60.0;

void check_reach(const NormCells& cells, std::string_view column, const NormRow& row, double value_deg) {
    const Reach reach = plausible_reach(*row.motion, row.part);
    if (value_deg < reach.least_deg || value_deg > reach.most_deg) {
        cells.refuse(column, fmt::format("{} of the {} in degrees, from {} to {}", row.direction(), row.motion->joint,
                                         reach.least_deg, reach.most_deg));
    }
}

void read_value(const NormCells& cells, NormRow& row) {
    constexpr std::array<std::string_view, 4> kinds{"mean", "median", "single", "at least"};
    row.kind = static_cast<NormValueKind>(cells.word("kind", kinds).value_or(0));
    row.value_deg = cells.number("value_deg");
    if (std::isnan(row.value_deg)) {
        cells.refuse("value_deg", "an angle in degrees");
    }
    const bool is_far_reaching = plausible_reach(*row.motion, row.part).most_deg >= clearly_more_deg;
    if (is_far_reaching && row.value_deg > 0.0 && row.value_deg <= largest_radians) {
        cells.refuse("value_deg", "norm-radians",
                     fmt::format("{} for {} of the {} looks like radians ({:.0f} degrees)", row.value_deg,
                                 row.direction(), row.motion->joint, row.value_deg * 180.0 / std::acos(-1.0)),
                     "Write angles in degrees.");
    }
    check_reach(cells, "value_deg", row, row.value_deg);
}

void read_group(const NormCells& cells, NormRow& row) {
    constexpr std::array<std::string_view, 5> sexes{"F", "M", "both", "female", "male"};
    const auto sex = cells.word("sex", sexes);
    if (sex && *sex != 2) {
        row.sex = *sex == 0 || *sex == 3 ? Sex::female : Sex::male;
    }
    constexpr std::array<std::string_view, 3> modes{"active", "passive", "unstated"};
    const auto mode = cells.word("mode", modes);
    if (mode && *mode != 2) {
        row.mode = *mode == 0 ? MotionMode::active : MotionMode::passive;
    }
    for (const auto& [column, age] :
         {std::pair{"age_min_years", &row.age_min_years}, std::pair{"age_max_years", &row.age_max_years}}) {
        *age = cells.number(column);
        if (*age < 0.0 || *age > oldest_years) {
            cells.refuse(column, fmt::format("an age from 0 to {} years", oldest_years));
        }
    }
    if (row.age_min_years > row.age_max_years) {
        cells.refuse("age_min_years", "norm-contradiction",
                     fmt::format("the youngest, {} years, is older than the oldest, {} years", row.age_min_years,
                                 row.age_max_years),
                     "Exchange or correct the two ages.");
    }
}

void read_percentiles(const NormCells& cells, NormRow& row) {
    for (const auto& [column, percent] : percentile_columns) {
        const double value_deg = cells.number(column);
        if (std::isnan(value_deg)) {
            continue;
        }
        if (!row.percentiles.empty() && value_deg < row.percentiles.back().value_deg) {
            cells.refuse(column, "norm-contradiction",
                         fmt::format("'{}' is {}, less than a lower percentile, {}", column, value_deg,
                                     row.percentiles.back().value_deg),
                         "Percentiles must rise; check the order of the columns.");
        }
        check_reach(cells, column, row, value_deg);
        row.percentiles.push_back({percent, value_deg});
    }
}

void check_order(const NormCells& cells, std::string_view column, double low, double high, double value_deg) {
    if (low > high || value_deg < low || value_deg > high) {
        cells.refuse(column, "norm-contradiction",
                     fmt::format("the limits {} and {} do not hold {} between them", low, high, value_deg),
                     "Check the signs and the order of the cells.");
    }
}

/// What was printed as derived must follow from the interval, apart from rounding.
void check_derived(const NormCells& cells, const NormRow& row) {
    const double step = 0.1;
    for (const IntervalFactor factor : {IntervalFactor::normal, IntervalFactor::student}) {
        const SdFromInterval derived = sd_from_interval(row.ci_low_deg, row.ci_high_deg, *row.n, factor, step);
        if (row.sd_deg >= derived.sd_lo - step && row.sd_deg <= derived.sd_hi + step) {
            return;
        }
    }
    const SdFromInterval derived = sd_from_interval(row.ci_low_deg, row.ci_high_deg, *row.n);
    cells.refuse("sd_deg", "norm-contradiction",
                 fmt::format("the interval {} to {} of the mean of {} gives an SD of {:.1f}, not {}", row.ci_low_deg,
                             row.ci_high_deg, *row.n, derived.sd, row.sd_deg),
                 "Correct one of them, or call the SD reported.");
}

void read_sd(const NormCells& cells, NormRow& row) {
    constexpr std::array<std::string_view, 2> bases{"reported", "derived"};
    row.sd_deg = cells.number("sd_deg");
    row.sd_lo_deg = cells.number("sd_lo_deg");
    row.sd_hi_deg = cells.number("sd_hi_deg");
    const auto basis = cells.word("sd_basis", bases);
    if (std::isnan(row.sd_deg)) {
        if (basis || !std::isnan(row.sd_lo_deg) || !std::isnan(row.sd_hi_deg)) {
            cells.refuse("sd_deg", "a standard deviation, because other cells tell about one");
        }
        return;
    }
    const Reach reach = plausible_reach(*row.motion, row.part);
    if (row.sd_deg <= 0.0 || row.sd_deg > reach.most_deg - reach.least_deg) {
        cells.refuse("sd_deg", "a standard deviation above 0 and less than the joint's whole range, or nothing");
    }
    if (row.kind == NormValueKind::single || row.kind == NormValueKind::at_least) {
        cells.refuse("sd_deg", "norm-contradiction",
                     fmt::format("a row of kind '{}' is one number without spread", name_of(row.kind)),
                     "Clear the SD, or call the row a mean.");
    }
    if (row.sd_lo_deg > row.sd_hi_deg) {
        cells.refuse("sd_lo_deg", "norm-contradiction", "sd_lo_deg is greater than sd_hi_deg", "Exchange them.");
    }
    row.sd_basis = basis == std::optional<std::size_t>(1) ? SdBasis::derived : SdBasis::reported;
    if (row.sd_basis == SdBasis::derived) {
        if (!row.n || std::isnan(row.ci_low_deg) || std::isnan(row.ci_high_deg)) {
            cells.refuse("sd_basis", "norm-contradiction",
                         "a derived SD needs n, ci_low_deg and ci_high_deg, which it comes from",
                         "Fill them in, or call the SD reported.");
        }
        check_derived(cells, row);
    }
}

void read_spread(const NormCells& cells, NormRow& row) {
    row.n = cells.count("n");
    row.ci_low_deg = cells.number("ci_low_deg");
    row.ci_high_deg = cells.number("ci_high_deg");
    check_order(cells, "ci_low_deg", row.ci_low_deg, row.ci_high_deg, row.value_deg);
    read_sd(cells, row);
    read_percentiles(cells, row);
    if (row.percentiles.size() > 1) {
        check_order(cells, "value_deg", row.percentiles.front().value_deg, row.percentiles.back().value_deg,
                    row.value_deg);
    }
    constexpr std::array<std::string_view, 4> answers{"no", "yes", "false", "true"};
    row.is_skewed = cells.word("skewed", answers).value_or(0) % 2 == 1;
}

NormRow row_of(const NormCells& cells) {
    NormRow row;
    row.source = cells.required_text("source");
    const NamedPart named = cells.part();
    row.motion = named.motion;
    row.part = named.part;
    row.position = cells.text("position");
    read_group(cells, row);
    read_value(cells, row);
    read_spread(cells, row);
    row.provenance = cells.provenance("provenance");
    row.spread_provenance =
        cells.text("spread_provenance").empty() ? row.provenance : cells.provenance("spread_provenance");
    row.note = cells.text("note");
    row.line = cells.line();
    return row;
}

/// What tells a row from every other one.
std::string group_of(const NormRow& row) {
    return fmt::format("{}\n{}\n{}\n{}\n{}\n{}\n{}\n{}", row.source, row.motion->joint, row.direction(), sex_text(row),
                       age_text(row), mode_text(row), row.position, name_of(row.kind));
}

NormTable read_rows(RecordReader& reader, const std::string& name) {
    const NormCells cells(reader, known_columns, required_columns);
    std::vector<NormRow> rows;
    std::vector<NormSource> sources;
    std::map<std::string, std::size_t> line_of_group;
    while (reader.next()) {
        NormRow row = row_of(cells);
        const auto [first, is_new] = line_of_group.emplace(group_of(row), row.line);
        if (!is_new) {
            cells.refuse("source", "norm-row-twice",
                         fmt::format("line {} is about the same group: {}, {} {}, {}, {}, {}", first->second,
                                     row.source, row.motion->joint, row.direction(), sex_text(row), age_text(row),
                                     mode_text(row)),
                         "Remove one of them, or tell them apart in 'position'.");
        }
        if (std::string citation = cells.text("citation"); !citation.empty()) {
            sources.push_back({row.source, std::move(citation), {}, {}, {}});
        }
        rows.push_back(std::move(row));
    }
    if (rows.empty()) {
        throw Failure(FailureKind::unreadable_data, "norms-empty", "the table has no rows",
                      "docs/formats/norm-table.md describes it.", {.file = name});
    }
    return {name, std::move(rows), std::move(sources)};
}

}  // namespace

NormTable read_norm_table(const std::filesystem::path& path) {
    RecordReader reader(path);
    return read_rows(reader, path.string());
}

NormTable read_norm_table(ByteSource& source, const std::string& name) {
    RecordReader reader(source, name);
    return read_rows(reader, name);
}

std::span<const std::string_view> norm_table_columns() {
    return known_columns;
}

}  // namespace jointrom
