#include <jointrom/analysis/measure_activity.hpp>
#include <jointrom/analysis/measurements.hpp>
#include <jointrom/batch/hashed_file.hpp>
#include <jointrom/batch/trial_outcome.hpp>
#include <jointrom/recording/recording_files.hpp>
#include <jointrom/report/activity_tables.hpp>
#include <jointrom/report/movement_tables.hpp>

#include <algorithm>
#include <istream>
#include <new>

namespace jointrom {
namespace {

std::string mark_name(char mark) {
    return mark == '\t' ? "tabs" : mark == ' ' ? "blanks" : std::string("'") + mark + "'";
}

std::string dialect_text(const Dialect& dialect) {
    return "cells between " + mark_name(dialect.delimiter) + ", decimal mark " + mark_name(dialect.decimal_mark);
}

/// Reads the recording of one task.
class TrialReading {
  public:
    TrialReading(const BatchPlan& plan, const TrialTask& task, Settings& settings)
        : plan_(plan), task_(task), settings_(settings) {}

    /// \param sha256 is set as soon as the file could be read, even when it is no recording
    Recording read(std::string& sha256) {
        std::optional<Recording> recording = read_once(sha256);
        const bool is_ambiguous = !recording || contains(recording->findings, "decimal-ambiguous");
        if (is_ambiguous && plan_.dialect) {
            settings_.reading.delimiter = settings_.reading.delimiter.value_or(plan_.dialect->delimiter);
            settings_.reading.decimal_mark = settings_.reading.decimal_mark.value_or(plan_.dialect->decimal_mark);
            recording = read_once(sha256);
            if (recording) {
                recording->findings.emplace_back("dialect-of-class", dialect_text(*plan_.dialect));
            }
        }
        if (!recording) {
            throw Failure(*ambiguous_);
        }
        note_difference(*recording);
        return std::move(*recording);
    }

  private:
    /// Nothing when the text does not show how it is written.
    std::optional<Recording> read_once(std::string& sha256) {
        HashedRecording file(task_.path);
        std::optional<Recording> recording;
        try {
            recording = is_of_standard(task_.path) ? read_recording(task_.path, settings_.reading)
                                                   : read_recording(file.bytes(), task_.name, settings_.reading);
        } catch (const Failure& failure) {
            sha256 = file.sha256();
            if (failure.code() != "decimal-ambiguous") {
                throw;
            }
            ambiguous_ = failure;
            return std::nullopt;
        }
        sha256 = file.sha256();
        return recording;
    }

    void note_difference(Recording& recording) const {
        const Dialect& own = recording.table.dialect;
        if (plan_.dialect && !is_of_standard(task_.path) && !settings_.reading.delimiter &&
            !settings_.reading.decimal_mark &&
            (own.delimiter != plan_.dialect->delimiter || own.decimal_mark != plan_.dialect->decimal_mark)) {
            recording.findings.emplace_back("dialect-differs", dialect_text(own) + "; most of the class have " +
                                                                   dialect_text(*plan_.dialect));
        }
    }

    const BatchPlan& plan_;
    const TrialTask& task_;
    Settings& settings_;
    std::optional<Failure> ambiguous_;
};

void fill_measured(const Trial& trial, const Measurements& measured_values, const References& references,
                   TrialRow& row) {
    const AngleTrace& trace = trial.trace;
    const RangeOfMotion& range = measured_values.range;
    const bool reading_falls = references.calibration && references.calibration->gain_deg_per_unit < 0.0;
    row.done = true;
    if (trace.motion().is_known()) {
        row.subject.joint = trace.motion().joint;
        row.subject.motion = trace.motion().motion;
    }
    row.subject.side = trace.side() == Side::unknown ? std::string() : std::string(name_of(trace.side()));
    row.positive_direction = trace.motion().positive;
    row.negative_direction = trace.motion().negative;
    row.positive = measured(range.positive.angle.value(), range.positive.budget);
    row.negative = measured(range.negative.angle.value(), range.negative.budget);
    row.arc = measured(range.arc.value(), range.arc_budget);
    row.repetitions = measured_values.repetitions.rows.size();
    if (range.mean_arc) {
        row.mean_arc_deg = range.mean_arc->mean.value();
        row.mean_arc_sd_deg = range.mean_arc->sd.value();
    }
    row.peak_velocity_deg_s = measured_values.peak_velocity().value();
    row.reading_unit = angle_channel(trial.recording).unit;
    row.reading_direction = (trace.reading_sign() > 0) != reading_falls ? "rising" : "falling";
}

Cell line_cell(const Place& place) {
    return place.line == 0 ? Cell() : count_cell(place.line);
}

void add_finding(const TrialTask& task, const Finding& finding, TrialOutcome& outcome) {
    std::string text = task.hidden.empty() ? finding.text : without_names(finding.text, task.hidden);
    outcome.findings.push_back({std::string(name_of(finding.severity())), std::string(finding.code()), std::move(text),
                                line_cell(finding.place)});
}

bool has_muscles(const Recording& recording) {
    return std::ranges::any_of(recording.channels,
                               [](const Channel& channel) { return channel.role == ChannelRole::emg; });
}

/// The movement, and the muscles where they were recorded.
Measurements measure_all(const Trial& trial, const Settings& settings, Findings& findings, TrialOutcome& outcome) {
    if (has_muscles(trial.recording)) {
        try {
            std::istream none(nullptr);
            TrialActivity muscles = measure_activity(trial, settings, none);
            outcome.activity = activity_table(muscles.activity).rows();
            for (const Finding& finding : muscles.findings) {
                const bool is_of_movement =
                    std::ranges::find(muscles.repetitions.findings, finding) != muscles.repetitions.findings.end();
                if (!is_of_movement) {
                    findings.push_back(finding);
                }
            }
            RangeOfMotion range = range_of_motion(trial.trace, muscles.repetitions.rows);
            return {std::move(muscles.phases), std::move(muscles.repetitions), std::move(range)};
        } catch (const Failure& failure) {
            findings.emplace_back("activity-unavailable", failure.what(), failure.place());
        }
    }
    return measure(trial.trace, settings);
}

void measure_into(const BatchPlan& plan, const TrialTask& task, TrialOutcome& outcome) {
    Settings settings = plan.settings_of(task);
    if (task.references->failure) {
        throw Failure(*task.references->failure);
    }
    const References& references = task.references->files;
    Recording recording = TrialReading(plan, task, settings).read(outcome.row.input_sha256);
    const Trial trial = prepare_trial(std::move(recording), settings, references);
    Findings of_muscles;
    const Measurements measured_values = measure_all(trial, settings, of_muscles, outcome);
    fill_measured(trial, measured_values, references, outcome.row);
    outcome.repetitions = repetition_table(trial.trace, measured_values.repetitions).rows();
    outcome.phases = phase_table(trial.trace, measured_values.phases.phases, measured_values.repetitions.rows).rows();
    for (const Findings& findings : {trial.findings, measured_values.findings(), of_muscles}) {
        for (const Finding& finding : findings) {
            add_finding(task, finding, outcome);
        }
    }
    outcome.row.findings = outcome.findings.size();
}

/// \param folder of the class; places in it do not depend on where the program was started
void fail(const TrialTask& task, const Failure& failure, const std::filesystem::path& folder, TrialRow& row) {
    Place where = failure.place();
    if (const std::string prefix = (folder / "").string(); where.file.starts_with(prefix)) {
        where.file.erase(0, prefix.size());
    }
    const std::string place = where.text();
    std::string reason = (place.empty() ? "" : place + ": ") + failure.what();
    row.done = false;
    row.code = failure.code();
    row.reason = task.hidden.empty() ? reason : without_names(reason, task.hidden);
}

}  // namespace

std::span<const RowColumn> repetition_columns() {
    static const std::vector<RowColumn> columns =
        row_columns({"repetition", "start_s", "turn_s", "end_s", "duration_s", "start_deg", "turn_deg~", "end_deg",
                     "arc_deg~", "raising_s", "holding_s", "lowering_s", "raising_velocity_deg_s",
                     "lowering_velocity_deg_s", "spectral_arc", "log_jerk"});
    return columns;
}

std::span<const RowColumn> phase_columns() {
    static const std::vector<RowColumn> columns =
        row_columns({"repetition", "phase", "direction", "start_s", "end_s", "duration_s", "start_deg", "end_deg",
                     "excursion_deg", "peak_velocity_deg_s", "mean_velocity_deg_s"});
    return columns;
}

std::span<const RowColumn> activity_columns() {
    static const std::vector<RowColumn> columns =
        row_columns({"repetition", "phase", "muscle", "contraction", "duration_s", "activity_unit", "activity_mean",
                     "activity_peak", "activity_rms", "activity_integral", "share_pct", "active_pct"});
    return columns;
}

std::span<const RowColumn> finding_columns() {
    static const std::vector<RowColumn> columns = row_columns({"severity", "code", "text", "line"});
    return columns;
}

TrialOutcome measure_trial(const BatchPlan& plan, const TrialTask& task) {
    TrialOutcome outcome;
    outcome.row.subject = task.subject;
    outcome.row.settings_sha256 = task.references->settings_sha256;
    try {
        measure_into(plan, task, outcome);
    } catch (const Failure& failure) {
        fail(task, failure, plan.folder, outcome.row);
    } catch (const std::bad_alloc&) {
        fail(task, {FailureKind::unreadable_data, "out-of-memory", "the recording needs more memory than there is"},
             plan.folder, outcome.row);
    }
    return outcome;
}

}  // namespace jointrom
