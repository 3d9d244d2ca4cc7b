#include "simulate/muscle_noise.hpp"

#include "simulate/portable_math.hpp"

#include <array>
#include <cmath>

namespace jointrom {
namespace {

constexpr std::size_t steps = 1000;

/// (1 - cos w) / (1 + p^2 - 2 p cos w)^2 in the middle of each step from 0 to half the sampling rate.
double share_below(double pole, Hertz median, Hertz rate, const std::array<double, steps>& cosine) {
    const double wanted = 2.0 * static_cast<double>(steps) * (median / rate);
    double below = 0.0;
    double total = 0.0;
    for (std::size_t i = 0; i < steps; ++i) {
        const double away = 1.0 + pole * pole - 2.0 * pole * cosine[i];
        const double power = (1.0 - cosine[i]) / (away * away);
        total += power;
        below += static_cast<double>(i) + 0.5 < wanted ? power : 0.0;
    }
    return below / total;
}

}  // namespace

double muscle_pole(Hertz median, Hertz rate) {
    std::array<double, steps> cosine{};
    for (std::size_t i = 0; i < steps; ++i) {
        cosine[i] = sine_of_turns(0.25 + (static_cast<double>(i) + 0.5) / (2.0 * static_cast<double>(steps)));
    }
    double low = 0.0;
    double high = 0.9999;
    for (int step = 0; step < 40; ++step) {
        const double middle = 0.5 * (low + high);
        (share_below(middle, median, rate, cosine) < 0.5 ? low : high) = middle;
    }
    return 0.5 * (low + high);
}

MuscleNoise::MuscleNoise(RandomNumbers random, Hertz median, Hertz rate) : random_(random), rate_(rate) {
    set_median(median);
    for (int i = 0; i < 200; ++i) {
        (void)next();  // until the start is forgotten
    }
}

void MuscleNoise::set_median(Hertz median) {
    if (median_.is_set() && std::abs((median - median_).value()) < 0.25) {
        return;  // a pole takes long to find
    }
    median_ = median;
    pole_ = muscle_pole(median, rate_);
    const double damping = (1.0 - pole_) / (1.0 + pole_);
    scale_ = 1.0 / std::sqrt(2.0 * damping * damping * damping);
}

double MuscleNoise::next() noexcept {
    const double rest = 1.0 - pole_;
    const double before = second_;
    first_ = pole_ * first_ + rest * random_.normal();
    second_ = pole_ * second_ + rest * first_;
    return (second_ - before) * scale_;
}

}  // namespace jointrom
