#include <jointrom/emg/emg_form.hpp>

#include "emg/enough_segments.hpp"
#include "emg/longest_run.hpp"

#include <jointrom/signal/spectrum.hpp>
#include <jointrom/stats/descriptive.hpp>
#include <jointrom/stats/quantile.hpp>

#include <array>
#include <cmath>

namespace jointrom {
namespace {

/// Share of the power, without the mean, below 10 Hz.
double slow_share(std::span<const double> samples, Hertz rate) {
    constexpr double slow_hz = 10.0;
    const auto two_seconds = static_cast<std::size_t>(std::max(16.0, 2.0 * rate.value()));
    const Spectrum density =
        welch(longest_run(samples), rate, {.segment = two_seconds, .most_segments = enough_segments});
    double slow = 0.0;
    double all = 0.0;
    for (std::size_t k = 0; k < density.values.size(); ++k) {
        all += density.values[k];
        slow += density.frequency_hz[k] <= slow_hz ? density.values[k] : 0.0;
    }
    return all > 0.0 ? slow / all : 0.0;
}

}  // namespace

std::string_view name_of(EmgForm form) {
    switch (form) {
    case EmgForm::raw:
        return "raw";
    case EmgForm::rectified:
        return "rectified";
    case EmgForm::envelope:
        break;
    }
    return "envelope";
}

EmgForm emg_form_of(std::span<const double> samples, Hertz rate) {
    constexpr std::size_t fewest = 10;
    constexpr double one_sided = 2.0;
    constexpr double mostly = 0.9;
    constexpr double tells_slow_from_fast_hz = 40.0;
    const Extremes facts = extremes(samples);
    if (facts.count < fewest || facts.min < 0.0 || facts.min == facts.max) {
        return EmgForm::raw;
    }
    const std::array levels{0.005, 0.5, 0.995};
    const auto at = quantiles(samples, levels);
    const bool is_one_sided = at[2] - at[1] > one_sided * (at[1] - at[0]);
    const bool is_slow = slow_share(samples, rate) > mostly;
    if (is_slow && (is_one_sided || rate.value() > tells_slow_from_fast_hz)) {
        return EmgForm::envelope;
    }
    return is_one_sided ? EmgForm::rectified : EmgForm::raw;
}

}  // namespace jointrom
