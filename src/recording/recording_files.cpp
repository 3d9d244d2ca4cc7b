#include <jointrom/core/failure.hpp>
#include <jointrom/recording/bids_motion.hpp>
#include <jointrom/recording/edf_recording.hpp>
#include <jointrom/recording/recording_files.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <initializer_list>
#include <string>
#include <string_view>

namespace jointrom {
namespace {

constexpr std::string_view motion_ending = "_motion.tsv";
constexpr std::array<std::string_view, 2> sidecar_endings{"_channels.tsv", "_motion.json"};
constexpr std::array<std::string_view, 4> description_endings{"_channels.tsv", "_events.tsv", "_scans.tsv",
                                                              "_sessions.tsv"};

/// The path with another ending in place of one that it has.
std::filesystem::path with_ending(const std::filesystem::path& path, std::string_view has, std::string_view wanted) {
    std::string text = path.string();
    text.resize(text.size() - has.size());
    return text + std::string(wanted);
}

}  // namespace

bool is_of_standard(const std::filesystem::path& path) {
    return is_bids_motion(path) || is_edf(path);
}

std::vector<std::filesystem::path> recording_files(const std::filesystem::path& path) {
    std::vector<std::filesystem::path> files{path};
    if (!is_bids_motion(path) || !std::filesystem::exists(path)) {  // that it is missing is told when it is opened
        return files;
    }
    for (const std::string_view ending : sidecar_endings) {
        files.push_back(with_ending(path, motion_ending, ending));
        if (!std::filesystem::exists(files.back())) {
            throw Failure(FailureKind::missing_file, "sidecar-missing",
                          fmt::format("there is no such file, and it describes {}", path.filename().string()),
                          "Put it beside the motion file; folders further up are not looked in.",
                          {files.back().string()});
        }
    }
    return files;
}

bool is_description(const std::filesystem::path& path) {
    const std::string name = path.filename().string();
    const auto ends_name = [&](std::string_view ending) { return name.ends_with(ending); };
    const auto sidecar = std::ranges::find_if(sidecar_endings, ends_name);
    return (sidecar != sidecar_endings.end() && std::filesystem::exists(with_ending(path, *sidecar, motion_ending))) ||
           (name.starts_with("sub-") && std::ranges::any_of(description_endings, ends_name));
}

}  // namespace jointrom
