#pragma once

/// \file
/// Which muscle works in which phase of a movement, when, and how hard.

#include <jointrom/angle/angle_trace.hpp>
#include <jointrom/core/finding.hpp>
#include <jointrom/emg/bursts.hpp>
#include <jointrom/emg/co_contraction.hpp>
#include <jointrom/emg/emg_signal.hpp>
#include <jointrom/emg/frequencies.hpp>
#include <jointrom/emg/lag.hpp>
#include <jointrom/emg/muscle_action.hpp>
#include <jointrom/movement/phases.hpp>
#include <jointrom/movement/repetitions.hpp>
#include <jointrom/recording/recording.hpp>

#include <cstddef>
#include <limits>
#include <optional>
#include <span>
#include <string>
#include <utility>
#include <vector>

namespace jointrom {

/// What activity is a percentage of.
enum class Normalisation {
    none,  ///< nothing: the unit is the channel's own
    peak,  ///< the highest value of the muscle's envelope in the measured part
    mvc    ///< a maximal voluntary contraction
};

/// What onsets are looked for in.
enum class OnsetSignal {
    envelope,      ///< rectified, low-pass 50 Hz, or a fifth of the rate below 250 Hz; an envelope as it is. Filtered
                   ///< forward and backward by themselves, at each time the lower of both, so that no filter rings
                   ///< before an onset
    teager_kaiser  ///< the Teager-Kaiser energy, low-pass 50 Hz; needs a raw signal at 1000 Hz or more
};

/// The maximum that a muscle's activity is compared with, in the channel's unit.
struct MuscleMaximum {
    std::string muscle;  ///< name of the channel; empty: every muscle that has none of its own
    double value;
};

/// Whether median and mean frequencies are computed.
enum class FrequencyWish {
    none,
    where_possible,
    required  ///< it is an error when no muscle can give them
};

struct ActivityOptions {
    EmgOptions emg = {};
    OnsetSignal onset = OnsetSignal::envelope;
    double threshold_sd = 3.0;  ///< above the mean at rest; 1 to 3 in Hodges 1996
    BurstOptions bursts = {};
    TimeWindow baseline = {};  ///< unset: a rest phase
    Normalisation normalisation = Normalisation::none;
    std::vector<MuscleMaximum> maxima = {};                       ///< for Normalisation::mvc
    std::vector<std::pair<std::string, std::string>> pairs = {};  ///< of muscle names; empty: two with opposite actions
    std::string resisted = {};  ///< the direction that the load resists; empty when it is not known
    FrequencyWish frequencies = FrequencyWish::where_possible;
};

/// Activity over some stretch, in the unit of the muscle's result. NaN where more than half of the samples are missing.
struct ActivityFigures {
    double duration_s = 0.0;
    double mean = std::numeric_limits<double>::quiet_NaN();        ///< of the rectified signal
    double peak = std::numeric_limits<double>::quiet_NaN();        ///< of the envelope
    double rms = std::numeric_limits<double>::quiet_NaN();         ///< of the signal
    double integral = std::numeric_limits<double>::quiet_NaN();    ///< mean times duration: unit times seconds
    double active_pct = std::numeric_limits<double>::quiet_NaN();  ///< of the time, within bursts
};

/// A phase of the recording, in order of time.
struct PhaseActivity {
    std::optional<std::size_t> repetition = std::nullopt;  ///< its number, where the phase belongs to one
    PhaseKind kind = PhaseKind::rest;
    Seconds start{};
    Seconds end{};
    ActivityFigures figures = {};
    double share_pct = std::numeric_limits<double>::quiet_NaN();  ///< of the repetition's integral
    Contraction contraction = Contraction::undecided;
};

/// All time of one kind within one repetition, or the whole of it.
struct RepetitionActivity {
    std::size_t repetition = 0;
    std::optional<PhaseKind> kind = std::nullopt;  ///< nothing: the whole repetition
    ActivityFigures figures = {};
    double share_pct = std::numeric_limits<double>::quiet_NaN();
    Contraction contraction = Contraction::undecided;
};

struct BurstActivity {
    std::optional<std::size_t> repetition = std::nullopt;  ///< the one it overlaps most
    Seconds onset{};
    Seconds offset{};
    Seconds
        lead{};  ///< from the first onset in a repetition to the start of its movement; negative when it comes later
    ActivityFigures figures = {};
};

/// Frequencies in a repetition or in a second of a hold.
struct FrequencyRow {
    std::optional<std::size_t> repetition = std::nullopt;
    Seconds start{};
    Seconds end{};
    Frequencies frequencies = {};
};

struct MuscleActivity {
    EmgSignal signal;
    std::string unit;  ///< "mV", "% of MVC", "% of peak"; "reading" when the channel has no unit
    double reference = std::numeric_limits<double>::quiet_NaN();  ///< what 100 % is, in the channel's unit
    std::optional<Toward> action;                                 ///< as the name says
    std::optional<Baseline> baseline;                             ///< of the signal that onsets are looked for in
    std::vector<PhaseActivity> phases;
    std::vector<RepetitionActivity> repetitions;  ///< whole, raising, holding, lowering of each; those that occur
    std::vector<BurstActivity> bursts;
    double raising_mean = std::numeric_limits<double>::quiet_NaN();  ///< mean of the repetitions' means
    double holding_mean = std::numeric_limits<double>::quiet_NaN();
    double lowering_mean = std::numeric_limits<double>::quiet_NaN();
    double rise_to_fall = std::numeric_limits<double>::quiet_NaN();  ///< raising_mean / lowering_mean
    std::optional<Lag> angle_lag;                                    ///< positive: the angle follows the envelope
    std::optional<Lag> velocity_lag;
    std::vector<FrequencyRow> frequencies;
    Trend median_trend;  ///< of the median frequency over time, in Hz
    Trend mean_trend;
};

struct PairRow {
    std::optional<std::size_t> repetition = std::nullopt;  ///< nothing: the whole measured part
    CoContraction co_contraction = {};
};

struct PairActivity {
    std::string mover;
    std::string antagonist;
    std::string unit;
    std::vector<PairRow> rows;
};

struct ActivityResult {
    std::vector<MuscleActivity> muscles;  ///< in the order of the file
    std::vector<PairActivity> pairs;
    Findings findings;
};

/// The activity of every muscle in a recording, phase by phase and repetition by repetition.
///
/// Method: each EMG channel is prepared (prepare_emg()); only what lies within the trace is measured. The baseline of
/// onsets is the quietest rest phase of half a second or more, without 0.2 s next to a movement, else the quietest half
/// second. The threshold lies `threshold_sd` standard deviations above it. The lag is find_lag() between envelope and
/// angle or velocity, at 100 Hz at most, over up to half the time between repetitions and 2 s at most; in the sign of
/// the muscle's action where the name tells it. Frequencies are given for each repetition when there are three or more,
/// else for each second of the longest hold of three seconds or more. Co-contraction of a pair is computed from
/// envelopes in percent: of the MVC, else of each muscle's own peak.
///
/// Findings: of prepare_emg(), and emg-baseline-assumed, emg-no-rest, emg-swapped (muscles that are named for one
/// direction work mostly in the other), emg-no-frequencies, mvc-exceeded, pair-assumed.
///
/// \throws Failure usage "emg-missing" when the recording has no EMG channel, "emg-unusable" when none can be used,
///   "muscle-unknown" for a pair or maximum of a muscle that is not there, "mvc-missing" when a muscle has no maximum,
///   "mvc-invalid" when it is not positive, "emg-rate-too-low" when frequencies or the Teager-Kaiser energy are asked
///   for and no muscle can give them, "baseline-empty" when the stated baseline holds no samples, "direction-unknown"
[[nodiscard]] ActivityResult muscle_activity(const Recording& recording, const AngleTrace& trace,
                                             const MovementPhases& phases, const Repetitions& repetitions,
                                             const ActivityOptions& options = {});

}  // namespace jointrom
