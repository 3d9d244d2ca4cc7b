#pragma once

/// \file
/// What was understood of a recording, as tables of the column catalogue.

#include <jointrom/recording/annotations.hpp>
#include <jointrom/recording/channel_quality.hpp>
#include <jointrom/recording/recording.hpp>
#include <jointrom/report/result_table.hpp>

#include <span>

namespace jointrom {

/// A row for each channel. \pre one quality a channel
[[nodiscard]] ResultTable channel_table(const Recording& recording, std::span<const ChannelQuality> qualities);

/// How the file is written, a row for each fact.
[[nodiscard]] ResultTable file_table(const Recording& recording);

/// A row for each trial in the file.
[[nodiscard]] ResultTable trial_table(const TableDescription& table);

/// A row for each annotation.
[[nodiscard]] ResultTable annotation_table(std::span<const Annotation> annotations);

}  // namespace jointrom
