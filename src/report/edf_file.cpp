#include <jointrom/core/failure.hpp>
#include <jointrom/movement/angle_uncertainty.hpp>
#include <jointrom/recording/edf_recording.hpp>
#include <jointrom/report/edf_file.hpp>

#ifdef JOINTROM_HAS_EDF
#include <edflib.h>
#endif

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace jointrom {

#ifdef JOINTROM_HAS_EDF

namespace {

struct EdfSignal {
    std::string label, unit;
    Hertz rate;
    std::vector<double> samples;
};

std::vector<EdfSignal> signals_of(const AngleTrace& trace, const Recording& recording) {
    const auto angle = trace.angle_deg();
    const auto velocity = trace.velocity_deg_s();
    // One part of the uncertainty is the same everywhere, the other grows with the angle.
    const double u_at_zero_deg = angle_budget(trace, Degrees(0.0)).standard_uncertainty();
    EdfSignal u{"angle_u_deg", "deg", trace.rate(), {}};
    for (const double angle_deg : angle) {
        u.samples.push_back(std::hypot(u_at_zero_deg, trace.uncertainty().gain_relative * angle_deg));
    }
    std::vector<EdfSignal> signals{{"angle_deg", "deg", trace.rate(), {angle.begin(), angle.end()}},
                                   std::move(u),
                                   {"velocity_deg_s", "deg/s", trace.rate(), {velocity.begin(), velocity.end()}}};
    const TimeWindow window{trace.start(), trace.time(trace.size() - 1)};
    for (const Channel& channel : recording.channels) {
        if (channel.role == ChannelRole::emg && channel.times.is_regular()) {
            const auto samples = slice(channel.samples, channel.times.span(window));
            if (!samples.empty()) {
                signals.push_back({channel.name, channel.unit, channel.times.rate(), {samples.begin(), samples.end()}});
            }
        }
    }
    for (const EdfSignal& signal : signals) {
        if (std::ranges::any_of(signal.samples, [](double v) { return !std::isfinite(v); })) {
            throw Failure(FailureKind::usage, "edf-gap",
                          fmt::format("{} has missing samples, EDF has none", signal.label),
                          "Choose a part without gaps with --window-s, or write CSV.");
        }
    }
    return signals;
}

/// The shortest usual record that holds a whole number of samples of every signal.
Seconds record_of(const std::vector<EdfSignal>& signals) {
    for (const double record_s : {1.0, 0.5, 0.2, 0.1, 2.0, 3.0, 4.0, 5.0, 6.0, 10.0, 20.0, 30.0, 60.0}) {
        const bool fits = std::ranges::all_of(signals, [&](const EdfSignal& signal) {
            const double count = signal.rate.value() * record_s;
            return count >= 0.5 && std::abs(count - std::round(count)) < 1e-6 * count;
        });
        if (fits) {
            return Seconds(record_s);
        }
    }
    throw Failure(FailureKind::usage, "edf-rate", "no record of EDF holds whole numbers of samples at these rates",
                  "Write CSV.");
}

/// Physical value of the greatest digital one, its opposite being that of the least: 1, 2 or 5 times a power of ten,
/// which the header's eight characters hold without loss.
double end_of(const EdfSignal& signal) {
    const auto [least, greatest] = std::ranges::minmax(signal.samples);
    const double size = std::max({std::abs(least), std::abs(greatest), 1e-4});
    const double ten = std::pow(10.0, std::floor(std::log10(size)));
    return ten * (size <= ten ? 1.0 : size <= 2.0 * ten ? 2.0 : size <= 5.0 * ten ? 5.0 : 10.0);
}

/// The nearest digital value of each sample; libedf itself cuts off.
std::vector<int> digital_of(const EdfSignal& signal) {
    const double end = end_of(signal);
    std::vector<int> digital;
    digital.reserve(signal.samples.size());
    for (const double value : signal.samples) {
        digital.push_back(static_cast<int>(std::lround((value + end) / (2.0 * end) * 65535.0)) - 32768);
    }
    return digital;
}

/// A file that is being written; under another name until it is whole.
class EdfWriter {
  public:
    EdfWriter(std::filesystem::path path, const std::vector<EdfSignal>& signals, Seconds record)
        : path_(std::move(path)), part_(path_.string() + ".part"),
          handle_(edfopen_file_writeonly(part_.c_str(), EDFLIB_FILETYPE_EDFPLUS, static_cast<int>(signals.size()))) {
        if (handle_ < 0) {
            throw Failure(FailureKind::cannot_create, "cannot-create", "cannot create the file",
                          "Check that the folder is there and may be written.", {path_.string()});
        }
        check(edf_set_datarecord_duration(handle_, static_cast<int>(std::lround(record.value() * 1e5))));
        check(edf_set_startdatetime(handle_, 1985, 1, 1, 0, 0, 0));
        check(edf_set_equipment(handle_, "jointrom"));
        for (std::size_t i = 0; i < signals.size(); ++i) {
            describe(static_cast<int>(i), signals[i], record);
        }
    }
    ~EdfWriter() {
        if (handle_ >= 0) {
            edfclose_file(handle_);
        }
        std::error_code ignored;
        std::filesystem::remove(part_, ignored);
    }
    EdfWriter(const EdfWriter&) = delete;
    EdfWriter& operator=(const EdfWriter&) = delete;

    void annotation_signals(int count) {
        check(edf_set_number_of_annotation_signals(handle_, std::clamp(count, 1, 64)));
    }
    void samples(int* digital) { check(edfwrite_digital_samples(handle_, digital)); }
    void annotation(Seconds start, Seconds duration, const std::string& text) {
        check(edfwrite_annotation_utf8(handle_, std::llround(start.value() * 1e4), std::llround(duration.value() * 1e4),
                                       text.c_str()));
    }
    void commit() {
        const int status = edfclose_file(handle_);
        handle_ = -1;
        check(status);
        std::error_code error;
        std::filesystem::rename(part_, path_, error);
        check(error ? -1 : 0);
    }

  private:
    void describe(int i, const EdfSignal& signal, Seconds record) {
        const double end = end_of(signal);
        check(edf_set_label(handle_, i, signal.label.c_str()));
        check(edf_set_physical_dimension(handle_, i, signal.unit.c_str()));
        check(edf_set_samplefrequency(handle_, i, static_cast<int>(std::lround(signal.rate.value() * record.value()))));
        check(edf_set_digital_minimum(handle_, i, -32768));
        check(edf_set_digital_maximum(handle_, i, 32767));
        check(edf_set_physical_minimum(handle_, i, -end));
        check(edf_set_physical_maximum(handle_, i, end));
    }
    void check(int status) const {
        if (status != 0) {
            throw Failure(FailureKind::cannot_write, "cannot-write", "cannot write the file to its end",
                          "Check the room on the disk.", {path_.string()});
        }
    }

    std::filesystem::path path_, part_;
    int handle_;
};

}  // namespace

void write_edf(const std::filesystem::path& path, const AngleTrace& trace, const Recording& recording,
               std::span<const Phase> phases) {
    std::vector<EdfSignal> signals = signals_of(trace, recording);
    const Seconds record = record_of(signals);
    const Seconds end = trace.duration({0, trace.size()});
    const auto records = static_cast<std::size_t>(std::ceil(end.value() / record.value() - 1e-9));
    EdfWriter file(path, signals, record);
    file.annotation_signals(static_cast<int>(std::min<std::size_t>(64, (phases.size() + 1) / records + 1)));
    std::vector<std::size_t> in_record;
    std::vector<std::vector<int>> digital;
    for (EdfSignal& signal : signals) {
        in_record.push_back(static_cast<std::size_t>(std::lround(signal.rate.value() * record.value())));
        signal.samples.resize(records * in_record.back(), signal.samples.back());
        digital.push_back(digital_of(signal));
    }
    for (std::size_t r = 0; r < records; ++r) {
        for (std::size_t i = 0; i < signals.size(); ++i) {
            file.samples(digital[i].data() + r * in_record[i]);
        }
    }
    for (const Phase& phase : phases) {
        file.annotation(phase.start - trace.start(), phase.duration(), name_of(phase.kind, trace.motion()));
    }
    file.annotation(end, Seconds(0.0), std::string(end_annotation));
    file.commit();
}

#else

void write_edf(const std::filesystem::path& path, const AngleTrace&, const Recording&, std::span<const Phase>) {
    throw Failure(FailureKind::usage, "edf-unsupported", "this program was built without EDF",
                  "Build it where libedf-dev is installed, or use CSV.", {path.string()});
}

#endif

}  // namespace jointrom
