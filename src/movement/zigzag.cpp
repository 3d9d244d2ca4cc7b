#include "zigzag.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

namespace jointrom {
namespace {

std::size_t middle_of_ties(std::span<const double> samples, std::size_t first) {
    std::size_t last = first;
    while (last + 1 < samples.size() && samples[last + 1] == samples[first]) {
        ++last;
    }
    return first + (last - first) / 2;
}

struct Extreme {
    std::size_t sample;
    double value;
};

/// For each point of one kind, the least height that must be given up to reach a higher one before it. `height` of
/// points of the other kind are the bases between them.
class BaseWalk {
  public:
    /// The lowest base since the last point that is higher than `height`; then remembers this point.
    double lowest_base_behind(double height) {
        double base = pending_base_;
        while (!stack_.empty() && stack_.back().height <= height) {
            base = std::min(base, stack_.back().base_before);
            stack_.pop_back();
        }
        stack_.push_back({height, base});
        pending_base_ = std::numeric_limits<double>::infinity();
        return base;
    }
    void pass_base(double base) { pending_base_ = std::min(pending_base_, base); }

  private:
    struct Peak {
        double height;
        double base_before;
    };
    std::vector<Peak> stack_;
    double pending_base_ = std::numeric_limits<double>::infinity();
};

}  // namespace

std::vector<ZigzagPoint> zigzag(std::span<const double> samples, double threshold) {
    std::vector<ZigzagPoint> points;
    if (samples.empty()) {
        return points;
    }
    Extreme high{0, samples[0]};
    Extreme low = high;
    enum class Heading { unknown, up, down } heading = Heading::unknown;
    for (std::size_t i = 1; i < samples.size(); ++i) {
        const double x = samples[i];
        if (heading != Heading::down) {
            if (x > high.value) {
                high = {i, x};
            } else if (high.value - x >= threshold) {
                points.push_back({high.sample, true});
                heading = Heading::down;
                low = {i, x};
                continue;
            }
        }
        if (heading != Heading::up) {
            if (x < low.value) {
                low = {i, x};
            } else if (x - low.value >= threshold) {
                points.push_back({low.sample, false});
                heading = Heading::up;
                high = {i, x};
            }
        }
    }
    if (heading != Heading::unknown) {
        const bool ends_high = heading == Heading::up;
        points.push_back({ends_high ? high.sample : low.sample, ends_high});
    }
    for (ZigzagPoint& point : points) {
        point.sample = middle_of_ties(samples, point.sample);
    }
    return points;
}

std::vector<double> prominences(std::span<const double> samples, std::span<const ZigzagPoint> points) {
    std::vector<double> result(points.size(), std::numeric_limits<double>::infinity());
    const auto walk = [&](std::size_t i, BaseWalk& maxima, BaseWalk& minima) {
        const double value = samples[points[i].sample];
        BaseWalk& own = points[i].is_maximum ? maxima : minima;
        BaseWalk& other = points[i].is_maximum ? minima : maxima;
        const double height = points[i].is_maximum ? value : -value;
        const double fall = height - own.lowest_base_behind(height);
        if (std::isfinite(fall)) {
            result[i] = std::min(result[i], fall);
        }
        other.pass_base(-height);
    };
    BaseWalk maxima, minima;
    for (std::size_t i = 0; i < points.size(); ++i) {
        walk(i, maxima, minima);
    }
    maxima = {};
    minima = {};
    for (std::size_t i = points.size(); i-- > 0;) {
        walk(i, maxima, minima);
    }
    return result;
}

}  // namespace jointrom
