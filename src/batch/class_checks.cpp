#include "batch/class_groups.hpp"

#include <jointrom/batch/class_checks.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace jointrom {
namespace {

using Tasks = std::span<const TrialTask>;
using Rows = std::span<const TrialRow>;

std::string who(const TrialSubject& s) {
    return s.participant.empty() ? s.file : fmt::format("{} ({})", s.participant, s.file);
}

void check_files(Rows rows, Findings& findings) {
    std::map<std::string_view, const TrialRow*> seen;
    for (const TrialRow& row : rows) {
        if (row.input_sha256.empty()) {
            continue;
        }
        const auto [first, is_new] = seen.emplace(row.input_sha256, &row);
        if (!is_new && first->second->subject.file != row.subject.file) {
            findings.emplace_back("recording-repeated", fmt::format("{} holds the same bytes as {}", who(row.subject),
                                                                    who(first->second->subject)));
        }
    }
}

void check_trials(Rows rows, Findings& findings) {
    const Groups groups = grouped(rows, [](const TrialRow& row) {
        const TrialSubject& s = row.subject;
        return s.participant.empty() ? std::string()
                                     : fmt::format("{}\n{}\n{}\n{}\n{}\n{}\n{}\n{}", s.participant, s.side, s.joint,
                                                   s.motion, s.condition, s.trial, s.rater, s.load_kg);
    });
    for (const auto& [key, members] : groups) {
        if (members.size() > 1) {
            const TrialRow& first = rows[members.front()];
            findings.emplace_back("trial-repeated",
                                  fmt::format("{} recordings are the same trial of {}, such as {} and {}",
                                              members.size(), first.subject.participant, first.subject.file,
                                              rows[members[1]].subject.file));
        }
    }
}

void check_people(Rows rows, Findings& findings) {
    for (const auto& [participant, members] : grouped(rows, participant_of)) {
        double youngest = std::numeric_limits<double>::infinity(), oldest = -youngest;
        bool female = false, male = false;
        for (const std::size_t i : members) {
            const TrialSubject& s = rows[i].subject;
            youngest = std::isnan(s.age_years) ? youngest : std::min(youngest, s.age_years);
            oldest = std::isnan(s.age_years) ? oldest : std::max(oldest, s.age_years);
            female = female || s.sex == "F";
            male = male || s.sex == "M";
        }
        if (oldest - youngest > 1.0) {  // a birthday may lie between
            findings.emplace_back("participant-contradiction",
                                  fmt::format("{} is {} and {} years old", participant, youngest, oldest));
        }
        if (female && male) {
            findings.emplace_back("participant-contradiction", fmt::format("{} is F and M", participant));
        }
    }
}

/// YYYY-MM-DD or YYYYMMDD in a file's name, as YYYY-MM-DD; empty when there is none.
std::string date_in(const std::string& file) {
    std::string digits;
    for (const char c : std::filesystem::path(file).stem().string() + " ") {
        if (c >= '0' && c <= '9') {
            digits += c;
        } else if (digits.size() == 8 && digits.starts_with("20")) {
            break;
        } else if (c != '-' || (digits.size() != 4 && digits.size() != 6)) {
            digits.clear();
        }
    }
    const bool is_date = digits.size() == 8 && digits.starts_with("20");
    return is_date ? digits.substr(0, 4) + "-" + digits.substr(4, 2) + "-" + digits.substr(6) : std::string();
}

const Calibration* calibration_of(const TrialTask& task) {
    return task.references->files.calibration ? &*task.references->files.calibration : nullptr;
}

void check_calibration_sides(Rows rows, Tasks tasks, Findings& findings) {
    bool has_side[3] = {};
    for (const TrialTask& task : tasks) {
        if (const Calibration* calibration = calibration_of(task)) {
            has_side[static_cast<std::size_t>(calibration->side)] = true;
        }
    }
    for (std::size_t i = 0; i < rows.size(); ++i) {
        const Calibration* calibration = calibration_of(tasks[i]);
        const std::string& side = rows[i].subject.side;
        if (calibration == nullptr || side.empty() || calibration->side == Side::unknown ||
            name_of(calibration->side) == side || !has_side[static_cast<std::size_t>(side_named(side))]) {
            continue;
        }
        findings.emplace_back(
            "calibration-other-side",
            fmt::format("{}: {} side, calibrated on the {}; the class has a calibration of the {} side",
                        who(rows[i].subject), side, name_of(calibration->side), side));
    }
}

void check_calibrations(Rows rows, Tasks tasks, Findings& findings) {
    std::size_t calibrated = 0;
    for (std::size_t i = 0; i < rows.size(); ++i) {
        const TrialTask& task = tasks[i];
        calibrated += task.calibration_file.empty() ? 0U : 1U;
        const std::string made = task.calibration_date.empty() ? date_in(task.calibration_file) : task.calibration_date;
        if (!task.date.empty() && !made.empty() && made != task.date) {
            const std::string dates = task.hidden.empty() ? fmt::format(": {} and {}", task.date, made) : "";
            findings.emplace_back("calibration-other-date", fmt::format("{} was recorded and calibrated on two days{}",
                                                                        who(rows[i].subject), dates));
        }
    }
    for (std::size_t i = 0; 2 * calibrated > rows.size() && i < rows.size(); ++i) {
        if (tasks[i].calibration_file.empty()) {
            findings.emplace_back("calibration-not-used", fmt::format("{} uses no calibration, {} of {} recordings do",
                                                                      who(rows[i].subject), calibrated, rows.size()));
        }
    }
    check_calibration_sides(rows, tasks, findings);
}

std::string joint_of(const TrialRow& row) {
    return row.done ? fmt::format("{}\n{}", row.subject.joint, row.subject.motion) : std::string();
}

void check_units(Rows rows, Findings& findings) {
    for (const auto& [joint, members] : grouped(rows, joint_of)) {
        const auto unit = majority(rows, members, [](const TrialRow& row) { return row.reading_unit; });
        std::vector<double> arcs;
        for (const std::size_t i : members) {
            arcs.push_back(rows[i].arc.value);
        }
        std::ranges::nth_element(arcs, arcs.begin() + static_cast<std::ptrdiff_t>(arcs.size() / 2));
        const double median_deg = arcs[arcs.size() / 2];
        for (const std::size_t i : members) {
            const TrialRow& row = rows[i];
            if (unit && row.reading_unit != *unit) {
                findings.emplace_back("unit-differs", fmt::format("{} was read in '{}', most of the class in '{}'",
                                                                  who(row.subject), row.reading_unit, *unit));
            } else if (members.size() > 3 && (row.arc.value < median_deg / 20.0 || row.arc.value > 20.0 * median_deg)) {
                findings.emplace_back("unit-differs",
                                      fmt::format("{} has an arc of {:.2f} deg, the class's median is {:.2f} deg",
                                                  who(row.subject), row.arc.value, median_deg));
            }
        }
    }
}

/// Which way the readings of a side go: most of the class, and one participant.
struct Direction {
    std::optional<std::string> left, right;
};

Direction direction_of(Rows rows, std::span<const std::size_t> members, std::size_t least) {
    const auto of_side = [&](std::string_view side) {
        std::vector<std::size_t> some;
        std::ranges::copy_if(members, std::back_inserter(some),
                             [&](std::size_t i) { return rows[i].subject.side == side; });
        return majority(
            rows, some, [](const TrialRow& row) { return row.reading_direction; }, least);
    };
    return {of_side("left"), of_side("right")};
}

void check_directions(Rows rows, Findings& findings) {
    for (const auto& [joint, members] : grouped(rows, joint_of)) {
        const Direction usual = direction_of(rows, members, 3);
        std::map<std::string, std::vector<std::size_t>> people;
        for (const std::size_t i : members) {
            people[rows[i].subject.participant].push_back(i);
        }
        people.erase("");
        for (const auto& [participant, own] : people) {
            const Direction here = direction_of(rows, own, 1);
            const bool left = usual.left && here.left && *here.left != *usual.left;
            const bool right = usual.right && here.right && *here.right != *usual.right;
            if (left && right && *usual.left != *usual.right) {
                findings.emplace_back(
                    "sides-swapped",
                    fmt::format("{}: the left reading is {} and the right one {}, in most of the class "
                                "the other way round",
                                participant, *here.left, *here.right));
            } else if (left || right) {
                const std::string& way = left ? *here.left : *here.right;
                findings.emplace_back("reading-direction-differs",
                                      fmt::format("{}: the {} reading is {}, in most of the class {}", participant,
                                                  left ? "left" : "right", way, left ? *usual.left : *usual.right));
            }
        }
    }
}

/// Left minus right of each trial of one participant that has both.
std::map<std::string, double> side_differences(Rows rows, std::span<const std::size_t> members) {
    std::map<std::string, std::pair<double, double>> arcs;
    for (const std::size_t i : members) {
        const TrialRow& row = rows[i];
        auto& pair = arcs.try_emplace(row.subject.trial, TrialRow::none, TrialRow::none).first->second;
        (row.subject.side == "left" ? pair.first : pair.second) = row.arc.value;
    }
    std::map<std::string, double> differences;
    for (const auto& [trial, pair] : arcs) {
        if (!std::isnan(pair.first - pair.second)) {
            differences.emplace(trial, pair.first - pair.second);
        }
    }
    return differences;
}

void check_sides(Rows rows, Findings& findings) {
    constexpr double least_deg = 10.0;  // what testers differ by at most is 5 (D. C. Boone et al. 1978); twice that
    const Groups groups = grouped(rows, [](const TrialRow& row) {
        const TrialSubject& s = row.subject;
        return !row.done || s.participant.empty() || s.side.empty() || s.trial.empty()
                   ? std::string()
                   : fmt::format("{}\n{}\n{}\n{}", s.participant, s.joint, s.motion, s.condition);
    });
    for (const auto& [key, members] : groups) {
        const auto differences = side_differences(rows, members);
        const auto is_left = [](const auto& entry) { return entry.second > least_deg; };
        const auto is_right = [](const auto& entry) { return entry.second < -least_deg; };
        const auto lefts = std::ranges::count_if(differences, is_left);
        const auto rights = std::ranges::count_if(differences, is_right);
        const bool is_clear = differences.size() >= 3 && lefts + rights == std::ssize(differences);
        if (is_clear && (lefts == 1 || rights == 1)) {
            const auto odd =
                lefts == 1 ? std::ranges::find_if(differences, is_left) : std::ranges::find_if(differences, is_right);
            findings.emplace_back(
                "sides-swapped",
                fmt::format("{}, trial {}: left less right is {:.1f} deg, in the other trials it has the "
                            "other sign",
                            rows[members.front()].subject.participant, odd->first, odd->second));
        }
    }
}

}  // namespace

Findings class_findings(Rows rows, Tasks tasks) {
    Findings findings;
    check_files(rows, findings);
    check_trials(rows, findings);
    check_people(rows, findings);
    check_calibrations(rows, tasks, findings);
    check_units(rows, findings);
    check_directions(rows, findings);
    check_sides(rows, findings);
    return findings;
}

}  // namespace jointrom
