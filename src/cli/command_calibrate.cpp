#include "cli/command.hpp"
#include "cli/output_options.hpp"
#include "cli/setting_options.hpp"

#include "analysis/setting_text.hpp"

#include <jointrom/analysis/calibration_points.hpp>
#include <jointrom/angle/calibration_file.hpp>
#include <jointrom/angle/control_point.hpp>
#include <jointrom/core/failure.hpp>
#include <jointrom/core/whole_file.hpp>
#include <jointrom/report/calibration_tables.hpp>

#include <fmt/format.h>

#include <memory>
#include <utility>

namespace jointrom::cli {
namespace {

struct CalibrateOptions {
    std::vector<std::string> points;
    std::vector<std::string> controls;
    std::string unit;
    std::string gain;
    std::string known_u = "0";
    std::string tolerance;
    std::string calibration_file;
    SettingOptions settings;
    OutputOptions output;
};

CalibrationOptions fit_options(const CalibrateOptions& options, const Settings& settings,
                               const std::string& read_unit) {
    CalibrationOptions fit;
    fit.side = settings.preparation.side;
    if (!settings.joint.empty()) {
        fit.motion = joint_motion(settings.joint, settings.motion);
    }
    if (!options.unit.empty()) {
        fit.unit = options.unit;
    } else if (!read_unit.empty()) {
        fit.unit = read_unit;
    }
    if (!options.gain.empty()) {
        fit.gain_deg_per_unit = number_setting("--gain", options.gain);
    }
    return fit;
}

std::vector<ControlResult> judged(const CalibrateOptions& options, const Settings& settings,
                                  const Calibration& calibration, Degrees known_u, Console& console,
                                  Findings& findings) {
    std::vector<ControlResult> results;
    if (options.controls.empty()) {
        return results;
    }
    if (options.tolerance.empty()) {
        throw Failure(FailureKind::usage, "tolerance-missing", "control points need --tolerance-deg",
                      "Say how far off a control point may be, such as --tolerance-deg 2.");
    }
    const double tolerance_deg = positive_setting("--tolerance-deg", options.tolerance);
    const NamedPoints named = calibration_points(options.controls, settings, known_u, console.in);
    for (const CalibrationPoint& point : named.points) {
        results.push_back(judge_control_point(calibration, point, tolerance_deg, findings));
    }
    return results;
}

ExitStatus run_calibrate(const CalibrateOptions& options, Console& console) {
    const Settings settings = options.settings.settings();
    const Degrees known_u(number_setting("--known-u-deg", options.known_u));
    if (known_u < Degrees(0.0)) {
        refuse_setting("--known-u-deg", options.known_u, "0 or more");
    }
    NamedPoints named = calibration_points(options.points, settings, known_u, console.in);
    const CalibrationOptions fit = fit_options(options, settings, named.unit);
    Report report;
    report.schema = "jointrom-calibrate";
    report.title = "calibration";
    report.findings = named.findings;
    for (const auto& [file, rows] : named.files) {
        report.inputs.push_back(options.output.input(file, rows));
    }
    const Calibration calibration = fit_calibration(std::move(named.points), fit, report.findings);
    const auto controls = judged(options, settings, calibration, known_u, console, report.findings);

    report.settings = options.settings.in_force(settings);
    report.tables = {calibration_table(calibration), calibration_point_table(calibration), control_table(controls)};
    for (const ControlResult& control : controls) {
        report.budgets.emplace_back(fmt::format("the error at {:g} deg", control.point.known_deg), control.budget);
    }
    if (controls.empty()) {
        const double middle = 0.5 * (calibration.reading_min + calibration.reading_max);
        report.budgets.emplace_back(
            fmt::format("one angle in the middle of the calibrated range, at {:.5g} {}", middle, calibration.unit),
            reading_budget(calibration, middle));
    }
    report.remarks.push_back(fmt::format("Calibrated from {:.5g} to {:.5g} {}.", calibration.reading_min,
                                         calibration.reading_max, calibration.unit));
    if (!options.calibration_file.empty()) {
        write_whole_file(options.calibration_file, calibration_text(calibration));
        report.remarks.push_back(fmt::format("Written to {}.", options.calibration_file));
    }
    options.output.write(report, console);
    for (const ControlResult& control : controls) {
        if (control.verdict != Conformity::inside) {
            return exit_not_met;
        }
    }
    return exit_done;
}

}  // namespace

Action attach_calibrate(OptionList& list) {
    auto options = std::make_shared<CalibrateOptions>();
    list.group("Calibration");
    list.values("--point", options->points, "ANGLE=READING",
                "a known angle and its reading; or ANGLE=FILE@START,END; or ANGLES=FILE for angles held in turn")
        .required();
    list.values("--control", options->controls, "ANGLE=READING", "a known angle kept out of the line, to judge it by");
    list.value("--tolerance-deg", options->tolerance, "D",
               "how far off a control point may be, in degrees; needed with --control");
    list.value("--known-u-deg", options->known_u, "U", "standard uncertainty of the known angles, in degrees")
        .otherwise(options->known_u);
    list.value("--unit", options->unit, "UNIT",
               "unit of the readings: deg, V, mV, counts, ...; otherwise as the recordings say")
        .suggest(setting_choices("angle-unit"));
    list.value("--gain", options->gain, "G", "deg per unit, for a single point");
    list.value("--save", options->calibration_file, "FILE", "write the calibration file for --calibration");
    options->settings.attach(list, {SettingGroup::reading, SettingGroup::joint});
    options->output.attach(list, true);
    return [options](Console& console) { return run_calibrate(*options, console); };
}

}  // namespace jointrom::cli
