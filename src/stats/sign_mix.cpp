#include <jointrom/stats/sign_mix.hpp>

#include <jointrom/stats/descriptive.hpp>

#include <vector>

namespace jointrom {

SignMix sign_mix(std::span<const double> values) {
    std::vector<double> negative;
    std::vector<double> positive;
    for (const double value : values) {
        if (value != 0.0 && value == value) {
            (value < 0.0 ? negative : positive).push_back(value);
        }
    }
    SignMix result{negative.size(), positive.size(), 0.0};
    if (negative.size() < 2 || positive.size() < 2) {
        return result;
    }
    const Description below = describe(negative);
    const Description above = describe(positive);
    const auto within = [](const Description& part) {
        return part.sd * part.sd * (static_cast<double>(part.count) - 1.0);
    };
    const auto n = static_cast<double>(negative.size());
    const auto p = static_cast<double>(positive.size());
    const double distance = above.mean - below.mean;
    const double between = n * p / (n + p) * distance * distance;
    result.share = between / (between + within(below) + within(above));
    return result;
}

}  // namespace jointrom
