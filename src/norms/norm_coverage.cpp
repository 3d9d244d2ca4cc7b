#include <jointrom/norms/norm_coverage.hpp>

#include <jointrom/norms/norm_band.hpp>

#include <algorithm>
#include <array>

namespace jointrom {
namespace {

constexpr std::size_t ages = 100;
using AgeSet = std::array<bool, ages>;

std::vector<AgeSpan> spans_of(const AgeSet& set) {
    std::vector<AgeSpan> spans;
    for (std::size_t age = 0; age < ages; ++age) {
        if (!set[age]) {
            continue;
        }
        const int years = static_cast<int>(age);
        if (spans.empty() || spans.back().last_years + 1 != years) {
            spans.push_back({years, years});
        }
        spans.back().last_years = years;
    }
    return spans;
}

NormCoverage coverage_of(const NormTable& table, const NormQuery& query, const std::string& source) {
    NormCoverage result{query.motion, query.part, *query.sex, *query.mode, {}, {}, {}};
    AgeSet with_band{};
    AgeSet without_band{};
    AgeSet uncovered{};
    uncovered.fill(true);
    for (const NormRow& row : table.rows()) {
        const bool is_other = row.motion != query.motion || row.part != query.part ||
                              (row.sex && row.sex != query.sex) || (row.mode && row.mode != query.mode) ||
                              (!source.empty() && row.source != source);
        if (is_other) {
            continue;
        }
        if (!row.has_age()) {
            result.has_any_age = true;
            continue;
        }
        const bool has_band = normal_band(row).has_value();
        for (std::size_t age = 0; age < ages; ++age) {
            if (holds_age(row, static_cast<double>(age))) {
                (has_band ? with_band : without_band)[age] = true;
                uncovered[age] = false;
            }
        }
    }
    for (std::size_t age = 0; age < ages; ++age) {
        without_band[age] = without_band[age] && !with_band[age];
    }
    result.with_band = spans_of(with_band);
    result.without_band = spans_of(without_band);
    result.uncovered = spans_of(uncovered);
    return result;
}

}  // namespace

std::string span_text(const std::vector<AgeSpan>& spans) {
    std::string text;
    for (const AgeSpan& span : spans) {
        text += (text.empty() ? "" : ", ") + std::to_string(span.first_years);
        if (span.last_years > span.first_years) {
            text += "-" + std::to_string(span.last_years);
        }
    }
    return text;
}

std::vector<NormCoverage> norm_coverage(const NormTable& table, const NormFilter& filter) {
    std::vector<NormCoverage> result;
    for (const NamedPart& wanted : filtered_parts(table, filter)) {
        for (const MotionPart part : {MotionPart::positive, MotionPart::negative}) {
            if (wanted.part != MotionPart::arc && wanted.part != part) {
                continue;
            }
            for (const Sex sex : {Sex::female, Sex::male}) {
                for (const MotionMode mode : {MotionMode::active, MotionMode::passive}) {
                    if (filter.sex.value_or(sex) != sex || filter.mode.value_or(mode) != mode) {
                        continue;
                    }
                    NormCoverage coverage = coverage_of(
                        table, {.motion = wanted.motion, .part = part, .sex = sex, .mode = mode}, filter.source);
                    const bool holds = std::ranges::any_of(coverage.uncovered, [&](const AgeSpan& span) {
                        return !filter.age_years ||
                               (*filter.age_years >= span.first_years && *filter.age_years < span.last_years + 1);
                    });
                    if (!filter.age_years || holds) {
                        result.push_back(std::move(coverage));
                    }
                }
            }
        }
    }
    return result;
}

}  // namespace jointrom
