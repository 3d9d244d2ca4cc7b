#include "emg/activity_reference.hpp"

#include "emg/activity_pairs.hpp"

#include <jointrom/core/failure.hpp>
#include <jointrom/core/near_miss.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace jointrom {
namespace {

/// The muscle's own maximum, else the one for all.
double maximum_for(const std::string& muscle, std::span<const MuscleMaximum> maxima) {
    const auto own = std::ranges::find_if(
        maxima, [&](const MuscleMaximum& maximum) { return edit_distance(maximum.muscle, muscle) == 0; });
    const auto found = own == maxima.end() ? std::ranges::find(maxima, "", &MuscleMaximum::muscle) : own;
    if (found == maxima.end()) {
        throw Failure(FailureKind::usage, "mvc-missing", fmt::format("--mvc: no maximum is known for '{}'", muscle),
                      fmt::format("Add --mvc \"{}=VALUE\", a recording of its maximal contraction, or use "
                                  "--normalise peak.",
                                  muscle));
    }
    return found->value;
}

}  // namespace

void check_maxima(const ActivityResult& result, std::span<const MuscleMaximum> maxima) {
    for (const MuscleMaximum& maximum : maxima) {
        if (!maximum.muscle.empty()) {
            (void)muscle_named(result, maximum.muscle, "--mvc");
        }
        if (!(maximum.value > 0.0) || !std::isfinite(maximum.value)) {
            throw Failure(
                FailureKind::usage, "mvc-invalid",
                fmt::format("--mvc: a maximum of {:g}{}{} cannot be compared with", maximum.value,
                            maximum.muscle.empty() ? "" : " for ", maximum.muscle),
                "It is the mean rectified activity of a maximal contraction, in the channel's unit, above 0.");
        }
    }
}

void find_reference(const ActivityOptions& options, SampleSpan measured, MuscleActivity& muscle, Findings& findings) {
    const EmgSignal& signal = muscle.signal;
    switch (options.normalisation) {
    case Normalisation::none:
        muscle.unit = signal.unit.empty() ? "reading" : signal.unit;
        return;
    case Normalisation::peak:
        muscle.unit = "% of peak";
        muscle.reference = peak_of(signal, measured);
        return;
    case Normalisation::mvc:
        break;
    }
    muscle.unit = "% of MVC";
    muscle.reference = maximum_for(signal.name, options.maxima);
    constexpr double clearly_more = 1.2;  // the envelope's peak may exceed a mean over half a second
    if (const double peak = peak_of(signal, measured); peak > clearly_more * muscle.reference) {
        findings.emplace_back("mvc-exceeded", fmt::format("'{}': reaches {:.4g} % of its maximum", signal.name,
                                                          100.0 * peak / muscle.reference));
    }
}

}  // namespace jointrom
