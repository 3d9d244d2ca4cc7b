#pragma once

/// \file
/// Ctrl-C during a long run: the work is asked to come to an end.

#include <atomic>
#include <csignal>

namespace jointrom::cli {

/// While one lives, the first SIGINT or SIGTERM sets requested(); the next one ends the program at once.
class Interruption {
  public:
    Interruption();
    ~Interruption();
    Interruption(const Interruption&) = delete;
    Interruption& operator=(const Interruption&) = delete;

    [[nodiscard]] static const std::atomic<bool>& requested() noexcept;

  private:
    struct sigaction before_int_ = {};
    struct sigaction before_term_ = {};
};

}  // namespace jointrom::cli
