#include <jointrom/movement/still_postures.hpp>

#include <jointrom/core/failure.hpp>
#include <jointrom/core/number_text.hpp>

#include <algorithm>
#include <cmath>
#include <limits>

namespace jointrom {
namespace {

using Assignment = std::vector<std::optional<std::size_t>>;

struct Pairing {
    std::span<const StillPosture> postures;
    std::span<const double> expected_deg;
    double tolerance_deg;

    [[nodiscard]] double deviation(std::size_t e, std::size_t p) const {
        return std::abs(postures[p].mean.value() - expected_deg[e]);
    }
    [[nodiscard]] bool fits(std::size_t e, std::size_t p) const { return deviation(e, p) <= tolerance_deg; }
};

/// Best alignment of two sequences: most matches first, then the smallest sum of deviations.
Assignment assigned_in_order(const Pairing& pairing) {
    struct Score {
        std::size_t matches = 0;
        double deviation = 0.0;
        [[nodiscard]] bool better_than(const Score& other) const {
            return matches != other.matches ? matches > other.matches : deviation < other.deviation;
        }
    };
    const std::size_t rows = pairing.expected_deg.size();
    const std::size_t columns = pairing.postures.size();
    // best[e][p]: the best score of the expected angles from e and the postures from p on.
    std::vector<std::vector<Score>> best(rows + 1, std::vector<Score>(columns + 1));
    const auto matched = [&](std::size_t e, std::size_t p) {
        const Score& after = best[e + 1][p + 1];
        return Score{after.matches + 1, after.deviation + pairing.deviation(e, p)};
    };
    for (std::size_t e = rows; e-- > 0;) {
        for (std::size_t p = columns; p-- > 0;) {
            best[e][p] = best[e + 1][p].better_than(best[e][p + 1]) ? best[e + 1][p] : best[e][p + 1];
            if (pairing.fits(e, p) && matched(e, p).better_than(best[e][p])) {
                best[e][p] = matched(e, p);
            }
        }
    }
    Assignment result(rows);
    for (std::size_t e = 0, p = 0; e < rows && p < columns;) {
        const Score& here = best[e][p];
        if (!best[e][p + 1].better_than(here) && !here.better_than(best[e][p + 1])) {
            ++p;
        } else if (!best[e + 1][p].better_than(here) && !here.better_than(best[e + 1][p])) {
            ++e;
        } else {
            result[e++] = p++;
        }
    }
    return result;
}

Assignment assigned_to_nearest(const Pairing& pairing) {
    struct Pair {
        std::size_t e;
        std::size_t p;
    };
    std::vector<Pair> pairs;
    for (std::size_t e = 0; e < pairing.expected_deg.size(); ++e) {
        for (std::size_t p = 0; p < pairing.postures.size(); ++p) {
            if (pairing.fits(e, p)) {
                pairs.push_back({e, p});
            }
        }
    }
    std::ranges::stable_sort(pairs, {}, [&](const Pair& pair) { return pairing.deviation(pair.e, pair.p); });
    Assignment result(pairing.expected_deg.size());
    std::vector<bool> taken(pairing.postures.size(), false);
    for (const auto& [e, p] : pairs) {
        if (!result[e] && !taken[p]) {
            result[e] = p;
            taken[p] = true;
        }
    }
    return result;
}

}  // namespace

ExpectedMatches match_expected(std::span<const StillPosture> postures, std::span<const double> expected_deg,
                               PostureMatching matching, Degrees tolerance) {
    if (!(tolerance.value() >= 0.0)) {
        throw Failure(FailureKind::usage, "tolerance-negative",
                      "the tolerance of an expected angle must not be negative", "Give a tolerance of 0 deg or more.");
    }
    const Pairing pairing{postures, expected_deg, tolerance.value()};
    const Assignment assignment =
        matching == PostureMatching::in_order ? assigned_in_order(pairing) : assigned_to_nearest(pairing);
    ExpectedMatches result;
    std::vector<bool> used(postures.size(), false);
    for (std::size_t e = 0; e < assignment.size(); ++e) {
        ExpectedMatch match{.expected = Degrees(expected_deg[e]), .posture = assignment[e], .deviation = {}};
        if (match.posture) {
            match.deviation = postures[*match.posture].mean - match.expected;
            used[*match.posture] = true;
        } else {
            result.findings.emplace_back("expected-unmatched", "no posture within " + shortest_text(tolerance.value()) +
                                                                   " deg of the expected " +
                                                                   shortest_text(expected_deg[e]) + " deg was held");
        }
        result.matches.push_back(match);
    }
    for (std::size_t p = 0; p < used.size(); ++p) {
        if (!used[p]) {
            result.extra_postures.push_back(p);
        }
    }
    return result;
}

}  // namespace jointrom
