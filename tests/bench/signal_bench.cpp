// How fast long signals are processed: one hour at 1000 Hz, 3.6 million samples. Build and run as parse_bench.cpp says.

#include <jointrom/signal/derivative.hpp>
#include <jointrom/signal/local_extrema.hpp>
#include <jointrom/signal/moving_window.hpp>
#include <jointrom/signal/noise_level.hpp>
#include <jointrom/signal/section_cascade.hpp>
#include <jointrom/signal/spectrum.hpp>
#include <jointrom/signal/zero_phase.hpp>

#include <benchmark/benchmark.h>

#include <cmath>
#include <random>

namespace {

using namespace jointrom;

const Hertz rate(1000.0);

/// Repetitions of an elbow with the noise of a sensor.
const std::vector<double>& hour_of_angle_deg() {
    static const std::vector<double> samples = [] {
        std::mt19937_64 random(7);
        std::normal_distribution<double> noise(0.0, 0.2);
        std::vector<double> result(3'600'000);
        for (std::size_t i = 0; i < result.size(); ++i) {
            result[i] = 90.0 - 70.0 * std::cos(1.57 * static_cast<double>(i) / rate.value()) + noise(random);
        }
        return result;
    }();
    return samples;
}

template <typename Method>
void run_on_hour(benchmark::State& state, Method method) {
    const std::vector<double>& samples = hour_of_angle_deg();
    for (auto _ : state) {
        benchmark::DoNotOptimize(method(samples));
    }
    state.SetItemsProcessed(state.iterations() * std::ssize(samples));
}

/// The loop alone: one direction, no memory fetched anew.
void cascade(benchmark::State& state) {
    const Sections sections = butterworth_lowpass(static_cast<int>(state.range(0)), Hertz(6.0), rate);
    std::vector<double> samples = hour_of_angle_deg();
    std::vector<SectionState> filter_state = steady_state(sections, samples.front());
    for (auto _ : state) {
        run_forward(samples, sections, filter_state);
        benchmark::ClobberMemory();
    }
    state.SetItemsProcessed(state.iterations() * std::ssize(samples));
}
BENCHMARK(cascade)->ArgName("order")->Arg(2)->Arg(4)->Arg(8)->Unit(benchmark::kMillisecond);

void zero_phase_lowpass(benchmark::State& state) {
    const int order = static_cast<int>(state.range(0));
    run_on_hour(state, [&](const auto& x) { return lowpass_zero_phase(x, Hertz(6.0), rate, order); });
}
BENCHMARK(zero_phase_lowpass)->ArgName("order")->Arg(2)->Arg(4)->Unit(benchmark::kMillisecond);

void zero_phase_bandpass(benchmark::State& state) {
    const Sections sections = butterworth_bandpass(2, Hertz(20.0), Hertz(450.0), rate);
    run_on_hour(state, [&](const auto& x) { return zero_phase(x, sections); });
}
BENCHMARK(zero_phase_bandpass)->Unit(benchmark::kMillisecond);

void velocity(benchmark::State& state) {
    run_on_hour(state, [](const auto& x) { return first_derivative(x, rate); });
}
BENCHMARK(velocity)->Unit(benchmark::kMillisecond);

void noise(benchmark::State& state) {
    run_on_hour(state, [](const auto& x) { return noise_sd(x); });
}
BENCHMARK(noise)->Unit(benchmark::kMillisecond);

void maxima(benchmark::State& state) {
    run_on_hour(state, [](const auto& x) { return local_maxima(x, {.least_prominence = 60.0}); });
}
BENCHMARK(maxima)->Unit(benchmark::kMillisecond);

void spread_in_window(benchmark::State& state) {
    run_on_hour(state, [](const auto& x) { return moving_sd(x, 200); });
}
BENCHMARK(spread_in_window)->Unit(benchmark::kMillisecond);

void median_in_window(benchmark::State& state) {
    run_on_hour(state, [](const auto& x) { return moving_median(x, 21); });
}
BENCHMARK(median_in_window)->Unit(benchmark::kMillisecond);

void density(benchmark::State& state) {
    run_on_hour(state, [](const auto& x) { return welch(x, rate, {.segment = 1024}); });
}
BENCHMARK(density)->Unit(benchmark::kMillisecond);

}  // namespace
