#pragma once

/// \file
/// Small recordings of an invented class.

#include <jointrom/core/whole_file.hpp>

#include <support/made_trace.hpp>
#include <support/scratch_folder.hpp>

#include <filesystem>
#include <string>

namespace jointrom::test {

/// Three flexions to `top_deg` as a sensor logs them that reads 180 with the limb straight; 100 Hz.
inline std::string made_recording(double top_deg, char delimiter = ',', char decimal = '.') {
    const auto angle_deg = minimum_jerk_path(repeated(3, 0.0, top_deg), 100.0);
    std::string text = std::string("Time (s)") + delimiter + "Elbow angle (deg)\n";
    for (std::size_t i = 0; i < angle_deg.size(); ++i) {
        std::string row = std::to_string(static_cast<double>(i) / 100.0) + "\n" + std::to_string(180.0 - angle_deg[i]);
        for (char& c : row) {
            c = c == '.' ? decimal : c == '\n' ? delimiter : c;
        }
        text += row + '\n';
    }
    return text;
}

/// The same as a BIDS motion recording at 100 Hz: STEM_motion.tsv, and what describes it.
inline void write_bids_recording(const std::filesystem::path& folder, const std::string& stem, double top_deg,
                                 const std::string& rate_hz = "100") {
    std::string text;
    for (const double angle_deg : minimum_jerk_path(repeated(3, 0.0, top_deg), 100.0)) {
        text += std::to_string(180.0 - angle_deg) + "\n";
    }
    write_whole_file(folder / (stem + "_channels.tsv"), "name\ttype\tunits\nelbow\tJNTANG\tdeg\n");
    write_whole_file(folder / (stem + "_motion.json"), "{\"SamplingFrequency\": " + rate_hz + "}");
    write_whole_file(folder / (stem + "_motion.tsv"), text);
}

/// A folder of recordings P01_left.csv, P01_right.csv, P02_left.csv, ...
struct MadeClass {
    ScratchFolder scratch;
    std::filesystem::path folder = scratch.path() / "class";

    explicit MadeClass(int participants) {
        std::filesystem::create_directory(folder);
        for (int p = 1; p <= participants; ++p) {
            for (const char* side : {"left", "right"}) {
                const double top_deg = 120.0 + 3.0 * p + (side[0] == 'l' ? 0.0 : 1.5);
                write_whole_file(folder / ("P0" + std::to_string(p) + "_" + side + ".csv"), made_recording(top_deg));
            }
        }
    }
};

}  // namespace jointrom::test
