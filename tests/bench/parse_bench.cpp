// How fast tables are read, next to a bare loop of fast_float over the same bytes that checks nothing. Build and run:
//   cmake --build --preset developer --target bench && build/developer/tests/bench/bench
// The column bytes_per_second is to be compared between rows with the same argument.

#include <jointrom/table/table_reader.hpp>

#include <benchmark/benchmark.h>
#include <fast_float/fast_float.h>
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <filesystem>
#include <iterator>
#include <memory>
#include <random>
#include <string>
#include <vector>

namespace {

using namespace jointrom;

constexpr std::size_t columns = 4;
constexpr std::size_t rows = 1'000'000;

enum Shape { fixed_decimals, decimal_comma, six_digits, seventeen_digits, gaps };

/// A recording as a logger writes it: time in steps of a millisecond, an angle, two EMG channels.
std::string recording_text(Shape shape) {
    std::mt19937_64 random(7);
    std::normal_distribution<double> noise;
    std::string text = shape == decimal_comma ? "Time (s);Angle (deg);EMG 1 (mV);EMG 2 (mV)\n"
                                              : "Time (s),Angle (deg),EMG 1 (mV),EMG 2 (mV)\n";
    auto out = std::back_inserter(text);
    for (std::size_t i = 0; i < rows; ++i) {
        const double time_s = static_cast<double>(i) / 1000.0;
        const double angle_deg = 90.0 - 70.0 * std::cos(time_s * 1.8) + 0.2 * noise(random);
        const double first_mv = 0.3 * noise(random);
        const double second_mv = 0.1 * noise(random);
        switch (shape) {
        case fixed_decimals:
            fmt::format_to(out, "{:.3f},{:.2f},{:.4f},{:.4f}\n", time_s, angle_deg, first_mv, second_mv);
            break;
        case decimal_comma: {
            const std::size_t begin = text.size();
            fmt::format_to(out, "{:.3f};{:.2f};{:.4f};{:.4f}\r\n", time_s, angle_deg, first_mv, second_mv);
            std::replace(text.begin() + static_cast<std::ptrdiff_t>(begin), text.end(), '.', ',');
            break;
        }
        case six_digits:
            fmt::format_to(out, "{:g},{:g},{:g},{:g}\n", time_s, angle_deg, first_mv, second_mv);
            break;
        case seventeen_digits:
            fmt::format_to(out, "{},{},{},{}\n", time_s, angle_deg, first_mv, second_mv);
            break;
        case gaps:
            if (i % 10 == 0) {
                fmt::format_to(out, "{:.3f},{:.2f},{:.4f},{:.4f}\n", time_s, angle_deg, first_mv, second_mv);
            } else {
                fmt::format_to(out, "{:.3f},,{:.4f},{:.4f}\n", time_s, first_mv, second_mv);
            }
            break;
        }
    }
    return text;
}

const std::string& text_of(Shape shape) {
    static std::vector<std::string> texts(5);
    std::string& text = texts[static_cast<std::size_t>(shape)];
    if (text.empty()) {
        text = recording_text(shape);
    }
    return text;
}

void count_bytes(benchmark::State& state, const std::string& text) {
    state.SetBytesProcessed(state.iterations() * static_cast<std::int64_t>(text.size()));
}

/// Numbers into columns that are there already, a separator skipped behind each: no sniffing, no checks, no messages.
void bare_fast_float(benchmark::State& state) {
    const std::string& text = text_of(static_cast<Shape>(state.range(0)));
    const char mark = state.range(0) == decimal_comma ? ',' : '.';
    std::vector<std::vector<double>> values(columns, std::vector<double>(rows));
    for (auto _ : state) {
        const char* p = text.data() + text.find('\n') + 1;
        const char* const end = text.data() + text.size();
        std::size_t row = 0;
        while (p < end) {
            for (std::size_t c = 0; c < columns; ++c) {
                p = fast_float::from_chars_advanced(p, end, values[c][row],
                                                    fast_float::parse_options(fast_float::chars_format::general, mark))
                        .ptr;
                p += *p == '\r' ? 2 : 1;
            }
            ++row;
        }
        benchmark::DoNotOptimize(values.data());
    }
    count_bytes(state, text);
}

void table_from_memory(benchmark::State& state) {
    const std::string& text = text_of(static_cast<Shape>(state.range(0)));
    for (auto _ : state) {
        benchmark::DoNotOptimize(read_table_text(text, "bench"));
    }
    count_bytes(state, text);
}

void table_from_file(benchmark::State& state) {
    const std::string& text = text_of(static_cast<Shape>(state.range(0)));
    const std::filesystem::path path = std::filesystem::temp_directory_path() / "jointrom-parse-bench.csv";
    {
        const std::unique_ptr<std::FILE, int (*)(std::FILE*)> file(std::fopen(path.c_str(), "wb"), &std::fclose);
        if (file == nullptr || std::fwrite(text.data(), 1, text.size(), file.get()) != text.size()) {
            state.SkipWithError("cannot write a temporary file");
            return;
        }
    }
    for (auto _ : state) {
        benchmark::DoNotOptimize(read_table(path));
    }
    count_bytes(state, text);
    std::filesystem::remove(path);
}

/// Five seconds at 100 Hz, as a class has by the thousand: what finding out costs.
void small_table(benchmark::State& state) {
    const std::string& text = text_of(fixed_decimals);
    std::size_t end = 0;
    for (int i = 0; i < 501; ++i) {
        end = text.find('\n', end) + 1;
    }
    const std::string small = text.substr(0, end);
    for (auto _ : state) {
        benchmark::DoNotOptimize(read_table_text(small, "bench"));
    }
    count_bytes(state, small);
}

void shapes(benchmark::internal::Benchmark* bench) {
    bench->ArgName("shape")->DenseRange(fixed_decimals, seventeen_digits)->Unit(benchmark::kMillisecond);
}

BENCHMARK(bare_fast_float)->Apply(shapes);
BENCHMARK(table_from_memory)->Apply(shapes)->Arg(gaps);
BENCHMARK(table_from_file)->Apply(shapes);
BENCHMARK(small_table)->Unit(benchmark::kMicrosecond);

}  // namespace

BENCHMARK_MAIN();
