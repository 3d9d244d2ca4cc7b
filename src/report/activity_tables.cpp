#include <jointrom/report/activity_tables.hpp>

#include <jointrom/core/uncertainty.hpp>

#include <algorithm>
#include <array>
#include <cmath>

namespace jointrom {
namespace {

Cell number_cell(std::optional<std::size_t> number) {
    return number ? count_cell(*number) : Cell();
}

Cell text_cell(std::string_view text) {
    return std::string(text);
}

void add_figures(std::vector<Cell>& row, const ActivityFigures& figures) {
    row.insert(row.end(), {figures.mean, figures.peak, figures.rms, figures.integral});
}

Cell lag_cell(const std::optional<Lag>& lag) {
    return lag ? Cell(lag->lag.value()) : Cell();
}
Cell correlation_cell(const std::optional<Lag>& lag) {
    return lag ? Cell(lag->correlation) : Cell();
}

/// The phase with the highest mean, or nothing.
std::string_view most_active(const MuscleActivity& muscle) {
    const std::array means{std::pair(muscle.raising_mean, PhaseKind::raising),
                           std::pair(muscle.holding_mean, PhaseKind::holding),
                           std::pair(muscle.lowering_mean, PhaseKind::lowering)};
    double highest = 0.0;
    std::string_view name;
    for (const auto& [mean, kind] : means) {
        if (mean > highest) {
            highest = mean;
            name = name_of(kind);
        }
    }
    return name;
}

double mean_lead_s(const MuscleActivity& muscle) {
    double sum = 0.0;
    double count = 0.0;
    for (const BurstActivity& burst : muscle.bursts) {
        if (burst.lead.is_set()) {
            sum += burst.lead.value();
            count += 1.0;
        }
    }
    return count > 0.0 ? sum / count : std::numeric_limits<double>::quiet_NaN();
}

}  // namespace

ResultTable activity_table(const ActivityResult& result) {
    ResultTable table("activity",
                      {"repetition", "phase", "muscle", "contraction", "duration_s", "activity_unit", "activity_mean",
                       "activity_peak", "activity_rms", "activity_integral", "share_pct", "active_pct"});
    if (result.muscles.empty()) {
        return table;
    }
    // Every muscle has the same rows: those of the movement.
    for (std::size_t i = 0; i < result.muscles.front().repetitions.size(); ++i) {
        for (const MuscleActivity& muscle : result.muscles) {
            const RepetitionActivity& entry = muscle.repetitions[i];
            std::vector<Cell> row{count_cell(entry.repetition), text_cell(entry.kind ? name_of(*entry.kind) : "all"),
                                  muscle.signal.name,           text_cell(name_of(entry.contraction)),
                                  entry.figures.duration_s,     muscle.unit};
            add_figures(row, entry.figures);
            row.insert(row.end(), {entry.share_pct, entry.figures.active_pct});
            table.add_row(std::move(row));
        }
    }
    return table;
}

ResultTable activity_phase_table(const ActivityResult& result) {
    ResultTable table("phases", {"repetition", "phase", "start_s", "end_s", "muscle", "contraction", "activity_unit",
                                 "activity_mean", "activity_peak", "activity_rms", "activity_integral", "share_pct",
                                 "active_pct"});
    if (result.muscles.empty()) {
        return table;
    }
    for (std::size_t i = 0; i < result.muscles.front().phases.size(); ++i) {
        for (const MuscleActivity& muscle : result.muscles) {
            const PhaseActivity& entry = muscle.phases[i];
            std::vector<Cell> row{number_cell(entry.repetition),
                                  text_cell(name_of(entry.kind)),
                                  entry.start.value(),
                                  entry.end.value(),
                                  muscle.signal.name,
                                  text_cell(name_of(entry.contraction)),
                                  muscle.unit};
            add_figures(row, entry.figures);
            row.insert(row.end(), {entry.share_pct, entry.figures.active_pct});
            table.add_row(std::move(row));
        }
    }
    return table;
}

ResultTable burst_table(const ActivityResult& result) {
    ResultTable table("bursts",
                      {"muscle", "burst", "repetition", "onset_s", "offset_s", "duration_s", "lead_s", "activity_unit",
                       "activity_mean", "activity_peak", "activity_rms", "activity_integral"});
    for (const MuscleActivity& muscle : result.muscles) {
        for (std::size_t i = 0; i < muscle.bursts.size(); ++i) {
            const BurstActivity& burst = muscle.bursts[i];
            std::vector<Cell> row{muscle.signal.name,  count_cell(i + 1),    number_cell(burst.repetition),
                                  burst.onset.value(), burst.offset.value(), burst.figures.duration_s,
                                  burst.lead.value(),  muscle.unit};
            add_figures(row, burst.figures);
            table.add_row(std::move(row));
        }
    }
    return table;
}

ResultTable muscle_table(const ActivityResult& result) {
    ResultTable table("muscles",
                      {"muscle", "activity_unit", "reference_activity", "raising_activity", "holding_activity",
                       "lowering_activity", "most_active", "rise_to_fall", "bursts", "lead_s", "angle_lag_s",
                       "angle_correlation", "velocity_lag_s", "velocity_correlation"});
    for (const MuscleActivity& muscle : result.muscles) {
        table.add_row({muscle.signal.name, muscle.unit, muscle.reference, muscle.raising_mean, muscle.holding_mean,
                       muscle.lowering_mean, text_cell(most_active(muscle)), muscle.rise_to_fall,
                       count_cell(muscle.bursts.size()), mean_lead_s(muscle), lag_cell(muscle.angle_lag),
                       correlation_cell(muscle.angle_lag), lag_cell(muscle.velocity_lag),
                       correlation_cell(muscle.velocity_lag)});
    }
    return table;
}

ResultTable treatment_table(const ActivityResult& result) {
    ResultTable table("treatment", {"muscle", "emg_form", "rate_hz", "treatment"});
    for (const MuscleActivity& muscle : result.muscles) {
        std::string steps;
        for (const std::string& step : muscle.signal.steps) {
            steps += (steps.empty() ? "" : "; ") + step;
        }
        table.add_row({muscle.signal.name, text_cell(name_of(muscle.signal.form)), muscle.signal.rate.value(), steps});
    }
    return table;
}

ResultTable co_contraction_table(const ActivityResult& result) {
    ResultTable table("co_contraction", {"mover", "antagonist", "repetition", "activity_unit", "common_area_pct",
                                         "weighted_ratio", "mean_of_lower", "area_ratio"});
    for (const PairActivity& pair : result.pairs) {
        for (const PairRow& row : pair.rows) {
            const CoContraction& found = row.co_contraction;
            table.add_row({pair.mover, pair.antagonist, number_cell(row.repetition), pair.unit, found.common_area_pct,
                           found.weighted_ratio, found.mean_of_lower, found.area_ratio});
        }
    }
    return table;
}

ResultTable frequency_table(const ActivityResult& result) {
    ResultTable table("frequencies",
                      {"muscle", "repetition", "start_s", "end_s", "median_frequency_hz", "mean_frequency_hz"});
    for (const MuscleActivity& muscle : result.muscles) {
        for (const FrequencyRow& row : muscle.frequencies) {
            table.add_row({muscle.signal.name, number_cell(row.repetition), row.start.value(), row.end.value(),
                           row.frequencies.median.value(), row.frequencies.mean.value()});
        }
    }
    return table;
}

ResultTable fatigue_table(const ActivityResult& result) {
    ResultTable table("fatigue",
                      {"muscle", "count", "median_slope_hz_s", "frequency_change_pct", "r_squared", "is_clear"});
    for (const MuscleActivity& muscle : result.muscles) {
        const Trend& trend = muscle.median_trend;
        if (trend.count >= 3) {
            const double k = student_factor(0.95, static_cast<double>(trend.count - 2));
            table.add_row({muscle.signal.name, count_cell(trend.count),
                           Measured{trend.slope_per_s, trend.slope_u_per_s, k * trend.slope_u_per_s},
                           trend.first_to_last_pct, trend.r_squared, trend.is_clear()});
        }
    }
    return table;
}

}  // namespace jointrom
