#pragma once

/// \file
/// Repeated measurements of the same subjects, taken from a table: who was measured, under which repeats, with which
/// devices.

#include <jointrom/batch/long_table.hpp>
#include <jointrom/core/finding.hpp>
#include <jointrom/stats/repeatability.hpp>
#include <jointrom/stats/sign_mix.hpp>
#include <jointrom/stats/two_way_anova.hpp>

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

namespace jointrom {

struct RepeatedOptions {
    std::vector<std::string> by = {};       ///< columns to group by
    std::vector<std::string> subject = {};  ///< columns that together say who or what was measured
    std::string repeat = {};                ///< column that tells the measurements of one subject apart, e.g. "trial"
    std::string device = {};                ///< column of devices or raters that each repeat; empty for none
};

/// One quantity in one group.
struct RepeatedScores {
    std::vector<std::string> group = {};
    std::string quantity;
    std::vector<std::string> columns = {};  ///< texts of the repeats, or of the devices where there are some
    ScoreTable scores;                      ///< of the subjects with all of them; with devices the means of the repeats
    std::vector<std::string> subjects;      ///< of these scores
    std::size_t left_out = 0;               ///< subjects who lack a measurement
    std::size_t averaged = 0;               ///< cells with several values, which were averaged
    SignMix averaged_signs;                 ///< of the values, when some were averaged
    ReplicatedTable replicated;             ///< with devices: every repeat; empty without, or when there is one repeat
    std::size_t repeats_left_out = 0;       ///< subjects who lack a repeat with a device
};

/// A row for each measurement.
///
/// Method: a subject counts when no measurement of the group's repeats is missing. Values of one subject in one cell
/// are averaged.
[[nodiscard]] std::vector<RepeatedScores> repeated_scores(const LongTable& table, const RepeatedOptions& options);

/// A name for some columns of a wide table, which are the repeats of one device.
struct WideColumns {
    std::string name;  ///< of the device; empty when there is only one
    std::vector<std::string> columns;
};

/// A row for each subject, a column for each measurement. \pre all have the same number of columns, which `table` holds
[[nodiscard]] RepeatedScores wide_scores(const LongTable& table, const std::vector<WideColumns>& devices,
                                         const std::string& subject);

/// Do the measurements have one sign? Values of opposite sign (left and right, flexion and extension) that are taken
/// together spread so far that they always seem to be repeated well.
void check_signs(const RepeatedScores& scores, Findings& findings);

}  // namespace jointrom
