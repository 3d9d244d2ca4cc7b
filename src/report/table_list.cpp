#include "report/table_list.hpp"

#include <array>

namespace jointrom {
namespace {

constexpr auto catalogue = std::to_array<TableKind>({
    {"activity", "activity", TableShape::rows,
     "repetition# phase$ muscle$ contraction$ duration_s activity_unit$ activity_mean activity_peak activity_rms "
     "activity_integral share_pct active_pct"},
    {"activity", "phases", TableShape::rows,
     "repetition# phase$ start_s end_s muscle$ contraction$ activity_unit$ activity_mean activity_peak "
     "activity_rms activity_integral share_pct active_pct"},
    {"activity", "bursts", TableShape::rows,
     "muscle$ burst# repetition# onset_s offset_s duration_s lead_s activity_unit$ activity_mean activity_peak "
     "activity_rms activity_integral"},
    {"activity", "muscles", TableShape::rows,
     "muscle$ activity_unit$ reference_activity raising_activity holding_activity lowering_activity most_active$ "
     "rise_to_fall bursts# lead_s angle_lag_s angle_correlation velocity_lag_s velocity_correlation"},
    {"activity", "co_contraction", TableShape::rows,
     "mover$ antagonist$ repetition# activity_unit$ common_area_pct weighted_ratio mean_of_lower area_ratio"},
    {"activity", "frequencies", TableShape::rows,
     "muscle$ repetition# start_s end_s median_frequency_hz mean_frequency_hz"},
    {"activity", "fatigue", TableShape::rows,
     "muscle$ count# median_slope_hz_s~ frequency_change_pct r_squared is_clear?"},
    {"activity", "treatment", TableShape::rows, "muscle$ emg_form$ rate_hz treatment$"},
    {"agreement", "icc", TableShape::optional_rows,
     "quantity$ form$ model$ subjects# repeats# icc ci_low ci_high f dof1 dof2 p | *"},
    {"agreement", "errors", TableShape::optional_rows,
     "quantity$ measurement$ mean sem sem_low sem_high degrees_of_freedom mdc95 percent_of_mean_pct | *"},
    {"agreement", "differences", TableShape::optional_rows,
     "quantity$ scale$ first$ second$ count# bias bias_low bias_high sd lower_limit lower_limit_low "
     "lower_limit_high upper_limit upper_limit_low upper_limit_high trend_slope trend_p spread_slope spread_p | *"},
    {"agreement", "devices", TableShape::optional_rows,
     "quantity$ device$ mean sem sem_low sem_high mdc95 reliability | *"},
    {"agreement", "reliability", TableShape::optional_rows,
     "quantity$ between$ subjects# repeats# reliability sem mdc95 | *"},
    {"angle-series", "a sample of the joint angle, as angles --format csv writes it", TableShape::file,
     "time_s angle_deg angle_u_deg velocity_deg_s acceleration_deg_s2"},
    {"angles", "", TableShape::series, "time_s angle_deg angle_u_deg velocity_deg_s acceleration_deg_s2"},
    {"batch", "recordings", TableShape::rows, "quantity$ count#"},
    {"batch", "failed", TableShape::rows, "id$ file$ code$ reason$"},
    {"batch", "findings", TableShape::rows, "code$ severity$ count#"},
    {"batch-activity", "the activity of a muscle in a phase of a recording of a class (activity.csv)", TableShape::file,
     "id$ file$ participant$ side$ joint$ motion$ condition$ trial$ rater$ repetition# phase$ muscle$ contraction$ "
     "duration_s activity_unit$ activity_mean activity_peak activity_rms activity_integral share_pct active_pct"},
    {"batch-class-findings", "a finding about a class as a whole (class_findings.csv)", TableShape::file,
     "severity$ code$ text$"},
    {"batch-findings", "a finding about a recording of a class (findings.csv)", TableShape::file,
     "id$ file$ participant$ side$ joint$ motion$ condition$ trial$ rater$ severity$ code$ text$ line#"},
    {"batch-phases", "a phase of a recording of a class (phases.csv)", TableShape::file,
     "id$ file$ participant$ side$ joint$ motion$ condition$ trial$ rater$ repetition# phase$ direction$ "
     "start_s end_s duration_s start_deg end_deg excursion_deg peak_velocity_deg_s mean_velocity_deg_s"},
    {"batch-repetitions", "a repetition of a recording of a class (repetitions.csv)", TableShape::file,
     "id$ file$ participant$ side$ joint$ motion$ condition$ trial$ rater$ repetition# start_s turn_s end_s "
     "duration_s start_deg turn_deg~ end_deg arc_deg~ raising_s holding_s lowering_s raising_velocity_deg_s "
     "lowering_velocity_deg_s spectral_arc log_jerk"},
    {"batch-trials", "a recording of a class, or a part of one (trials.csv)", TableShape::file,
     "id$ file$ participant$ side$ joint$ motion$ condition$ trial$ rater$ age_years sex$ load_kg status$ code$ "
     "reason$ positive_direction$ positive_deg~ negative_direction$ negative_deg~ arc_deg~ repetitions# "
     "mean_arc_deg mean_arc_sd_deg peak_velocity_deg_s findings# reading_unit$ reading_direction$ input_sha256$ "
     "settings_sha256$ version$"},
    {"calibrate", "calibration", TableShape::rows, "quantity$ value~ figure_unit$ degrees_of_freedom"},
    {"calibrate", "points", TableShape::rows, "known_deg reading residual_deg approach$ source$"},
    {"calibrate", "control", TableShape::rows, "known_deg reading error_deg~ tolerance_deg verdict$ source$"},
    {"check", "judgements", TableShape::rows,
     "direction$ extent_deg~ reference_deg band_low_deg band_high_deg deviation_deg z percentile_low_pct "
     "percentile_high_pct inside_pct verdict$ norm_source$ | id$ participant$ side$ joint$ sex$ age_years mode$"},
    {"check", "norms", TableShape::rows,
     "norm_source$ joint$ motion$ sex$ ages$ mode$ value_deg sd_deg n# band_basis$ provenance$ remarks$"},
    {"check", "sides", TableShape::rows,
     "participant$ joint$ direction$ left_deg right_deg side_difference_deg~ limit_deg verdict$ basis$"},
    {"check", "tasks", TableShape::optional_rows,
     "task$ low_deg high_deg covered$ short_low_deg short_high_deg norm_source$ provenance$ | id$"},
    {"grade", "quantities", TableShape::rows,
     "quantity$ count# right# not_graded# right_pct mean_error figure_unit$ mistake$"},
    {"grade", "participants", TableShape::rows, "participant$ count# right# not_graded# right_pct mistake$"},
    {"grade", "answers", TableShape::rows,
     "participant$ side$ trial_name$ quantity$ answer$ computed allowed figure_unit$ verdict$ mistake$ feedback$"},
    {"inspect", "channels", TableShape::rows,
     "column# name$ unit$ role$ count# rate_hz jitter_ms gaps# missing# minimum median maximum noise resolution "
     "repeated_pct wraps# spikes# start_s end_s"},
    {"inspect", "file", TableShape::rows, "property$ understood$"},
    {"inspect", "trials", TableShape::optional_rows, "trial# label$ first_line# last_line# rows# used?"},
    {"inspect", "annotations", TableShape::optional_rows, "start_s duration_s annotation$"},
    {"load", "repetitions", TableShape::optional_rows,
     "repetition# start_s end_s duration_s muscle_group$ peak_moment_nm~ peak_moment_at_deg mean_moment_nm "
     "peak_power_w concentric_work_j eccentric_work_j | muscle_force_n~ joint_force_n"},
    {"load", "phases", TableShape::optional_rows,
     "repetition# phase$ direction$ start_s end_s duration_s muscle_group$ contraction$ peak_moment_nm~ "
     "peak_moment_at_deg mean_moment_nm peak_power_w mean_power_w work_j~ | active_muscles$ muscle_force_n~ "
     "joint_force_n"},
    {"load", "summary", TableShape::optional_rows, "quantity$ figure_unit$ figure"},
    {"load", "held", TableShape::optional_rows,
     "angle_deg muscle_group$ held_moment_nm~ limb_moment_nm load_moment_nm | muscle_force_n~ joint_force_n"},
    {"load", "", TableShape::series, "angle_deg moment_nm gravity_moment_nm power_w energy_j"},
    {"load-series", "a sample of the load on a joint, as load --series --format csv writes it", TableShape::file,
     "time_s angle_deg moment_nm gravity_moment_nm power_w energy_j"},
    {"norms", "norms", TableShape::optional_rows,
     "source$ joint$ motion$ sex$ mode$ position$ kind$ value_deg sd_deg n# provenance$ spread_provenance$ "
     "band_low_deg band_high_deg band_basis$ | age_min_years age_max_years sd_basis$ sd_lo_deg sd_hi_deg "
     "ci_low_deg ci_high_deg min_deg p2_5_deg p5_deg p10_deg p25_deg p50_deg p75_deg p90_deg p95_deg p97_5_deg "
     "max_deg skewed? note$ citation$ ages$"},
    {"norms", "coverage", TableShape::optional_rows,
     "joint$ motion$ sex$ mode$ band_years$ mean_years$ gap_years$ any_age?"},
    {"norms", "differences", TableShape::optional_rows,
     "motion$ mode$ first_source$ first_group$ first_value_deg second_source$ second_group$ second_value_deg "
     "difference_deg difference_sd"},
    {"norms", "tasks", TableShape::optional_rows,
     "joint$ motion$ task$ low_deg low_sd_deg high_deg high_sd_deg n# source$ provenance$ note$"},
    {"norms", "errors", TableShape::optional_rows,
     "joint$ motion$ statistic$ low_deg high_deg raters$ instrument$ source$ provenance$ note$"},
    {"norms", "joints", TableShape::optional_rows,
     "joint$ motion$ positive$ negative$ neutral$ isb_positive$ isb_zero$ typical_error_deg change_positive_deg "
     "change_negative_deg change_arc_deg change_source$"},
    {"norms", "sources", TableShape::optional_rows, "source$ reuse$ population$ read_in$ citation$"},
    {"peaks", "turning_points", TableShape::rows,
     "kind$ at_s angle_deg~ prominence_deg held_from_s held_to_s at_edge?"},
    {"phases", "phases", TableShape::rows,
     "repetition# phase$ direction$ start_s end_s duration_s start_deg end_deg excursion_deg peak_velocity_deg_s "
     "mean_velocity_deg_s"},
    {"range", "range", TableShape::rows, "quantity$ extent_deg~ at_s at_edge? held_deg~ mean_deg~ sd_deg count#"},
    {"repetitions", "repetitions", TableShape::optional_rows,
     "repetition# start_s turn_s end_s duration_s start_deg turn_deg~ end_deg arc_deg~ raising_s holding_s "
     "lowering_s raising_velocity_deg_s lowering_velocity_deg_s spectral_arc log_jerk"},
    {"repetitions", "summary", TableShape::optional_rows, "quantity$ figure_unit$ mean sd count#"},
    {"repetitions", "curve", TableShape::optional_rows, "percent_pct mean_deg sd_deg count#"},
    {"repetitions", "likeness", TableShape::optional_rows, "quantity$ figure_unit$ value"},
    {"schema", "schemas", TableShape::rows, "schema$ schema_form$ describes$"},
    {"static", "expected", TableShape::optional_rows, "expected_deg posture# angle_deg~ deviation_deg"},
    {"static", "postures", TableShape::rows, "posture# start_s end_s duration_s angle_deg~ sd_deg drift_deg_s"},
    {"summary", "groups", TableShape::optional_rows,
     "quantity$ count# missing# participants# mean sd ci_low ci_high middle lower_quartile upper_quartile minimum "
     "maximum outliers# | *"},
    {"summary", "sides", TableShape::optional_rows,
     "quantity$ first$ second$ design$ first_count# second_count# first_mean second_mean difference ci_low ci_high "
     "t degrees_of_freedom p hedges_g hedges_g_low hedges_g_high detectable_change changed# | *"},
    {"summary", "change", TableShape::optional_rows,
     "quantity$ first$ second$ design$ first_count# second_count# first_mean second_mean difference ci_low ci_high "
     "t degrees_of_freedom p hedges_g hedges_g_low hedges_g_high detectable_change changed# | *"},
    {"summary", "norms", TableShape::optional_rows,
     "direction$ quantity$ source$ participants# below# inside# above# undecided# mean_deg norm_mean_deg mean_z | "
     "*"},
    {"summary", "outliers", TableShape::optional_rows, "quantity$ participant$ id$ value middle modified_z | *"},
});

}  // namespace

std::span<const TableKind> table_catalogue() {
    return catalogue;
}

}  // namespace jointrom
