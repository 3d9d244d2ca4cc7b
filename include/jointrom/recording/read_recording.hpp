#pragma once

/// \file
/// From a text table to a recording.

#include <jointrom/core/units.hpp>
#include <jointrom/recording/recording.hpp>
#include <jointrom/table/table_reader.hpp>

#include <cstddef>
#include <filesystem>
#include <optional>
#include <string>
#include <vector>

namespace jointrom {

/// What the user knows better than the file shows. Everything unset is found out. Columns are named as in
/// column_name.hpp.
struct ReadingOptions {
    struct EmgColumn {
        std::string name;  ///< what the channel is to be called
        std::string column;
    };
    struct ChannelRate {
        std::string channel;  ///< name of an EMG channel above, "angle", or a column
        Hertz rate;
    };

    std::string time_column;
    std::string angle_column;
    std::vector<EmgColumn> emg_columns;
    Hertz rate;                              ///< of the rows, where no column holds the time
    std::vector<ChannelRate> channel_rates;  ///< of channels that were sampled at another rate than the rows
    std::string angle_unit;                  ///< of the angle channel, e.g. "deg", "V"
    std::vector<double> missing_values;      ///< numbers that stand for "no sample"
    std::optional<std::size_t> trial;        ///< which of several trials in the file, from 1
    std::optional<char> delimiter;
    std::optional<char> decimal_mark;
    /// Muscles' channels are not needed: they are left out where their names and the angle's tell which is which.
    bool angle_only = false;
};

/// The recording in a file; "..._motion.tsv" and ".edf" as bids_motion.hpp and edf_recording.hpp have it.
///
/// Method: the roles of columns are found (column_role.hpp). Each channel gets a time base from its time column: a
/// regular one where the stamps stand on an even grid within their rounding, else the stamps. Rows that are missing by
/// the clock are missing samples. A channel that has values in every k-th row only has its own, slower time base.
/// Without a time column the rate is the stated one, else the one that the lines above the table give. A channel whose
/// rate is stated and that is filled up to the rows' rate keeps every k-th sample.
/// Findings: column-assumed, missing-samples, missing-suspect, rate-assumed, repeated-readings, saturated, stuck,
/// time-backwards, time-repeated, time-unit-assumed, unit-suspect, and those of the table.
/// Missing samples: NaN.
///
/// \throws Failure what read_table throws; usage "column-missing", "column-ambiguous", "column-text", "rate-missing",
///         "rate-mismatch", "no-such-trial", "unit-unknown", "emg-twice", "emg-time"; unreadable_data "no-channels",
///         "too-few-rows", "column-empty", "time-unusable"
/// \par Complexity O(samples); columns are moved from the table, not copied, where no row is missing
[[nodiscard]] Recording read_recording(const std::filesystem::path& path, const ReadingOptions& options = {});

/// The recording in any source of bytes; `name` stands for the file in messages.
[[nodiscard]] Recording read_recording(ByteSource& source, const std::string& name, const ReadingOptions& options = {});

/// The recording in a table that has been read. Of `options`, what concerns the text has been used by then.
/// \param source the file name
[[nodiscard]] Recording recording_from_table(Table&& table, const std::string& source,
                                             const ReadingOptions& options = {});

}  // namespace jointrom
