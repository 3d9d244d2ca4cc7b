#include <jointrom/norms/norm_row.hpp>

#include <jointrom/core/failure.hpp>
#include <jointrom/core/number_text.hpp>

#include <cmath>

namespace jointrom {
namespace {

std::string small_letters(std::string_view text) {
    std::string result;
    for (const char c : text) {
        result += c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
    }
    return result;
}

}  // namespace

Sex sex_named(std::string_view text) {
    const std::string name = small_letters(text);
    if (name == "f" || name == "female" || name == "w" || name == "woman" || name == "girl") {
        return Sex::female;
    }
    if (name == "m" || name == "male" || name == "man" || name == "boy") {
        return Sex::male;
    }
    throw Failure(FailureKind::usage, "sex-unknown", "no sex is called '" + std::string(text) + "'", "Write F or M.");
}

std::string_view name_of(Sex sex) {
    return sex == Sex::female ? "F" : "M";
}

MotionMode mode_named(std::string_view text) {
    const std::string name = small_letters(text);
    if (name == "active" || name == "a") {
        return MotionMode::active;
    }
    if (name == "passive" || name == "p") {
        return MotionMode::passive;
    }
    throw Failure(FailureKind::usage, "mode-unknown", "motion is not called '" + std::string(text) + "'",
                  "Write active (the person moves the joint) or passive (the examiner does).");
}

std::string_view name_of(MotionMode mode) {
    return mode == MotionMode::active ? "active" : "passive";
}

std::string_view name_of(Provenance provenance) {
    switch (provenance) {
    case Provenance::found:
        return "found";
    case Provenance::secondary:
        return "secondary";
    case Provenance::memory:
        break;
    }
    return "memory";
}

std::string_view name_of(NormValueKind kind) {
    switch (kind) {
    case NormValueKind::mean:
        return "mean";
    case NormValueKind::median:
        return "median";
    case NormValueKind::single:
        return "single";
    case NormValueKind::at_least:
        break;
    }
    return "at least";
}

std::string_view name_of(SdBasis basis) {
    switch (basis) {
    case SdBasis::none:
        return "";
    case SdBasis::reported:
        return "reported";
    case SdBasis::derived:
        break;
    }
    return "derived";
}

bool NormRow::has_age() const noexcept {
    return !std::isnan(age_min_years) || !std::isnan(age_max_years);
}

bool NormRow::is_from_memory() const noexcept {
    return provenance == Provenance::memory || spread_provenance == Provenance::memory;
}

std::string age_text(const NormRow& row) {
    const std::string low = shortest_text(row.age_min_years);
    const std::string high = shortest_text(row.age_max_years);
    if (!row.has_age()) {
        return "any age";
    }
    if (high.empty()) {
        return low + " y and over";
    }
    return low.empty() ? "up to " + high + " y" : low + "-" + high + " y";
}

std::string_view sex_text(const NormRow& row) {
    return row.sex ? name_of(*row.sex) : "both";
}

std::string_view mode_text(const NormRow& row) {
    return row.mode ? name_of(*row.mode) : "unstated";
}

}  // namespace jointrom
