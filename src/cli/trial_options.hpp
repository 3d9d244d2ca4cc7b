#pragma once

/// \file
/// What every command has that measures one recording: the file, the settings, the output.

#include "cli/command.hpp"
#include "cli/output_options.hpp"
#include "cli/setting_options.hpp"

#include <jointrom/analysis/trial.hpp>
#include <jointrom/report/result_table.hpp>

#include <string>
#include <utility>
#include <vector>

namespace jointrom::cli {

struct TrialOptions {
    std::string file;
    SettingOptions settings;
    OutputOptions output;

    /// What --explain can explain, and whether the command has something to do without a recording.
    struct Extent {
        bool may_explain = false;
        bool needs_file = true;
    };
    /// \param more groups of settings beside reading, joint and angle
    void attach(OptionList& list, std::vector<SettingGroup> more, Extent extent);
    void attach(OptionList& list, std::vector<SettingGroup> more = {}, bool may_explain = false) {
        attach(list, std::move(more), Extent{.may_explain = may_explain});
    }

    [[nodiscard]] Trial trial(const Settings& chosen, Console& console) const;
    /// Where the muscles do not matter.
    [[nodiscard]] Trial trial_of_angle(const Settings& chosen, Console& console) const;

    /// A report with everything filled in but its tables: input, settings, findings, and the steps as remarks.
    /// \param schema e.g. "jointrom-range" \param measured e.g. "range of motion"
    [[nodiscard]] Report report(const Trial& trial, const Settings& chosen, const std::string& schema,
                                const std::string& measured) const;
};

}  // namespace jointrom::cli
