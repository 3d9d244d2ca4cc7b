#pragma once

/// \file
/// The settings of analysis/settings.hpp as options of a command.

#include "cli/option_list.hpp"

#include <jointrom/analysis/settings.hpp>

#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace jointrom::cli {

class SettingOptions {
  public:
    /// Adds an option for each setting of the groups, and --settings FILE.
    void attach(OptionList& list, std::vector<SettingGroup> groups);

    /// The settings file, overruled by what the command line says. \throws Failure usage
    [[nodiscard]] Settings settings() const;

    /// Every setting of the groups, for the report.
    [[nodiscard]] std::vector<std::pair<std::string, std::string>> in_force(const Settings& settings) const;

  private:
    std::vector<SettingGroup> groups_;
    std::map<std::string_view, std::vector<std::string>> texts_;  ///< what was typed, by name of the setting
    std::map<std::string_view, std::optional<bool>> switches_;
    std::string file_;
};

}  // namespace jointrom::cli
