#pragma once

/// \file
/// How far a long run has come, on a terminal.

#include <jointrom/batch/run_batch.hpp>

#include <chrono>
#include <iosfwd>

namespace jointrom::cli {

/// One line that is written over and over: how many are done, how fast, how much time is left. Gone when the run ends.
class ProgressLine {
  public:
    /// Shows nothing unless `err` is the terminal's standard error.
    explicit ProgressLine(std::ostream& err);
    ~ProgressLine();
    ProgressLine(const ProgressLine&) = delete;
    ProgressLine& operator=(const ProgressLine&) = delete;

    /// At most ten times a second.
    void show(const BatchProgress& progress);

  private:
    using Clock = std::chrono::steady_clock;
    std::ostream& err_;
    bool is_shown_;
    Clock::time_point start_ = Clock::now();
    Clock::time_point last_ = {};
};

}  // namespace jointrom::cli
