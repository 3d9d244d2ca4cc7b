#include <jointrom/batch/class_list.hpp>

#include <fmt/format.h>

#include <algorithm>

namespace jointrom {
namespace {

constexpr std::size_t most_shown = 20;

[[noreturn]] void refuse_outside(std::string_view name, std::string_view why) {
    throw Failure(FailureKind::usage, "path-outside", fmt::format("'{}' {}", name, why),
                  "Name files relative to the manifest's folder, and inside it.");
}

bool climbs_out(const std::filesystem::path& relative) {
    return !relative.empty() && *relative.begin() == "..";
}

/// A link may lead anywhere; what stands in the folder itself is inside.
bool leads_out(const std::filesystem::path& folder, const std::filesystem::path& relative) {
    std::filesystem::path part = folder;
    std::error_code none;
    for (const std::filesystem::path& step : relative) {
        part /= step;
        if (std::filesystem::is_symlink(std::filesystem::symlink_status(part, none))) {
            const auto root = std::filesystem::weakly_canonical(folder, none);
            return climbs_out(std::filesystem::weakly_canonical(folder / relative, none).lexically_relative(root));
        }
    }
    return false;
}

}  // namespace

void refuse_problems(const std::vector<Failure>& problems) {
    if (problems.empty()) {
        return;
    }
    if (problems.size() == 1) {
        throw problems.front();
    }
    std::string text = fmt::format("{} problems, nothing was done:", problems.size());
    for (std::size_t i = 0; i < std::min(problems.size(), most_shown); ++i) {
        const Failure& problem = problems[i];
        const std::string place = problem.place().text();
        text += fmt::format("\n  {}{}{}", place, place.empty() ? "" : ": ", problem.what());
        text += problem.advice().empty() ? "" : ". " + problem.advice();
    }
    if (problems.size() > most_shown) {
        text += fmt::format("\n  and {} more", problems.size() - most_shown);
    }
    throw Failure(problems.front().kind(), "class-list-invalid", text, {}, {problems.front().place().file});
}

std::filesystem::path path_inside(const std::filesystem::path& folder, std::string_view name) {
    std::string text(name);
    std::ranges::replace(text, '\\', '/');
    const std::filesystem::path relative = std::filesystem::path(text).lexically_normal();
    if (relative.is_absolute() || (text.size() > 1 && text[1] == ':')) {
        refuse_outside(name, "is an absolute path");
    }
    if (climbs_out(relative)) {
        refuse_outside(name, "lies outside the folder");
    }
    if (leads_out(folder, relative)) {
        refuse_outside(name, "is a link that leads out of the folder");
    }
    return folder / relative;
}

}  // namespace jointrom
