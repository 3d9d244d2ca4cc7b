// Many recordings that are in memory already, measured on all processors. No file is read: the samples could come from
// a driver or a data base.

#include <jointrom/analysis/measurements.hpp>
#include <jointrom/angle/prepare_angle.hpp>
#include <jointrom/core/failure.hpp>
#include <jointrom/core/number_text.hpp>
#include <jointrom/stats/descriptive.hpp>

#include <cmath>
#include <future>
#include <iostream>
#include <numbers>
#include <optional>
#include <vector>

using namespace jointrom;

namespace {

/// Three bends of an elbow up to `flexion_deg`, at 100 Hz, with two seconds of rest before and after, as a sensor shows
/// them that reads 10 degrees when the arm is straight.
Channel channel_of(double flexion_deg) {
    constexpr double rate_hz = 100.0;
    constexpr double bend_s = 2.5;
    Channel channel{
        .name = "elbow angle", .unit = "deg", .column = 1, .role = ChannelRole::angle, .times = {}, .samples = {}};
    for (std::size_t i = 0; i < 1150; ++i) {
        const double time_s = static_cast<double>(i) / rate_hz - 2.0;
        const bool moves = time_s > 0.0 && time_s < 3.0 * bend_s;
        const double bent = moves ? 0.5 - 0.5 * std::cos(2.0 * std::numbers::pi * time_s / bend_s) : 0.0;
        channel.samples.push_back(10.0 + flexion_deg * bent);
    }
    channel.times = TimeBase::regular(Seconds(0.0), Hertz(rate_hz), channel.samples.size());
    return channel;
}

/// The arc of one recording; nothing when it cannot be measured.
std::optional<double> arc_deg(const Channel& channel) {
    try {
        Findings findings;  // of this recording; a real program would show them
        PreparationOptions options{.motion = joint_motion("elbow"), .side = Side::right};
        options.mirror = false;
        const AngleTrace trace = prepare_angle(channel, options, findings);
        return measure(trace, Settings()).range.arc.value();
    } catch (const Failure&) {
        return std::nullopt;
    }
}

}  // namespace

int main() {
    std::vector<Channel> channels;
    for (int i = 0; i < 20; ++i) {
        channels.push_back(channel_of(120.0 + i));
    }
    // Functions of the library share no state, so each recording may have a thread of its own.
    std::vector<std::future<std::optional<double>>> work;
    for (const Channel& channel : channels) {
        work.push_back(std::async(std::launch::async, arc_deg, std::cref(channel)));
    }
    std::vector<double> arcs_deg;
    for (auto& one : work) {
        if (const auto arc = one.get()) {
            arcs_deg.push_back(*arc);
        }
    }
    const Description all = describe(arcs_deg);
    std::cout << all.count << " recordings, arc " << fixed_text(all.mean, 1) << " deg, SD " << fixed_text(all.sd, 1)
              << " deg\n";
}
