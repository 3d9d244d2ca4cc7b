#include <jointrom/movement/neutral_zero_notation.hpp>

#include <cassert>
#include <cmath>
#include <cstdlib>

namespace jointrom {
namespace {

long whole(Degrees angle) {
    return std::lround(angle.value());
}

std::string joined(long a, long b) {
    return std::to_string(a) + "-" + std::to_string(b);
}

std::string numbers(long negative_end, long positive_end) {
    if (negative_end == positive_end) {
        return negative_end < 0 ? joined(-negative_end, 0) : joined(0, positive_end);
    }
    if (negative_end >= 0) {
        return joined(0, negative_end) + "-" + std::to_string(positive_end);
    }
    if (positive_end <= 0) {
        return joined(-negative_end, -positive_end) + "-0";
    }
    return joined(-negative_end, 0) + "-" + std::to_string(positive_end);
}

}  // namespace

NeutralZeroNotation neutral_zero_notation(Degrees negative_end, Degrees positive_end, const JointMotion& motion) {
    assert(negative_end <= positive_end);
    return {motion.negative + "-" + motion.positive, numbers(whole(negative_end), whole(positive_end))};
}

std::string range_end_in_words(Degrees angle, RangeEnd end, const JointMotion& motion) {
    const bool is_positive = end == RangeEnd::positive;
    const long reached = is_positive ? whole(angle) : -whole(angle);
    const std::string start = (is_positive ? motion.positive : motion.negative) + " to ";
    if (reached == 0) {
        return start + "neutral";
    }
    const std::string size = start + std::to_string(std::labs(reached)) + " deg";
    if (reached < 0) {
        return size + " short of neutral";
    }
    return is_positive ? size : size + " beyond neutral";
}

}  // namespace jointrom
