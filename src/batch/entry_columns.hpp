#pragma once

/// \file
/// What a column of a manifest, or a place in a pattern of names, can say of a recording.

#include <jointrom/batch/class_list.hpp>

#include <string>
#include <string_view>
#include <vector>

namespace jointrom {

/// One thing that can be said, by name.
struct EntryColumn {
    std::string_view name;
    /// Takes what a cell says. \throws Failure usage, without a place
    void (*set)(ClassEntry& entry, const ClassList& list, std::string_view text);
};

/// The column with this name in any case of letters; nothing when it is not one of entry_columns().
[[nodiscard]] const EntryColumn* find_entry_column(std::string_view name);

/// The setting whose key this is, in any case of letters; nothing for settings that a manifest says otherwise.
[[nodiscard]] const SettingKind* find_entry_setting(std::string_view name);

/// Takes what a cell says about a setting. \throws Failure usage, without a place
void set_entry_setting(ClassEntry& entry, const ClassList& list, const SettingKind& kind, std::string_view text,
                       std::size_t column);

/// Names of all columns and settings.
[[nodiscard]] std::vector<std::string> entry_names();

/// The failure for a name that is none of them, with the nearest one. \param what e.g. "column"
[[nodiscard]] Failure unknown_entry_name(std::string_view name, std::string_view what);

}  // namespace jointrom
