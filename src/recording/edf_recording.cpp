#include <jointrom/core/failure.hpp>
#include <jointrom/core/near_miss.hpp>
#include <jointrom/recording/annotations.hpp>
#include <jointrom/recording/channel_quality.hpp>
#include <jointrom/recording/column_role.hpp>
#include <jointrom/recording/edf_recording.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#ifdef JOINTROM_HAS_EDF
#include <edflib.h>

#include <memory>
#include <mutex>
#endif

namespace jointrom {

bool is_edf(const std::filesystem::path& path) {
    std::string ending = path.extension().string();
    std::ranges::transform(ending, ending.begin(),
                           [](char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c; });
    return ending == ".edf";
}

#ifdef JOINTROM_HAS_EDF

namespace {

std::string trimmed(std::string_view text) {
    const std::size_t first = text.find_first_not_of(' ');
    return first == std::string_view::npos ? std::string()
                                           : std::string(text.substr(first, text.find_last_not_of(' ') - first + 1));
}

/// libedf keeps its open files in a table of its own that only one thread may use at a time.
std::mutex& edf_turn() {
    static std::mutex turn;
    return turn;
}

/// An open file and what its header says. One at a time; another thread waits.
class EdfFile {
  public:
    explicit EdfFile(const std::filesystem::path& path)
        : turn_(edf_turn()), header_(std::make_unique<edf_hdr_struct>()) {
        if (!std::filesystem::is_regular_file(path)) {
            throw Failure(FailureKind::missing_file, "file-missing", "there is no such file",
                          "Check the name and the folder.", {path.string()});
        }
        if (edfopen_file_readonly(path.c_str(), header_.get(), EDFLIB_DO_NOT_READ_ANNOTATIONS) != 0) {
            throw Failure(FailureKind::unreadable_data, "edf-unreadable",
                          "the file is no EDF or EDF+, or is damaged or discontinuous", "Export it anew, or as CSV.",
                          {path.string()});
        }
    }
    ~EdfFile() { edfclose_file(header_->handle); }
    EdfFile(const EdfFile&) = delete;
    EdfFile& operator=(const EdfFile&) = delete;

    [[nodiscard]] std::size_t signals() const { return static_cast<std::size_t>(header_->edfsignals); }
    [[nodiscard]] const edf_param_struct& signal(std::size_t i) const { return header_->signalparam[i]; }
    [[nodiscard]] bool is_of_this_library() const { return trimmed(header_->equipment) == "jointrom"; }
    [[nodiscard]] Hertz rate(std::size_t i) const {
        return Hertz(1e7 * signal(i).smp_in_datarecord / static_cast<double>(header_->datarecord_duration));
    }
    [[nodiscard]] std::vector<double> samples(std::size_t i) const {
        std::vector<double> values(static_cast<std::size_t>(signal(i).smp_in_file));
        const int count = edfread_physical_samples(header_->handle, static_cast<int>(i),
                                                   static_cast<int>(values.size()), values.data());
        values.resize(static_cast<std::size_t>(std::max(count, 0)));
        return values;
    }

  private:
    std::unique_lock<std::mutex> turn_;
    std::unique_ptr<edf_hdr_struct> header_;
};

/// \throws Failure "no-channels", "rate-implausible"
void refuse_unusable(const EdfFile& file, const std::string& name) {
    constexpr double fastest_hz = 1e6;  // far beyond any logger of angles or muscles
    if (file.signals() == 0) {
        throw Failure(FailureKind::unreadable_data, "no-channels", "the file holds annotations and no signals",
                      "Export the signals too.", {name});
    }
    for (std::size_t i = 0; i < file.signals(); ++i) {
        const double rate_hz = file.rate(i).value();
        if (!(rate_hz > 0.0 && rate_hz <= fastest_hz)) {
            throw Failure(FailureKind::unreadable_data, "rate-implausible",
                          fmt::format("'{}' would have been sampled {:.3g} times per second",
                                      trimmed(file.signal(i).label), rate_hz),
                          "Export it anew, or as CSV.", {name});
        }
    }
}

/// Takes off what the last record was filled up with.
void end_as_annotated(const std::vector<Annotation>& annotations, Recording& recording) {
    const auto end = std::ranges::find(annotations, end_annotation, &Annotation::text);
    for (Channel& channel : recording.channels) {
        const double count = end == annotations.end() ? 0.0 : end->start.value() * channel.times.rate().value();
        if (count > 1.5 && count < static_cast<double>(channel.samples.size())) {
            channel.samples.resize(static_cast<std::size_t>(std::lround(count)));
            channel.times = TimeBase::regular(Seconds(0.0), channel.times.rate(), channel.samples.size());
        }
    }
}

/// Volts and microvolts of muscles as millivolts.
void in_millivolts(Channel& channel) {
    const double factor = channel.unit == "uV" ? 1e-3 : channel.unit == "V" ? 1e3 : 1.0;
    if (factor != 1.0) {
        std::ranges::transform(channel.samples, channel.samples.begin(), [=](double v) { return factor * v; });
        channel.unit = "mV";
    }
}

/// The channel that the user names by label or number, counted from 1.
std::size_t named_channel(const Recording& recording, const std::string& name, std::string_view option) {
    std::vector<std::string_view> names;
    for (std::size_t i = 0; i < recording.channels.size(); ++i) {
        const Channel& channel = recording.channels[i];
        if (channel.name == name || std::to_string(channel.column) == name) {
            return i;
        }
        names.emplace_back(channel.name);
    }
    const auto near = nearest(name, names);
    throw Failure(FailureKind::usage, "column-missing", fmt::format("{}: there is no signal '{}'", option, name),
                  near ? fmt::format("Did you mean '{}'?", *near) : "`inspect` lists them.", {recording.source});
}

void settle_roles(const ReadingOptions& options, Recording& recording) {
    for (const auto& [name, column] : options.emg_columns) {
        Channel& channel = recording.channels[named_channel(recording, column, "--emg")];
        channel.name = name;
        channel.role = ChannelRole::emg;
    }
    if (!options.angle_column.empty()) {
        recording.angle = named_channel(recording, options.angle_column, "--angle");
        recording.channels[*recording.angle].role = ChannelRole::angle;
    } else if (const auto angle = std::ranges::find(recording.channels, ChannelRole::angle, &Channel::role);
               angle != recording.channels.end()) {
        recording.angle = static_cast<std::size_t>(angle - recording.channels.begin());
    }
    for (Channel& channel : recording.channels) {
        if (channel.role == ChannelRole::emg) {
            in_millivolts(channel);
        }
    }
    if (recording.angle && !options.angle_unit.empty()) {
        recording.channels[*recording.angle].unit = options.angle_unit;
    }
}

}  // namespace

Recording read_edf(const std::filesystem::path& path, const ReadingOptions& options) {
    const EdfFile file(path);
    refuse_unusable(file, path.string());
    Recording recording;
    recording.source = path.string();
    recording.table.blocks.resize(1);
    for (std::size_t i = 0; i < file.signals(); ++i) {
        Channel channel;
        channel.name = trimmed(file.signal(i).label);
        channel.unit = trimmed(file.signal(i).physdimension);
        channel.column = i + 1;
        recording.table.headings.push_back(channel.name);
        recording.table.units.push_back(channel.unit);
        const ColumnRole role = role_by_name(channel.name, channel.unit);
        channel.role = role == ColumnRole::angle ? ChannelRole::angle
                       : role == ColumnRole::emg ? ChannelRole::emg
                                                 : ChannelRole::other;
        channel.samples = file.samples(i);
        if (channel.samples.size() < 2) {
            throw Failure(FailureKind::unreadable_data, "too-few-rows",
                          fmt::format("the signal '{}' has fewer than two samples", channel.name),
                          "A recording needs at least two samples.", {path.string()});
        }
        channel.times = TimeBase::regular(Seconds(0.0), file.rate(i), channel.samples.size());
        recording.channels.push_back(std::move(channel));
    }
    if (file.is_of_this_library()) {
        end_as_annotated(read_annotations(path).rows, recording);
    }
    for (const Channel& channel : recording.channels) {
        recording.table.rows = std::max(recording.table.rows, channel.samples.size());
    }
    settle_roles(options, recording);
    if (recording.angle) {
        recording.findings = angle_findings(recording.channels[*recording.angle]);
    }
    return recording;
}

#else

Recording read_edf(const std::filesystem::path& path, const ReadingOptions& /*options*/) {
    throw Failure(FailureKind::usage, "edf-unsupported", "this program was built without EDF",
                  "Build it where libedf-dev is installed, or use CSV.", {path.string()});
}

#endif

}  // namespace jointrom
