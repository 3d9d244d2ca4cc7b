#include <jointrom/recording/stated_rate.hpp>

#include <support/catch.hpp>

#include <utility>
#include <vector>

using namespace jointrom;

namespace {

double rate_in(const std::vector<std::string>& lines) {
    const auto stated = find_stated_rate(lines);
    return stated ? stated->rate.value() : 0.0;
}

}  // namespace

TEST_CASE("a rate is found however it is worded", "[recording][stated_rate]") {
    const std::vector<std::pair<std::string, double>> lines{
        {"1000 samples per second", 1000.0},
        {"Channel 5: 'FX', 691 values, extrapolated from 50 to 1000 samples per second.", 1000.0},
        {"Sample rate: 200 Hz", 200.0},
        {"Sample Rate,148.148,Hz", 148.148},
        {"SampleRate;1 kHz", 1000.0},
        {"Sampling frequency (kHz): 2", 2000.0},
        {"Abtastrate;100;Hz", 100.0},
        {"Fréquence d'échantillonnage : 50 Hz", 50.0},
        {"Frecuencia de muestreo = 62,5 Hz", 62.5},
        {"Rate: 200 S/s", 200.0},
        {"fs=250", 250.0},
        {"Interval = 0.005 s", 200.0},
        {"Interval= 0,005 s", 200.0},
        {"Sampling interval (ms): 0.5", 2000.0},
        {"Sample period: 10 ms", 100.0},
        {"Messintervall;20;ms", 50.0},
        {"dt: 0.02", 50.0},
        {"Interval: 4", 250.0}};
    for (const auto& [line, rate_hz] : lines) {
        CAPTURE(line);
        CHECK_THAT(rate_in({"Logger export", line, "Operator: M. Quill"}), WithinRel(rate_hz, 1e-12));
    }
}

TEST_CASE("other numbers above a table are not taken for the rate", "[recording][stated_rate]") {
    for (const char* line : {"Low-pass filter: 500 Hz", "Notch 50 Hz", "Band-pass 20-450 Hz", "CH1 2000",
                             "Duration: 30 s", "Date: 2031-05-04 10:31:07", "Samples: 12000", "Participant 200",
                             "Mains frequency 50 Hz", "Heart rate: 71", "Baud rate: 9600", "Sample rate: 0 Hz", ""}) {
        CAPTURE(line);
        CHECK(rate_in({line}) == 0.0);
    }
}

TEST_CASE("lines that state different rates settle nothing and equal ones do", "[recording][stated_rate]") {
    CHECK(rate_in({"EMG sample rate: 1000 Hz", "Goniometer sample rate: 100 Hz"}) == 0.0);
    CHECK(rate_in({"Sample rate: 1000 Hz", "Sample interval: 1 ms"}) == 1000.0);
    CHECK(rate_in({}) == 0.0);
}
