#include "analysis/setting_text.hpp"

#include <jointrom/analysis/measure_activity.hpp>
#include <jointrom/core/failure.hpp>
#include <jointrom/core/near_miss.hpp>
#include <jointrom/core/number_text.hpp>
#include <jointrom/emg/maximal_contraction.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace jointrom {
namespace {

std::vector<const Channel*> emg_channels(const Recording& recording) {
    std::vector<const Channel*> channels;
    for (const Channel& channel : recording.channels) {
        if (channel.role == ChannelRole::emg) {
            channels.push_back(&channel);
        }
    }
    return channels;
}

std::string names_of(const std::vector<const Channel*>& channels) {
    std::string text;
    for (const Channel* channel : channels) {
        text += fmt::format("{}'{}'", text.empty() ? "" : ", ", channel->name);
    }
    return text.empty() ? "none" : text;
}

const Channel* channel_called(const std::vector<const Channel*>& channels, std::string_view name) {
    const auto found =
        std::ranges::find_if(channels, [&](const Channel* channel) { return edit_distance(channel->name, name) == 0; });
    return found == channels.end() ? nullptr : *found;
}

/// Maxima of muscles, from the texts that name them.
class Maxima {
  public:
    Maxima(const Trial& trial, const Settings& settings, std::istream& in, TrialActivity& result)
        : muscles_(emg_channels(trial.recording)), settings_(settings), in_(in), result_(result) {}

    std::vector<MuscleMaximum> read() {
        for (const std::string& text : settings_.maxima) {
            const auto [muscle, source] = named_value(text);
            if (const auto value = parse_number(source)) {
                maxima_.push_back({muscle, *value});
            } else {
                add_file(muscle, source);
            }
        }
        return std::move(maxima_);
    }

  private:
    void add_file(const std::string& muscle, const std::string& file) {
        const Recording recording = read_recording(file, in_, settings_);
        result_.files.emplace_back(file, recording.table.rows);
        const auto channels = emg_channels(recording);
        if (!muscle.empty()) {
            const Channel* channel = channel_called(channels, muscle);
            add(muscle, channel == nullptr && channels.size() == 1 ? channels.front() : channel, channels, file);
            return;
        }
        bool has_any = false;
        for (const Channel* wanted : muscles_) {
            if (const Channel* channel = channel_called(channels, wanted->name)) {
                add(wanted->name, channel, channels, file);
                has_any = true;
            }
        }
        if (!has_any) {
            refuse(names_of(muscles_), channels, file);
        }
    }

    void add(const std::string& muscle, const Channel* channel, const std::vector<const Channel*>& channels,
             const std::string& file) {
        if (channel == nullptr) {
            refuse("'" + muscle + "'", channels, file);
        }
        Findings findings;
        const auto signal = prepare_emg(*channel, settings_.activity.emg, findings);
        const double value = signal ? maximum_of(*signal) : std::numeric_limits<double>::quiet_NaN();
        if (std::isnan(value)) {
            throw Failure(FailureKind::unreadable_data, "mvc-unusable",
                          fmt::format("--mvc: '{}' is no maximal contraction: {}", channel->name,
                                      findings.empty() ? "it is shorter than half a second" : findings.back().text),
                          "Record a contraction of three seconds or more.", {.file = file, .line = 0, .column = 0});
        }
        for (Finding& finding : findings) {
            // What the trial itself shows in the same way is said there.
            if (finding.severity() != Severity::note && finding.code() != "emg-undersampled") {
                finding.place.file = file;
                result_.findings.push_back(std::move(finding));
            }
        }
        maxima_.push_back({muscle, value});
    }

    [[noreturn]] static void refuse(const std::string& wanted, const std::vector<const Channel*>& channels,
                                    const std::string& file) {
        throw Failure(FailureKind::usage, "mvc-channel-missing",
                      fmt::format("--mvc: the EMG channels here are {}, wanted: {}", names_of(channels), wanted),
                      "Give the channels the same names in both recordings with --emg NAME=COLUMN, or use "
                      "--mvc NAME=VALUE.",
                      {.file = file, .line = 0, .column = 0});
    }

    std::vector<const Channel*> muscles_;
    const Settings& settings_;
    std::istream& in_;
    TrialActivity& result_;
    std::vector<MuscleMaximum> maxima_;
};

void append(Findings& findings, const Findings& more) {
    findings.insert(findings.end(), more.begin(), more.end());
}

}  // namespace

TrialActivity measure_activity(const Trial& trial, const Settings& settings, std::istream& standard_input,
                               FrequencyWish frequencies) {
    TrialActivity result;
    ActivityOptions options = settings.activity;
    options.frequencies = frequencies;
    options.maxima = Maxima(trial, settings, standard_input, result).read();
    if (!options.maxima.empty()) {
        if (options.normalisation == Normalisation::peak) {
            throw Failure(FailureKind::usage, "normalise-twice", "--mvc and --normalise peak are both percentages",
                          "Give one of them.");
        }
        options.normalisation = Normalisation::mvc;
    }
    result.phases = movement_phases(trial.trace, settings.phases);
    result.repetitions = repetitions(trial.trace, result.phases);
    result.activity = muscle_activity(trial.recording, trial.trace, result.phases, result.repetitions, options);
    append(result.findings, result.repetitions.findings);
    append(result.findings, result.activity.findings);
    return result;
}

}  // namespace jointrom
