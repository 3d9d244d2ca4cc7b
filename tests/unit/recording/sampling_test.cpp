#include <jointrom/recording/sampling.hpp>

#include <support/catch.hpp>

#include <limits>
#include <vector>

using namespace jointrom;

namespace {

constexpr double missing = std::numeric_limits<double>::quiet_NaN();

}  // namespace

TEST_CASE("missing samples within a regular channel are gaps and at its ends they are not", "[recording][sampling]") {
    Channel channel;
    channel.times = TimeBase::regular(Seconds(1.0), Hertz(10.0), 12);
    channel.samples = {missing, 4, 5, missing, 6, 7, 8, missing, missing, missing, 9, missing};
    const Sampling sampling = sampling_of(channel);
    CHECK(sampling.count == 12);
    CHECK(sampling.rate_hz == 10.0);
    CHECK(sampling.jitter_s == 0.0);
    REQUIRE(sampling.gaps.size() == 2);
    CHECK_THAT(sampling.gaps[0].start_s, WithinAbs(1.2, 1e-12));
    CHECK_THAT(sampling.gaps[0].length_s, WithinAbs(0.2, 1e-12));
    CHECK_THAT(sampling.gaps[1].start_s, WithinAbs(1.6, 1e-12));
    CHECK_THAT(sampling.gaps[1].length_s, WithinAbs(0.4, 1e-12));
}

TEST_CASE("jitter is the spread of the intervals without the gaps", "[recording][sampling]") {
    // Intervals 0.25 0.27 0.23 0.25 and a gap of 2 s: SD of the four about their mean 0.25 is sqrt(0.0008 / 3).
    const std::vector<double> time_s{0.0, 0.25, 0.52, 0.75, 2.75, 3.0};
    const Sampling sampling = sampling_of(time_s);
    CHECK_THAT(sampling.rate_hz, WithinAbs(4.0, 1e-12));
    CHECK_THAT(sampling.jitter_s, WithinAbs(0.0163299, 1e-7));
    CHECK_THAT(sampling.largest_deviation_s, WithinAbs(0.02, 1e-12));
    REQUIRE(sampling.gaps.size() == 1);
    CHECK(sampling.gaps[0].start_s == 0.75);
    CHECK(sampling.gaps[0].length_s == 2.0);

    Channel channel;
    channel.times = TimeBase::stamped(time_s);
    channel.samples.assign(6, 1.0);
    const Sampling same = sampling_of(channel);
    CHECK_THAT(same.jitter_s, WithinAbs(sampling.jitter_s, 1e-12));
    CHECK(same.gaps.size() == 1);
}

TEST_CASE("repeated stamps are counted", "[recording][sampling]") {
    CHECK(sampling_of(std::vector<double>{0.0, 0.1, 0.1, 0.2, 0.3, 0.3}).repeated_stamps == 2);
    CHECK(sampling_of(std::vector<double>{0.0, 0.5}).rate_hz == 2.0);
}
