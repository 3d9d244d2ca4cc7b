#include <jointrom/recording/read_recording.hpp>

#include "channel_times.hpp"
#include "stated_columns.hpp"
#include "time_axis.hpp"

#include <jointrom/core/failure.hpp>
#include <jointrom/core/number_text.hpp>
#include <jointrom/recording/bids_motion.hpp>
#include <jointrom/recording/channel_quality.hpp>
#include <jointrom/recording/column_name.hpp>
#include <jointrom/recording/column_role.hpp>
#include <jointrom/recording/edf_recording.hpp>
#include <jointrom/recording/stated_rate.hpp>
#include <jointrom/table/heading.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <utility>

namespace jointrom {
namespace {

/// All columns but those of muscles, if one is an angle by its name; else all.
std::vector<bool> all_but_muscles(const std::vector<std::string>& headings, const std::vector<std::string>& units) {
    std::vector<bool> wanted(headings.size(), true);
    bool has_angle = false;
    for (std::size_t i = 0; i < headings.size(); ++i) {
        const ColumnRole role = role_by_name(headings[i], units[i]);
        wanted[i] = role != ColumnRole::emg;
        has_angle = has_angle || role == ColumnRole::angle;
    }
    return has_angle ? wanted : std::vector<bool>(headings.size(), true);
}

TableOptions table_options(const ReadingOptions& options) {
    TableOptions result{.delimiter = options.delimiter,
                        .decimal_mark = options.decimal_mark,
                        .missing_values = options.missing_values,
                        .trial = options.trial};
    const bool names_columns = !options.time_column.empty() || !options.angle_column.empty() ||
                               !options.emg_columns.empty() || !options.channel_rates.empty();
    if (options.angle_only && !names_columns) {
        result.wanted = all_but_muscles;
    }
    return result;
}

void refuse_unusable(const Table& table) {
    const bool has_numbers =
        std::ranges::any_of(table.columns, [](const TableColumn& column) { return column.is_numeric; });
    if (!has_numbers) {
        throw Failure(FailureKind::unreadable_data, "no-channels", "the table has no column of numbers",
                      "Check the delimiter (--delimiter) and the decimal mark (--decimal).",
                      {.file = {}, .line = table.first_data_line, .column = 0});
    }
    if (table.description.rows < 2) {
        throw Failure(FailureKind::unreadable_data, "too-few-rows", "the table has a single row of numbers",
                      "A recording needs at least two samples.",
                      {.file = {}, .line = table.first_data_line, .column = 0});
    }
}

ChannelRole channel_role(ColumnRole role) {
    return role == ColumnRole::angle ? ChannelRole::angle
           : role == ColumnRole::emg ? ChannelRole::emg
                                     : ChannelRole::other;
}

/// \throws Failure "rate-implausible"
void require_plausible_rate(const Channel& channel, std::size_t line) {
    constexpr double fastest_hz = 1e6;  // far beyond any logger of angles or muscles
    if (channel.times.rate().value() > fastest_hz) {
        throw Failure(FailureKind::unreadable_data, "rate-implausible",
                      fmt::format("'{}' would have been sampled {:.3g} times per second", channel.name,
                                  channel.times.rate().value()),
                      "Write the unit of time into its heading, or state the rate with --rate-hz.",
                      {.file = {}, .line = line, .column = 0});
    }
}

class Reading {
  public:
    Reading(Table& table, const std::string& source, const ReadingOptions& options)
        : table_(table), options_(options), stated_(stated_roles(table, options)),
          roles_(column_roles(table, stated_, source)) {
        recording_.source = source;
        recording_.findings = std::move(table.findings);
    }

    Recording read() {
        if (roles_.angle && !roles_.angle_reason.empty()) {
            note("column-assumed", fmt::format("'{}' was taken as the joint angle: {}",
                                               column_name(table_, *roles_.angle), roles_.angle_reason));
        }
        find_channel_rates();
        find_row_rate();
        for (std::size_t i = 0; i < table_.columns.size(); ++i) {
            if (is_channel(i)) {
                add_channel(i);
            }
        }
        if (recording_.channels.empty()) {
            throw Failure(FailureKind::unreadable_data, "no-channels",
                          "the table has no column of numbers but the time",
                          "Check the delimiter (--delimiter), or name the time column with --time.",
                          {.file = {}, .line = table_.first_data_line, .column = 0});
        }
        for (const Channel& channel : recording_.channels) {
            require_plausible_rate(channel, table_.first_data_line);
        }
        note_channels();
        recording_.table = std::move(table_.description);
        return std::move(recording_);
    }

  private:
    [[nodiscard]] bool is_channel(std::size_t i) const {
        const ColumnRole role = roles_.of[i];
        const bool was_kept = !table_.columns[i].values.empty();
        return was_kept && (role == ColumnRole::angle || role == ColumnRole::emg || role == ColumnRole::other);
    }
    void note(std::string_view code, std::string text) { recording_.findings.emplace_back(code, std::move(text)); }
    void find_channel_rates();
    void find_row_rate();
    [[nodiscard]] const TimeAxis& axis_of(std::size_t i);
    [[nodiscard]] std::string channel_name(std::size_t i) const;
    [[nodiscard]] std::string channel_unit(std::size_t i) const;
    void add_channel(std::size_t i);
    void note_channels();

    Table& table_;
    const ReadingOptions& options_;
    StatedRoles stated_;
    ColumnRoles roles_;
    std::map<std::size_t, Hertz> rate_of_;                 ///< stated rates of columns
    Hertz row_rate_;                                       ///< where no column holds the time
    std::map<std::optional<std::size_t>, TimeAxis> axes_;  ///< by time column
    std::vector<std::size_t> missing_;                     ///< samples that each channel lacks, by channel
    Recording recording_;
};

void Reading::find_channel_rates() {
    for (const auto& [name, rate] : options_.channel_rates) {
        const auto emg = std::ranges::find(options_.emg_columns, name, &ReadingOptions::EmgColumn::name);
        if (emg != options_.emg_columns.end()) {
            rate_of_[stated_.emg[static_cast<std::size_t>(emg - options_.emg_columns.begin())]] = rate;
        } else {
            rate_of_[name == "angle" && roles_.angle ? *roles_.angle : find_column(table_, name, "--rate-hz")] = rate;
        }
    }
}

/// The stated rate, else that of the lines above the table, else the fastest of the channels if all are stated.
void Reading::find_row_rate() {
    row_rate_ = options_.rate;
    const bool has_time = std::ranges::any_of(roles_.of, [](ColumnRole role) { return role == ColumnRole::time; });
    if (row_rate_.is_set() || has_time) {
        return;
    }
    if (const auto stated = find_stated_rate(table_.description.preamble)) {
        row_rate_ = stated->rate;
        note("rate-assumed", fmt::format("no column holds the time; {} Hz, as the line \"{}\" says",
                                         shortest_text(stated->rate.value()), stated->line));
        return;
    }
    for (std::size_t i = 0; i < table_.columns.size(); ++i) {
        const auto stated = rate_of_.find(i);
        if (is_channel(i) && stated == rate_of_.end()) {
            row_rate_ = Hertz();
            return;
        }
        if (is_channel(i) && !(row_rate_ > stated->second)) {
            row_rate_ = stated->second;
        }
    }
}

const TimeAxis& Reading::axis_of(std::size_t i) {
    const std::optional<std::size_t> time = roles_.time_of[i];
    if (const auto known = axes_.find(time); known != axes_.end()) {
        return known->second;
    }
    const bool is_lone_trial = table_.description.blocks.size() <= 1;
    if (time) {
        const StatedClock stated{.rate = options_.rate, .part = is_lone_trial ? options_.trial : std::nullopt};
        return axes_[time] = axis_of_time_column(table_, *time, stated, recording_.findings);
    }
    if (!row_rate_.is_set()) {
        throw Failure(FailureKind::usage, "rate-missing",
                      "no column holds the time, and the lines above the table do not state the sampling rate",
                      "State it with --rate-hz N, or name the time column with --time COLUMN.",
                      {.file = {}, .line = table_.first_data_line, .column = 0});
    }
    if (is_lone_trial && options_.trial.value_or(1) != 1) {
        throw Failure(FailureKind::usage, "no-such-trial",
                      fmt::format("trial {} was asked for, but the file holds one", *options_.trial),
                      "Leave --trial out.");
    }
    return axes_[time] = axis_at_rate(table_.description.rows, row_rate_);
}

std::string Reading::channel_name(std::size_t i) const {
    const auto emg = std::ranges::find(stated_.emg, i);
    return emg == stated_.emg.end() ? column_name(table_, i)
                                    : options_.emg_columns[static_cast<std::size_t>(emg - stated_.emg.begin())].name;
}

std::string Reading::channel_unit(std::size_t i) const {
    if (roles_.angle != i || options_.angle_unit.empty()) {
        return table_.description.units[i];
    }
    const auto unit = normalised_unit(options_.angle_unit);
    if (!unit) {
        throw Failure(FailureKind::usage, "unit-unknown",
                      fmt::format("--angle-unit: '{}' is not a known unit", options_.angle_unit),
                      "Use deg, rad, V, mV or counts.");
    }
    return *unit;
}

void Reading::add_channel(std::size_t i) {
    TableColumn& column = table_.columns[i];
    const TimeAxis& axis = axis_of(i);
    Channel channel{.name = channel_name(i),
                    .unit = channel_unit(i),
                    .column = column.number,
                    .role = channel_role(roles_.of[i]),
                    .times = axis.times,
                    .samples = axis.samples(std::move(column.values))};
    const auto stated = rate_of_.find(i);
    const Hertz rate = stated == rate_of_.end() ? Hertz() : stated->second;
    const bool has_blanks = column.missing > 0;
    if (has_blanks) {
        const bool has_clock = roles_.time_of[i].has_value();
        take_own_times(channel, axis.resolution_s, has_clock ? ShortColumn::ended_early : ShortColumn::slower, rate,
                       recording_.findings);
    }
    if (rate.is_set()) {
        apply_stated_rate(channel, rate);
    }
    if (roles_.angle == i) {
        recording_.angle = recording_.channels.size();
    }
    missing_.push_back(has_blanks ? missing_cells(channel, axis) : 0);
    recording_.channels.push_back(std::move(channel));
}

/// What the samples of the joint angle show, and which channels lack samples.
void Reading::note_channels() {
    std::string others;
    for (std::size_t k = 0; k < missing_.size(); ++k) {
        const Channel& channel = recording_.channels[k];
        if (missing_[k] == 0) {
            continue;
        }
        if (recording_.angle == k) {
            note("missing-samples", missing_text(channel, missing_[k]));
        } else {
            others += fmt::format("{}'{}' lacks {} of {} samples", others.empty() ? "" : ", ", channel.name,
                                  missing_[k], channel.samples.size());
        }
    }
    if (!others.empty()) {
        note("missing-samples", others);
    }
    if (recording_.angle) {
        for (Finding& finding : angle_findings(recording_.channels[*recording_.angle])) {
            recording_.findings.push_back(std::move(finding));
        }
    }
}

}  // namespace

Recording recording_from_table(Table&& table, const std::string& source, const ReadingOptions& options) {
    try {
        refuse_unusable(table);
        Recording recording = Reading(table, source, options).read();
        for (Finding& finding : recording.findings) {
            if (finding.place.file.empty()) {
                finding.place.file = source;
            }
        }
        return recording;
    } catch (const Failure& failure) {
        throw failure.in_file(source);
    }
}

Recording read_recording(const std::filesystem::path& path, const ReadingOptions& options) {
    if (is_bids_motion(path)) {
        return read_bids_motion(path, options);
    }
    if (is_edf(path)) {
        return read_edf(path, options);
    }
    return recording_from_table(read_table(path, table_options(options)), path.string(), options);
}

Recording read_recording(ByteSource& source, const std::string& name, const ReadingOptions& options) {
    return recording_from_table(read_table(source, name, table_options(options)), name, options);
}

}  // namespace jointrom
