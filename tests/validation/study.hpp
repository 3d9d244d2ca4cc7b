#pragma once

/// \file
/// What the program measures in simulated recordings, against what is true of them.

#include <jointrom/analysis/measurements.hpp>
#include <jointrom/analysis/trial.hpp>
#include <jointrom/simulate/simulated_recording.hpp>

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <utility>
#include <vector>

namespace jointrom::validation {

/// Errors of one quantity.
class Errors {
  public:
    /// \param u95 half-width of the interval that is to hold the truth; none: no interval
    void add(double error, std::optional<double> u95 = {});
    /// Asked for but not measured.
    void miss() { ++missed_; }

    [[nodiscard]] std::size_t count() const { return count_; }
    [[nodiscard]] std::size_t missed() const { return missed_; }
    [[nodiscard]] double bias() const;
    [[nodiscard]] double sd() const;
    [[nodiscard]] double largest() const { return largest_; }
    /// Share of intervals that hold the truth.
    [[nodiscard]] double coverage_pct() const;
    [[nodiscard]] double mean_u95() const;

  private:
    std::size_t count_ = 0, missed_ = 0, held_ = 0, intervals_ = 0;
    double sum_ = 0.0, squares_ = 0.0, largest_ = 0.0, u95_sum_ = 0.0;
};

/// What is found in one recording.
struct Measured {
    SimulatedRecording truth;
    Trial trial;
    Measurements measurements;
};

/// From the logger's text on, as the program does it.
[[nodiscard]] Measured measure_simulated(const Simulation& simulation, const Settings& settings = {},
                                         const References& references = {});

/// A line of a table of the page.
using Row = std::vector<std::string>;
struct PageTable {
    Row head;
    std::vector<Row> rows;
};

[[nodiscard]] std::string number(double value, int decimals);
[[nodiscard]] std::string markdown(const PageTable& table);

/// What must hold for the quick run to pass, and how it turned out.
struct Check {
    std::string what;
    bool holds;
};

/// One part of the page.
struct Section {
    std::vector<PageTable> tables;
    std::vector<Check> checks;
    std::size_t recordings = 0;
};

/// \param repeats recordings of each kind
[[nodiscard]] Section range_study(std::size_t repeats);
[[nodiscard]] Section calibrated_study(std::size_t repeats);
[[nodiscard]] Section onset_study(std::size_t repeats);
[[nodiscard]] Section blunder_study(std::size_t repeats);

}  // namespace jointrom::validation
