#pragma once

/// \file
/// Path data, point by point. Private.

#include <cstdint>
#include <string>

namespace jointrom {

/// Points in tenths of a pixel, each as its distance from the one before: short, and rounding does not add up.
class Outline {
  public:
    /// The next point begins a piece of its own.
    void start();
    void add(double x, double y);
    /// Back to where the piece began; the next point begins another.
    void close();
    /// The path data so far. A piece of one point is a dot.
    [[nodiscard]] std::string text();

  private:
    void append_tenths(std::int64_t tenths, bool may_join);

    std::string d_;
    std::int64_t x_ = 0;
    std::int64_t y_ = 0;
    std::size_t points_ = 0;  ///< of this piece
};

}  // namespace jointrom
