#include <jointrom/norms/side_comparison.hpp>

#include <jointrom/norms/measurement_error.hpp>

#include <cmath>

namespace jointrom {

SideLimit side_limit(const JointMotion& motion, MotionPart part, Degrees least) {
    const std::optional<ChangeLimit> detectable = detectable_change(motion, part);
    if (detectable && detectable->value > least) {
        return {detectable->value, detectable->what + " (" + detectable->source + ")"};
    }
    return {least, "common practice, after what testers differ by (boone1978)"};
}

SideComparison compare_sides(const SideExtent& left, const SideExtent& right, const SideLimit& limit, CommonTo common) {
    SideComparison result{.left = left.extent, .right = right.extent, .difference = left.extent - right.extent};
    result.limit = limit;
    const double size_deg = std::abs(result.difference.value());
    result.is_larger = size_deg > limit.limit.value();
    if (!left.budget.lines().empty() && !right.budget.lines().empty()) {
        result.budget = difference(left.budget, right.budget, common);
        result.is_certain = std::abs(size_deg - limit.limit.value()) > result.budget.expanded_uncertainty();
    }
    return result;
}

std::string in_words(const SideComparison& comparison) {
    return std::string(comparison.is_certain || comparison.budget.lines().empty() ? "" : "perhaps ") +
           (comparison.is_larger ? "larger than" : "within") + " usual measurement error";
}

}  // namespace jointrom
