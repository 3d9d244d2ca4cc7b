#include "figure/outline.hpp"

#include <algorithm>
#include <cmath>
#include <cstdlib>

namespace jointrom {
namespace {

std::int64_t tenths_of(double px) {
    return std::llround(10.0 * std::clamp(px, -1e6, 1e6));
}

}  // namespace

void Outline::append_tenths(std::int64_t tenths, bool may_join) {
    if (tenths < 0) {
        d_ += '-';
    } else if (!may_join) {
        d_ += ' ';
    }
    const std::int64_t size = std::abs(tenths);
    if (size >= 10 || size == 0) {
        d_ += std::to_string(size / 10);
    }
    if (size % 10 != 0) {
        d_ += '.';
        d_ += static_cast<char>('0' + size % 10);
    }
}

void Outline::start() {
    if (points_ == 1) {
        d_ += "h0";
    }
    points_ = 0;
}

void Outline::add(double x, double y) {
    const std::int64_t new_x = tenths_of(x);
    const std::int64_t new_y = tenths_of(y);
    if (points_ == 0) {
        d_ += 'M';
        append_tenths(new_x, true);
        append_tenths(new_y, false);
    } else if (new_x != x_ || new_y != y_) {
        d_ += points_ == 1 ? "l" : "";
        append_tenths(new_x - x_, points_ == 1);
        append_tenths(new_y - y_, false);
    } else {
        return;
    }
    x_ = new_x;
    y_ = new_y;
    ++points_;
}

void Outline::close() {
    if (points_ > 0) {
        d_ += 'Z';
    }
    points_ = 0;
}

std::string Outline::text() {
    start();
    return d_;
}

}  // namespace jointrom
