#include <jointrom/core/failure.hpp>
#include <jointrom/core/version.hpp>
#include <jointrom/core/whole_file.hpp>
#include <jointrom/movement/angle_uncertainty.hpp>
#include <jointrom/report/angle_series.hpp>
#include <jointrom/report/bids_motion_files.hpp>

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include <regex>

namespace jointrom {
namespace {

/// What the name of a motion file says.
struct BidsName {
    std::string stem, task, system;
};

BidsName parsed_name(const std::filesystem::path& path) {
    static const std::regex form("(sub-[A-Za-z0-9]+(?:_ses-[A-Za-z0-9]+)?_task-([A-Za-z0-9]+)_tracksys-([A-Za-z0-9]+)"
                                 "(?:_acq-[A-Za-z0-9]+)?(?:_run-[0-9]+)?)_motion\\.tsv");
    const std::string name = path.filename().string();
    std::smatch found;
    if (!std::regex_match(name, found, form)) {
        throw Failure(FailureKind::usage, "bids-name", fmt::format("'{}' is no name of a BIDS motion file", name),
                      "Such as sub-P01_task-elbow_tracksys-goniometer_motion.tsv; labels are letters and digits.");
    }
    return {found[1], found[2], found[3]};
}

/// The rows that `angles` writes as CSV, without times and acceleration, with tabs and n/a.
std::string motion_text(const AngleTrace& trace) {
    std::string csv;
    angle_series_csv(trace, [&](std::string_view text) { csv += text; });
    std::string text;
    std::size_t line = csv.find('\n') + 1;
    while (line < csv.size()) {
        const std::size_t end = csv.find('\n', line);
        std::size_t cell = csv.find(',', line) + 1;
        for (int column = 0; column < 3; ++column) {
            const std::size_t comma = csv.find(',', cell);
            text += column > 0 ? "\t" : "";
            text += comma == cell ? "n/a" : csv.substr(cell, comma - cell);
            cell = comma + 1;
        }
        text += '\n';
        line = end + 1;
    }
    return text;
}

std::string channels_text(const AngleTrace& trace) {
    const JointMotion& motion = trace.motion();
    const std::string point = motion.is_known() ? motion.joint : "n/a";
    std::string text = "name\tcomponent\ttype\ttracked_point\tunits\tsampling_frequency\n";
    for (const auto& [name, type, units] : {std::tuple{"angle_deg", "JNTANG", "deg"},
                                            {"angle_u_deg", "MISC", "deg"},
                                            {"velocity_deg_s", "MISC", "deg/s"}}) {
        text += fmt::format("{}\tn/a\t{}\t{}\t{}\t{}\n", name, type, point, units, trace.rate().value());
    }
    return text;
}

std::string sidecar_text(const AngleTrace& trace, const BidsName& name) {
    const JointMotion& motion = trace.motion();
    const std::string what = motion.is_known() ? motion.joint + " " + motion.motion : "a joint's motion";
    const nlohmann::ordered_json sidecar{
        {"TaskName", name.task},
        {"TaskDescription",
         fmt::format("Angle of {}{}: 0 in the neutral posture, positive in {}.", what,
                     trace.side() == Side::unknown ? "" : fmt::format(", {}", name_of(trace.side())), motion.positive)},
        {"TrackingSystemName", name.system},
        {"SamplingFrequency", trace.rate().value()},
        {"JNTANGChannelCount", 1},
        {"MISCChannelCount", 2},
        {"MotionChannelCount", 3},
        {"RecordingDuration", static_cast<double>(trace.size()) / trace.rate().value()},
        {"MissingValues", "n/a"},
        {"SoftwareVersions", fmt::format("jointrom {}", version())}};
    return sidecar.dump(2, ' ', false, nlohmann::ordered_json::error_handler_t::replace) + "\n";
}

}  // namespace

BidsMotionFiles bids_motion_files(const AngleTrace& trace, const std::filesystem::path& path) {
    const BidsName name = parsed_name(path);
    return {motion_text(trace), channels_text(trace), sidecar_text(trace, name)};
}

void write_bids_motion(const AngleTrace& trace, const std::filesystem::path& path) {
    const std::string stem = parsed_name(path).stem;
    const BidsMotionFiles files = bids_motion_files(trace, path);
    write_whole_file(path.parent_path() / (stem + "_channels.tsv"), files.channels);
    write_whole_file(path.parent_path() / (stem + "_motion.json"), files.sidecar);
    write_whole_file(path, files.motion);
}

}  // namespace jointrom
