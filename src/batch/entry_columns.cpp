#include "batch/entry_columns.hpp"

#include "analysis/setting_text.hpp"

#include <jointrom/core/near_miss.hpp>
#include <jointrom/core/number_text.hpp>
#include <jointrom/recording/recording_files.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <array>

namespace jointrom {
namespace {

using Text = std::string_view;

std::string lower(Text text) {
    std::string result(text);
    for (char& c : result) {
        c = c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
    }
    return result;
}

const SettingKind& setting(std::string_view name) {
    return *std::ranges::find(setting_catalogue(), name, &SettingKind::name);
}

void add(ClassEntry& entry, const SettingKind& kind, std::string text) {
    Settings scratch;
    kind.set(scratch, text);
    entry.settings.push_back({&kind, std::move(text), 0});
}

void set_side(ClassEntry& entry, const ClassList&, Text text) {
    entry.subject.side = std::string(name_of(side_named(text)));
    add(entry, setting("side"), entry.subject.side);
}

void set_joint(ClassEntry& entry, const ClassList&, Text text) {
    entry.subject.joint = joint_motion(text).joint;
    add(entry, setting("joint"), entry.subject.joint);
}

void set_motion(ClassEntry& entry, const ClassList&, Text text) {
    entry.subject.motion = text;
    add(entry, setting("motion"), entry.subject.motion);
}

double number_in(Text name, Text text, double least, double most) {
    std::string plain(text);
    if (std::ranges::count(plain, ',') == 1 && plain.find('.') == std::string::npos) {
        plain[plain.find(',')] = '.';  // a decimal comma: the cell is whole, so it is nothing else
    }
    const auto value = parse_number(plain);
    if (!value || *value < least || *value > most) {
        refuse_setting(name, text, fmt::format("a number from {} to {}", least, most));
    }
    return *value;
}

void set_age(ClassEntry& entry, const ClassList&, Text text) {
    entry.subject.age_years = number_in("age", text, 0.0, 130.0);
}

void set_load(ClassEntry& entry, const ClassList&, Text text) {
    entry.subject.load_kg = number_in("load_kg", text, 0.0, 1000.0);
}

void set_sex(ClassEntry& entry, const ClassList&, Text text) {
    const std::string word = lower(text);
    if (word != "f" && word != "m" && word != "female" && word != "male") {
        refuse_setting("sex", text, "F or M");
    }
    entry.subject.sex = word.front() == 'f' ? "F" : "M";
}

/// YYYY-MM-DD. \throws Failure usage
std::string date_of(Text name, Text text) {
    const bool dashes = text.size() == 10 && text[4] == '-' && text[7] == '-';
    for (std::size_t i = 0; dashes && i < text.size(); ++i) {
        if (i != 4 && i != 7 && (text[i] < '0' || text[i] > '9')) {
            refuse_setting(name, text, "a date as YYYY-MM-DD");
        }
    }
    if (!dashes) {
        refuse_setting(name, text, "a date as YYYY-MM-DD");
    }
    return std::string(text);
}

/// "0 2" for "0,2", which is awkward to write in a table with commas.
std::string with_commas(Text text) {
    std::string result(text);
    std::ranges::replace(result, ' ', ',');
    return result;
}

/// A file beside the manifest, or what could be one.
void add_file(ClassEntry& entry, const ClassList& list, std::string_view kind, Text text) {
    add(entry, setting(kind), path_inside(list.folder, text).string());
}

/// "auto", a window, an angle, or a recording of the neutral posture.
void set_neutral(ClassEntry& entry, const ClassList& list, Text text) {
    const std::string window = with_commas(text);
    const std::size_t comma = window.find(',');
    if (text == "auto") {
        return;
    }
    if (parse_number(text)) {
        add(entry, setting("neutral-deg"), std::string(text));
    } else if (comma != std::string::npos && parse_number(window.substr(0, comma))) {
        add(entry, setting("neutral-s"), window);
    } else {
        add_file(entry, list, "neutral-file", text);
    }
}

/// "[NAME=]FILE" with the file's path in the folder; other values as they are.
std::string inside_folder(const ClassList& list, const SettingKind& kind, std::string text) {
    const auto [name, value] = named_value(text);
    if (kind.value.find("FILE") == std::string_view::npos || parse_number(value)) {
        return text;
    }
    return (name.empty() ? "" : name + "=") + path_inside(list.folder, value).string();
}

void set_file(ClassEntry& entry, const ClassList& list, Text text) {
    entry.path = path_inside(list.folder, text);
    if (is_description(entry.path)) {
        throw Failure(FailureKind::usage, "file-describes",
                      fmt::format("'{}' describes recordings and is none itself", text),
                      "Name the ..._motion.tsv; what describes it is found beside it.");
    }
    entry.subject.file = entry.path.lexically_relative(list.folder).generic_string();
}

const auto columns = std::to_array<EntryColumn>({
    {"file", set_file},
    {"id", [](ClassEntry& e, const ClassList&, Text t) { e.subject.id = t; }},
    {"participant", [](ClassEntry& e, const ClassList&, Text t) { e.subject.participant = t; }},
    {"side", set_side},
    {"joint", set_joint},
    {"motion", set_motion},
    {"condition", [](ClassEntry& e, const ClassList&, Text t) { e.subject.condition = t; }},
    {"trial", [](ClassEntry& e, const ClassList&, Text t) { e.subject.trial = t; }},
    {"rater", [](ClassEntry& e, const ClassList&, Text t) { e.subject.rater = t; }},
    {"age", set_age},
    {"age_years", set_age},
    {"sex", set_sex},
    {"load_kg", set_load},
    {"calibration", [](ClassEntry& e, const ClassList& l, Text t) { add_file(e, l, "calibration", t); }},
    {"neutral", set_neutral},
    {"trial_in_file", [](ClassEntry& e, const ClassList&, Text t) { add(e, setting("trial"), std::string(t)); }},
    {"date", [](ClassEntry& e, const ClassList&, Text t) { e.date = date_of("date", t); }},
    {"calibration_date",
     [](ClassEntry& e, const ClassList&, Text t) { e.calibration_date = date_of("calibration_date", t); }},
    {"notes", [](ClassEntry&, const ClassList&, Text) {}},
});

}  // namespace

const EntryColumn* find_entry_column(std::string_view name) {
    const auto found = std::ranges::find(columns, lower(name), &EntryColumn::name);
    return found == columns.end() ? nullptr : &*found;
}

const SettingKind* find_entry_setting(std::string_view name) {
    const std::string key = lower(name);
    const auto catalogue = setting_catalogue();
    const auto found = std::ranges::find(catalogue, key, &SettingKind::key);
    return found == catalogue.end() || find_entry_column(key) != nullptr ? nullptr : &*found;
}

void set_entry_setting(ClassEntry& entry, const ClassList& list, const SettingKind& kind, std::string_view text,
                       std::size_t column) {
    const std::size_t before = entry.settings.size();
    if (kind.value == "FILE") {
        add_file(entry, list, kind.name, text);
    } else if (kind.value == "START,END") {
        add(entry, kind, with_commas(text));
    } else if (kind.repeatable) {
        std::string_view rest = text;
        while (!rest.empty()) {
            const std::size_t end = std::min(rest.find(';'), rest.size());
            add(entry, kind, inside_folder(list, kind, std::string(rest.substr(0, end))));
            rest.remove_prefix(std::min(end + 1, rest.size()));
        }
    } else {
        add(entry, kind, std::string(text));
    }
    for (std::size_t i = before; i < entry.settings.size(); ++i) {
        entry.settings[i].column = column;
    }
}

std::vector<std::string> entry_names() {
    std::vector<std::string> names;
    for (const EntryColumn& column : columns) {
        names.emplace_back(column.name);
    }
    for (const SettingKind& kind : setting_catalogue()) {
        if (find_entry_column(kind.key()) == nullptr) {
            names.push_back(kind.key());
        }
    }
    return names;
}

Failure unknown_entry_name(std::string_view name, std::string_view what) {
    const std::vector<std::string> names = entry_names();
    const std::vector<std::string_view> known(names.begin(), names.end());
    const auto near = nearest(name, known);
    return {FailureKind::usage, "entry-unknown", fmt::format("there is no {} '{}'", what, name),
            near ? fmt::format("Did you mean {}?", *near)
                 : "Known are file, participant, side, joint, motion, condition, trial, rater, age, sex, load_kg, "
                   "calibration, neutral, and every setting; notes is ignored."};
}

}  // namespace jointrom
