#pragma once

/// \file
/// What `plot` was asked for, and the functions that draw it, by kind of input.

#include "cli/norm_options.hpp"
#include "cli/output_options.hpp"
#include "cli/setting_options.hpp"

#include <jointrom/core/finding.hpp>
#include <jointrom/figure/figure_style.hpp>

#include <string>
#include <vector>

namespace jointrom::cli {

struct PlotRequest {
    std::string file;
    std::string figure = "angle";
    std::string size;
    FigureStyle style;
    SettingOptions settings;
    OutputOptions output;
    // Of class tables:
    std::string value;
    std::string by;
    std::string repeat;
    std::string participant;
    std::vector<std::string> only;
    NormOptions norms;
};

/// The figure of a recording. \throws Failure as prepare_trial(); usage "emg-missing" where muscles are needed
[[nodiscard]] std::string trial_figure(const PlotRequest& request, Console& console, Findings& findings);

/// The figure of a class table. \throws Failure as read_long_table(); usage "not-a-class-table", "sides-missing"
[[nodiscard]] std::string class_table_figure(const PlotRequest& request, Console& console, Findings& findings);

}  // namespace jointrom::cli
