// What one recording costs from its text to its results, a minute at 200 Hz and five seconds at 100 Hz. Build and run
// as parse_bench.cpp says.

#include <jointrom/analysis/trial.hpp>
#include <jointrom/movement/phases.hpp>
#include <jointrom/movement/range_of_motion.hpp>
#include <jointrom/movement/repetitions.hpp>
#include <jointrom/movement/still_postures.hpp>

#include <benchmark/benchmark.h>
#include <fmt/format.h>

#include <cmath>
#include <iterator>
#include <random>
#include <sstream>
#include <string>

namespace {

using namespace jointrom;

/// Flexions held, extensions and rests, read by a sensor that shows 180 when straight; with one EMG channel or none.
std::string recording_text(std::size_t rows, double rate_hz, bool with_emg) {
    constexpr double top_deg = 120.0, cycle_s = 3.5;
    std::mt19937_64 random(7);
    std::normal_distribution<double> noise;
    std::string text = with_emg ? "Time (s),Angle (deg),EMG 1 (mV)\n" : "Time (s),Angle (deg)\n";
    auto out = std::back_inserter(text);
    for (std::size_t i = 0; i < rows; ++i) {
        const double time_s = static_cast<double>(i) / rate_hz;
        const double way = 1.5 * std::sin(2.0 * 3.14159265358979 * time_s / cycle_s);
        const double flexion_deg = 0.5 * top_deg * (1.0 - std::cos(1.57079632679 * std::clamp(way, -1.0, 1.0)));
        fmt::format_to(out, "{:.3f},{:.2f}", time_s, 180.0 - flexion_deg + 0.2 * noise(random));
        if (with_emg) {
            fmt::format_to(out, ",{:.4f}", 0.2 * noise(random));
        }
        text += '\n';
    }
    return text;
}

struct Size {
    std::size_t rows;
    double rate_hz;
    bool with_emg;
};

constexpr Size sizes[] = {{12000, 200.0, true}, {500, 100.0, false}};

template <typename Job>
void run_on_text(benchmark::State& state, Job job) {
    const Size size = sizes[state.range(0)];
    const std::string text = recording_text(size.rows, size.rate_hz, size.with_emg);
    for (auto _ : state) {
        std::istringstream input(text);
        job(input);
    }
    state.SetBytesProcessed(state.iterations() * static_cast<std::int64_t>(text.size()));
}

void reading(benchmark::State& state) {
    run_on_text(state, [](std::istream& input) { benchmark::DoNotOptimize(read_recording("-", input, Settings{})); });
}

void preparing(benchmark::State& state) {
    run_on_text(state, [](std::istream& input) { benchmark::DoNotOptimize(prepare_trial("-", input, Settings{})); });
}

/// What `range` does, and with it phases and repetitions.
void measuring(benchmark::State& state) {
    const Settings settings;
    run_on_text(state, [&](std::istream& input) {
        const Trial trial = prepare_trial("-", input, settings);
        const MovementPhases phases = movement_phases(trial.trace, settings.phases);
        const Repetitions found = repetitions(trial.trace, phases, {.with_smoothness = false});
        const auto postures = still_postures(trial.trace, settings.stillness);
        benchmark::DoNotOptimize(range_of_motion(trial.trace, found.rows, postures));
    });
}

void both_sizes(benchmark::internal::Benchmark* bench) {
    bench->ArgName("size")->DenseRange(0, 1)->Unit(benchmark::kMicrosecond);
}

BENCHMARK(reading)->Apply(both_sizes);
BENCHMARK(preparing)->Apply(both_sizes);
BENCHMARK(measuring)->Apply(both_sizes);

}  // namespace
