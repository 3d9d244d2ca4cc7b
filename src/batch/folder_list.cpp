#include "batch/entry_columns.hpp"

#include <jointrom/batch/folder_list.hpp>
#include <jointrom/core/near_miss.hpp>
#include <jointrom/recording/bids_motion.hpp>
#include <jointrom/recording/recording_files.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <set>

namespace jointrom {
namespace {

namespace fs = std::filesystem;

constexpr std::size_t most_named = 5;

bool has_usual_ending(const fs::path& path) {
    std::string extension = path.extension().string();
    std::ranges::transform(extension, extension.begin(),
                           [](char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c; });
    return extension == ".csv" || extension == ".tsv" || extension == ".txt" || extension == ".tab" ||
           extension == ".edf";
}

/// Names of the files `depth` folders below, relative to `root`.
void collect(const fs::path& folder, const std::string& prefix, std::size_t depth, std::vector<std::string>& names) {
    for (const fs::directory_entry& entry : fs::directory_iterator(folder)) {
        const std::string name = entry.path().filename().string();
        if (name.starts_with('.')) {
            continue;
        }
        if (depth > 0 && entry.is_directory() && !entry.is_symlink()) {
            collect(entry.path(), prefix + name + "/", depth - 1, names);
        } else if (depth == 0 && entry.is_regular_file()) {
            names.push_back(prefix + name);
        }
    }
}

/// Takes what the name says. False when the pattern does not fit, or what stands in a place cannot be.
bool take_name(ClassEntry& entry, const ClassList& list, const NamePattern& pattern, std::string_view name) {
    const auto places = pattern.fit(name);
    if (!places) {
        return false;
    }
    try {
        for (const auto& [place, text] : *places) {
            if (const EntryColumn* column = find_entry_column(place)) {
                column->set(entry, list, text);
            } else {
                set_entry_setting(entry, list, *find_entry_setting(place), text, 0);
            }
        }
    } catch (const Failure&) {
        return false;
    }
    return true;
}

std::string some_of(const std::vector<std::string>& names) {
    std::string text;
    for (std::size_t i = 0; i < std::min(names.size(), most_named); ++i) {
        text += (i > 0 ? ", '" : "'") + names[i] + "'";
    }
    return names.size() > most_named ? text + fmt::format(" and {} more", names.size() - most_named) : text;
}

/// Without a pattern: who it was by the name that BIDS gives a motion file, else the file's name.
/// \return whether it is the file's name
bool take_whole_name(TrialSubject& subject, const fs::path& path) {
    if (is_bids_motion(path)) {
        subject.participant = bids_label(path, "sub");
        subject.condition = bids_label(path, "ses");
        subject.trial = bids_label(path, "run");
    }
    if (!subject.participant.empty()) {
        return false;
    }
    subject.participant = path.stem().string();
    return true;
}

/// Makes a class of files, one by one.
class Listing {
  public:
    Listing(std::string source, fs::path folder, const std::optional<NamePattern>& pattern) : pattern_(pattern) {
        list_.source = std::move(source);
        list_.folder = std::move(folder);
    }

    /// \param name as the pattern sees it
    void add(const std::string& file, const fs::path& path, const std::string& name) {
        if (is_description(path)) {
            return;
        }
        ClassEntry entry;
        entry.path = path;
        entry.subject.file = file;
        if (!pattern_) {
            named_as_file_ += take_whole_name(entry.subject, path) ? 1U : 0U;
        } else if (!take_name(entry, list_, *pattern_, name)) {
            others_.push_back(file);
            return;
        }
        list_.entries.push_back(std::move(entry));
    }

    ClassList finish();

  private:
    const std::optional<NamePattern>& pattern_;
    ClassList list_;
    std::vector<std::string> others_;  ///< that do not fit the pattern
    std::size_t named_as_file_ = 0;
};

ClassList Listing::finish() {
    if (list_.entries.empty()) {
        const std::string text = others_.empty()
                                     ? "there are no recordings (.csv, .tsv, .txt, .tab, .edf)"
                                     : fmt::format("no file fits the pattern; there are {}", some_of(others_));
        throw Failure(FailureKind::unreadable_data, "folder-empty", text, "Check the folder and --pattern.",
                      {list_.source});
    }
    if (!others_.empty()) {
        list_.findings.emplace_back(
            "files-not-fitting", fmt::format("{} the pattern: {}",
                                             others_.size() == 1 ? "1 file does not fit"
                                                                 : fmt::format("{} files do not fit", others_.size()),
                                             some_of(others_)));
    }
    if (named_as_file_ > 0) {
        list_.findings.emplace_back(
            "participant-from-file",
            named_as_file_ == 1
                ? "1 file counts as a participant named as the file"
                : fmt::format("each of the {} files counts as a participant named as the file", named_as_file_));
    }
    return std::move(list_);
}

}  // namespace

ClassList list_folder(const fs::path& folder, const std::optional<NamePattern>& pattern) {
    if (!fs::is_directory(folder)) {
        throw Failure(FailureKind::missing_file, "file-missing", "there is no such folder",
                      "Check the name and the permissions.", {folder.string()});
    }
    std::vector<std::string> names;
    collect(folder, "", pattern ? pattern->depth() : 0, names);
    std::ranges::sort(names);
    Listing listing(folder.string(), folder, pattern);
    for (const std::string& name : names) {
        if (pattern || has_usual_ending(name)) {
            listing.add(name, folder / name, name);
        }
    }
    return listing.finish();
}

ClassList list_files(const std::vector<std::string>& files, const std::optional<NamePattern>& pattern) {
    Listing listing("list of files", ".", pattern);
    for (const std::string& file : files) {
        const fs::path path = fs::path(file).lexically_normal();
        // A pattern without folders is about the file's own name, wherever it lies.
        const std::string name = pattern && pattern->depth() > 0 ? path.generic_string() : path.filename().string();
        listing.add(path.generic_string(), path, name);
    }
    return listing.finish();
}

std::vector<std::string> listed_names(std::string_view text) {
    const char end = text.find('\0') == std::string_view::npos ? '\n' : '\0';
    std::vector<std::string> names;
    while (!text.empty()) {
        const std::size_t length = std::min(text.find(end), text.size());
        std::string_view name = text.substr(0, length);
        if (end == '\n' && name.ends_with('\r')) {
            name.remove_suffix(1);
        }
        if (!name.empty()) {
            names.emplace_back(name);
        }
        text.remove_prefix(std::min(length + 1, text.size()));
    }
    return names;
}

void want_listed(ClassList& list, const std::vector<std::string>& files) {
    std::set<std::string> wanted;
    for (const std::string& file : files) {
        wanted.insert(fs::path(file).lexically_normal().generic_string());
    }
    std::set<std::string> found;
    for (ClassEntry& entry : list.entries) {
        entry.is_wanted = false;
        // A list may name files relative to the class's folder or to the present one.
        for (const std::string& name : {entry.subject.file, entry.path.lexically_normal().generic_string()}) {
            if (wanted.contains(name)) {
                found.insert(name);
                entry.is_wanted = true;
            }
        }
    }
    for (const std::string& file : wanted) {
        if (!found.contains(file) && !is_description(file) && !is_description(list.folder / file)) {
            list.problems.emplace_back(FailureKind::usage, "listed-file-unknown",
                                       fmt::format("the list names '{}', which the class does not have", file),
                                       "Name files as the manifest does, or relative to the present folder.");
        }
    }
}

}  // namespace jointrom
