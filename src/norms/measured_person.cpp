#include <jointrom/norms/measured_person.hpp>

#include <norms/plausible_reach.hpp>

#include <jointrom/core/failure.hpp>
#include <jointrom/core/number_text.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <cctype>
#include <cmath>
#include <numbers>

namespace jointrom {
namespace {

constexpr double deg_per_rad = 180.0 / std::numbers::pi;
constexpr double infinite = std::numeric_limits<double>::infinity();

/// The mean of trials, with the uncertainty of the least certain of them.
struct MeanExtent {
    double sum_deg = 0.0;
    std::size_t count = 0;
    Budget budget;

    void add(const MeasuredExtent& measured) {
        sum_deg += measured.extent.value();
        ++count;
        if (measured.budget.standard_uncertainty() > budget.standard_uncertainty()) {
            budget = measured.budget;
        }
    }
    [[nodiscard]] SideExtent extent() const { return {Degrees(sum_deg / static_cast<double>(count)), budget}; }
};

struct SideGroup {
    const MeasuredPerson* first;
    MotionPart part;
    MeanExtent left, right;
};

bool is_same(const MeasuredPerson& a, const MeasuredPerson& b) {
    return a.participant == b.participant && a.motion == b.motion && a.condition == b.condition && a.mode == b.mode;
}

}  // namespace

std::optional<MotionMode> find_mode_in(std::string_view condition) {
    std::string word;
    for (const char c : std::string(condition) + " ") {
        if (std::isalpha(static_cast<unsigned char>(c)) != 0) {
            word += static_cast<char>(std::tolower(static_cast<unsigned char>(c)));
            continue;
        }
        if (word == "active" || word == "passive") {
            return mode_named(word);
        }
        word.clear();
    }
    return std::nullopt;
}

Budget stated_budget(double u_deg, double expanded_u95_deg) {
    Budget budget;
    if (!(u_deg > 0.0)) {
        return budget;
    }
    constexpr double largest_dof = 1000.0;  // beyond, the normal distribution holds to three digits
    const double k = expanded_u95_deg / u_deg;
    double dof = infinite;
    for (double candidate = 1.0; candidate <= largest_dof && std::isfinite(k); ++candidate) {
        if (student_factor(0.95, candidate) <= k * (1.0 + 1e-4)) {
            dof = candidate;
            break;
        }
    }
    budget.add({.input = "stated", .u = u_deg, .degrees_of_freedom = dof});
    return budget;
}

void check_plausible(const JointMotion& motion, const MeasuredExtent& measured) {
    if (!motion.is_known()) {
        return;
    }
    const auto [low, high] = plausible_reach(motion, measured.part);
    const double extent_deg = measured.extent.value();
    if (extent_deg >= low && extent_deg <= high) {
        return;
    }
    const double from_rad = extent_deg / deg_per_rad;
    throw Failure(
        FailureKind::usage, "value-implausible",
        fmt::format("{} of {} deg is beyond what the {} can reach, {} to {} deg", name_of(measured.part, motion),
                    shortest_text(extent_deg), motion.joint, shortest_text(low), shortest_text(high)),
        fmt::format("Check joint, direction and sign: an extent counts beyond neutral, so an elbow that stays "
                    "4 deg short of straight has an extension of -4.{}",
                    std::abs(from_rad) > high ? " Is it in another unit than degrees?" : ""));
}

bool JudgedPerson::is_outside() const {
    return std::ranges::any_of(extents, [](const ExtentJudgement& judged) {
        return judged.verdict() == LimitVerdict::below || judged.verdict() == LimitVerdict::above;
    });
}

bool JudgedPerson::has_judgement() const {
    return std::ranges::any_of(extents, [](const ExtentJudgement& judged) { return !judged.judgements.empty(); });
}

JudgedPerson judge_person(const NormTable& table, const MeasuredPerson& person, const JudgingOptions& options) {
    JudgedPerson result{.person = person};
    const NormQuery query{
        .motion = person.motion, .sex = person.sex, .age_years = person.age_years, .mode = person.mode};
    for (const MeasuredExtent& measured : person.extents) {
        const bool has_rows = std::ranges::any_of(
            table.rows(), [&](const NormRow& row) { return row.motion == person.motion && row.part == measured.part; });
        if (has_rows || measured.part != MotionPart::arc || person.extents.size() == 1) {
            result.extents.push_back(judge_extent(table, query, measured, options));
        }
    }
    return result;
}

std::vector<SidePair> side_pairs(std::span<const MeasuredPerson> people, CommonTo common) {
    std::vector<SideGroup> groups;
    for (const MeasuredPerson& person : people) {
        if (person.side == Side::unknown || person.motion == nullptr) {
            continue;
        }
        for (const MeasuredExtent& measured : person.extents) {
            auto group = std::ranges::find_if(
                groups, [&](const SideGroup& g) { return g.part == measured.part && is_same(*g.first, person); });
            if (group == groups.end()) {
                group = groups.insert(groups.end(), {&person, measured.part, {}, {}});
            }
            (person.side == Side::left ? group->left : group->right).add(measured);
        }
    }
    std::vector<SidePair> pairs;
    for (const SideGroup& group : groups) {
        if (group.left.count == 0 || group.right.count == 0) {
            continue;
        }
        const JointMotion& motion = *group.first->motion;
        pairs.push_back({.participant = group.first->participant,
                         .motion = &motion,
                         .part = group.part,
                         .condition = group.first->condition,
                         .left_trials = group.left.count,
                         .right_trials = group.right.count,
                         .comparison = compare_sides(group.left.extent(), group.right.extent(),
                                                     side_limit(motion, group.part), common)});
    }
    return pairs;
}

}  // namespace jointrom
