#include <jointrom/core/failure.hpp>
#include <jointrom/core/whole_file.hpp>
#include <jointrom/recording/bids_motion.hpp>
#include <jointrom/recording/recording_files.hpp>
#include <jointrom/table/record_reader.hpp>

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include <algorithm>
#include <array>

namespace jointrom {
namespace {

constexpr std::string_view ending = "_motion.tsv";

struct BidsChannel {
    std::string name, type, units;
};

std::vector<BidsChannel> read_channels(const std::filesystem::path& path) {
    RecordReader rows(path);
    const std::size_t name = rows.column("name");
    const std::size_t type = rows.column("type");
    const std::size_t units = rows.column("units");
    std::vector<BidsChannel> channels;
    while (rows.next()) {
        channels.push_back({std::string(rows.text(name)), std::string(rows.text(type)), std::string(rows.text(units))});
    }
    return channels;
}

Hertz read_rate(const std::filesystem::path& path) {
    const nlohmann::json sidecar =
        nlohmann::json::parse(read_whole_file(path, "sidecar of the motion file"), nullptr, false);
    const bool has_rate = sidecar.is_object() && sidecar.contains("SamplingFrequency") &&
                          sidecar["SamplingFrequency"].is_number() && sidecar["SamplingFrequency"].get<double>() > 0.0;
    if (!has_rate) {
        throw Failure(FailureKind::unreadable_data, "bids-sidecar", "there is no SamplingFrequency above 0",
                      "The file must be a JSON object with \"SamplingFrequency\": RATE in Hz.", {path.string()});
    }
    return Hertz(sidecar["SamplingFrequency"].get<double>());
}

/// "knee (deg)"; a name that ends in its unit already, such as angle_deg, stays as it is.
std::string heading_of(const BidsChannel& channel) {
    std::string unit = channel.units;
    std::ranges::replace(unit, '/', '_');
    const bool says_unit = unit.empty() || unit == "n_a" || channel.name.ends_with("_" + unit);
    return says_unit ? channel.name : fmt::format("{} ({})", channel.name, channel.units);
}

/// A row of headings, then the file.
class HeadedSource : public ByteSource {
  public:
    HeadedSource(std::string head, const std::filesystem::path& path)
        : head_(std::move(head)), file_(file_source(path)) {}

    std::size_t read(std::span<char> buffer) override {
        if (used_ == head_.size()) {
            return file_->read(buffer);
        }
        const std::size_t count = head_.copy(buffer.data(), buffer.size(), used_);
        used_ += count;
        return count;
    }

    [[nodiscard]] std::size_t size_hint() const noexcept override { return file_->size_hint(); }

  private:
    std::string head_;
    std::size_t used_ = 0;
    std::unique_ptr<ByteSource> file_;
};

std::size_t columns_of(const std::filesystem::path& path) {
    std::array<char, 65536> buffer{};
    const std::size_t count = file_source(path)->read(buffer);
    const std::string_view text(buffer.data(), count);
    return static_cast<std::size_t>(std::ranges::count(text.substr(0, text.find('\n')), '\t')) + 1;
}

/// What the channels say of the columns, where the user has not.
ReadingOptions completed(ReadingOptions options, const std::vector<BidsChannel>& channels, Hertz rate) {
    const auto latency = std::ranges::find(channels, "LATENCY", &BidsChannel::type);
    if (latency != channels.end() && options.time_column.empty()) {
        options.time_column = std::to_string(latency - channels.begin() + 1);
    }
    if (options.time_column.empty() && !options.rate.is_set()) {
        options.rate = rate;
    }
    const auto angle = std::ranges::find(channels, "JNTANG", &BidsChannel::type);
    if (options.angle_column.empty() && std::ranges::count(channels, "JNTANG", &BidsChannel::type) == 1) {
        options.angle_column = std::to_string(angle - channels.begin() + 1);
    }
    options.delimiter = '\t';
    options.decimal_mark = '.';
    return options;
}

}  // namespace

bool is_bids_motion(const std::filesystem::path& path) {
    return path.filename().string().ends_with(ending);
}

std::string bids_label(const std::filesystem::path& path, std::string_view entity) {
    const std::string name = path.filename().string();
    for (std::size_t start = 0; start < name.size();) {
        const std::string_view part = std::string_view(name).substr(start, name.find('_', start) - start);
        const std::size_t dash = part.find('-');
        if (dash != std::string_view::npos && part.substr(0, dash) == entity) {
            return std::string(part.substr(dash + 1));
        }
        start += part.size() + 1;
    }
    return {};
}

Recording read_bids_motion(const std::filesystem::path& path, const ReadingOptions& options) {
    const std::vector<std::filesystem::path> files = recording_files(path);
    if (files.size() < 3) {
        throw Failure(FailureKind::missing_file, "file-missing", "there is no such file",
                      "Check the name and the folder.", {path.string()});
    }
    const std::filesystem::path& channels_file = files[1];
    const std::vector<BidsChannel> channels = read_channels(channels_file);
    if (const std::size_t columns = columns_of(path); columns != channels.size()) {
        throw Failure(FailureKind::unreadable_data, "bids-columns",
                      fmt::format("{} channels are listed, the motion file has {} columns", channels.size(), columns),
                      "Both must have the same channels in the same order.", {channels_file.string()});
    }
    std::string head;
    for (const BidsChannel& channel : channels) {
        head += (head.empty() ? "" : "\t") + heading_of(channel);
    }
    HeadedSource source(head + "\n", path);
    return read_recording(source, path.string(), completed(options, channels, read_rate(files[2])));
}

}  // namespace jointrom
