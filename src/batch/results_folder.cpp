#include <jointrom/batch/results_folder.hpp>
#include <jointrom/core/failure.hpp>

#include <algorithm>
#include <array>
#include <csignal>
#include <cstdlib>
#include <system_error>
#include <utility>
#include <vector>

#include <unistd.h>

namespace jointrom {
namespace {

namespace fs = std::filesystem;

/// Every file that a run may write, also as NDJSON instead of CSV.
constexpr auto own_tables =
    std::to_array<std::string_view>({"activity", "class_findings", "findings", "phases", "repetitions", "summary",
                                     "summary_outliers", "summary_sides", "trials"});

bool is_own_table(const fs::path& path) {
    const std::string extension = path.extension().string();
    return (extension == ".csv" || extension == ".ndjson") &&
           std::ranges::find(own_tables, path.stem().string()) != own_tables.end();
}

bool is_own(const fs::path& path) {
    return path.filename() == settings_file_name || is_own_table(path);
}

constexpr std::string_view temporary_mark = ".tmp-";

/// Not named yet: a run is at work, or was killed.
bool is_unfinished(const fs::path& path) {
    const std::string name = path.filename().string();
    const std::size_t mark = name.find(temporary_mark);
    return mark != std::string::npos && is_own(name.substr(0, mark));
}

bool is_being_written(const fs::path& path) {
    const std::string name = path.filename().string();
    const int process = std::atoi(name.c_str() + name.find(temporary_mark) + temporary_mark.size());
    return process > 0 && process != ::getpid() && ::kill(process, 0) == 0;
}

std::vector<fs::path> files_in(const fs::path& folder) {
    std::vector<fs::path> files;
    for (const fs::directory_entry& entry : fs::directory_iterator(folder)) {
        files.push_back(entry.path());
    }
    std::ranges::sort(files);
    return files;
}

bool is_written_by_us(const fs::path& settings) {
    try {
        return read_whole_file(settings, "settings").find("\"jointrom-batch/") != std::string::npos;
    } catch (const Failure&) {
        return false;
    }
}

}  // namespace

ResultsFolder::ResultsFolder(fs::path folder) : folder_(std::move(folder)) {
    std::error_code problem;
    is_made_ = fs::create_directory(folder_, problem);
    if (!fs::is_directory(folder_)) {
        throw Failure(FailureKind::cannot_create, "cannot-create",
                      problem ? "cannot make the folder: " + problem.message() : "there is a file with this name",
                      "Check that the folder above it exists and may be written.", {folder_.string()});
    }
    has_earlier_ = is_written_by_us(folder_ / settings_file_name);
    for (const fs::path& file : files_in(folder_)) {
        if (is_unfinished(file) && is_being_written(file)) {
            throw Failure(FailureKind::usage, "folder-in-use", "another run is writing into the folder",
                          "Wait for it, or name another folder with --into.", {folder_.string()});
        }
        if (is_unfinished(file)) {
            fs::remove(file, problem);
        } else if (!has_earlier_) {
            throw Failure(FailureKind::usage, "folder-not-empty",
                          "the folder for results holds other files, such as " + file.filename().string(),
                          "Name a new folder with --into.", {folder_.string()});
        }
    }
}

ResultsFolder::~ResultsFolder() {
    files_.clear();
    if (is_made_ && !is_committed_) {
        std::error_code ignored;  // not empty: somebody else has put something there
        fs::remove(folder_, ignored);
    }
}

void ResultsFolder::File::pass_on() {
    file->append(pending);
    pending.clear();
}

void ResultsFolder::append(std::string_view name, std::string_view text) {
    constexpr std::size_t most_pending = std::size_t{64} << 10U;
    auto known = files_.find(name);
    if (known == files_.end()) {
        known = files_.emplace(name, File{std::make_unique<WholeFile>(folder_ / name), {}}).first;
    }
    known->second.pending += text;
    if (known->second.pending.size() >= most_pending) {
        known->second.pass_on();
    }
}

void ResultsFolder::commit() {
    for (auto& [name, file] : files_) {
        file.pass_on();
        file.file->finish();
    }
    std::error_code ignored;
    fs::remove(folder_ / settings_file_name, ignored);
    for (const fs::path& file : files_in(folder_)) {
        if (is_own(file) && !files_.contains(file.filename().string())) {
            fs::remove(file, ignored);
        }
    }
    for (const auto& [name, file] : files_) {
        if (name != settings_file_name) {
            file.file->commit();
        }
    }
    if (const auto settings = files_.find(std::string(settings_file_name)); settings != files_.end()) {
        settings->second.file->commit();
    }
    is_committed_ = true;
}

std::string results_table_named(const std::string& name) {
    const fs::path table = fs::path(name) / "trials.csv";
    std::error_code ignored;
    return fs::is_regular_file(table, ignored) ? table.string() : name;
}

}  // namespace jointrom
