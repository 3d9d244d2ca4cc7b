#include "cli/command.hpp"
#include "cli/plot_request.hpp"

#include <jointrom/angle/calibration_file.hpp>
#include <jointrom/batch/results_folder.hpp>
#include <jointrom/core/failure.hpp>
#include <jointrom/core/number_text.hpp>
#include <jointrom/figure/calibration_figure.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <filesystem>
#include <memory>

namespace jointrom::cli {
namespace {

enum class FigureInput { recording, class_table, calibration_file };

struct FigureKind {
    std::string_view name;
    FigureInput input;
};
constexpr std::array figure_kinds{
    FigureKind{"angle", FigureInput::recording},          FigureKind{"velocity", FigureInput::recording},
    FigureKind{"angle-velocity", FigureInput::recording}, FigureKind{"angle-activity", FigureInput::recording},
    FigureKind{"curve", FigureInput::recording},          FigureKind{"cutoff", FigureInput::recording},
    FigureKind{"class", FigureInput::class_table},        FigureKind{"sides", FigureInput::class_table},
    FigureKind{"agreement", FigureInput::class_table},    FigureKind{"calibration", FigureInput::calibration_file}};

constexpr double least_width_px = 200.0;
constexpr double least_height_px = 150.0;
constexpr double largest_px = 10000.0;

double number_or_nan(const std::string& text) {
    return parse_number(text).value_or(std::nan(""));
}

void read_size(PlotRequest& request) {
    if (request.size.empty()) {
        return;
    }
    const std::size_t cross = request.size.find_first_of("xX");
    const double width = number_or_nan(request.size.substr(0, cross));
    const double height = cross == std::string::npos ? std::nan("") : number_or_nan(request.size.substr(cross + 1));
    const auto fits = [](double px, double least) { return px >= least && px <= largest_px && px == std::floor(px); };
    if (!fits(width, least_width_px) || !fits(height, least_height_px)) {
        throw Failure(FailureKind::usage, "setting-invalid",
                      fmt::format("--size {}: expected WIDTHxHEIGHT in whole pixels, {:g}x{:g} to {:g}x{:g}",
                                  request.size, least_width_px, least_height_px, largest_px, largest_px),
                      "Write --size 800x500, for instance.");
    }
    request.style.width_px = static_cast<std::size_t>(width);
    request.style.height_px = static_cast<std::size_t>(height);
}

void refuse_other_formats(const std::string& output) {
    const std::string extension = std::filesystem::path(output).extension().string();
    if (extension != ".png" && extension != ".pdf" && extension != ".jpg" && extension != ".jpeg" &&
        extension != ".eps") {
        return;
    }
    throw Failure(FailureKind::usage, "format-unknown", fmt::format("figures are written as SVG, not as {}", extension),
                  "Write FILE.svg and turn it into another format: rsvg-convert -f pdf -o FILE.pdf FILE.svg "
                  "(Debian: librsvg2-bin).");
}

/// The name of the file, without its folder.
std::string name_of_file(const std::string& file) {
    return file == "-" ? std::string("standard input") : file.substr(file.rfind('/') + 1);
}

std::string drawn(const PlotRequest& request, Console& console, Findings& findings) {
    const auto* const kind = std::ranges::find(figure_kinds, request.figure, &FigureKind::name);
    const bool has_class_options = !request.value.empty() || !request.by.empty() || !request.repeat.empty() ||
                                   !request.participant.empty() || !request.only.empty();
    if (has_class_options && kind->input != FigureInput::class_table) {
        throw Failure(
            FailureKind::usage, "option-without-use",
            fmt::format("--value, --by, --repeat, --participant and --only belong to class tables; the figure "
                        "{} takes none",
                        request.figure),
            "Choose --figure class, sides or agreement, or leave the option out.");
    }
    switch (kind->input) {
    case FigureInput::recording:
        return trial_figure(request, console, findings);
    case FigureInput::class_table:
        return class_table_figure(request, console, findings);
    case FigureInput::calibration_file:
        break;
    }
    return calibration_figure(read_calibration(request.file), request.style);
}

ExitStatus run_plot(PlotRequest request, Console& console) {
    request.file = results_table_named(request.file);
    read_size(request);
    refuse_other_formats(request.output.output);
    if (request.style.subtitle.empty()) {
        request.style.subtitle = name_of_file(request.file);
    }
    Findings findings;
    const std::string svg = drawn(request, console, findings);
    request.output.write(findings, console, [&](const TextSink& sink) { sink(svg); });
    return exit_done;
}

}  // namespace

Action attach_plot(OptionList& list) {
    auto request = std::make_shared<PlotRequest>();
    list.argument("file", request->file, "FILE",
                  "a recording, as the logger exported it; a class table such as trials.csv, or the folder that "
                  "batch wrote; or a calibration file")
        .required();
    list.group("Figure");
    list.value("--figure", request->figure, "NAME",
               "of a recording: angle, velocity, angle-velocity, angle-activity, curve (the mean repetition), cutoff "
               "(of the low-pass); of a class table: class, sides, agreement; of a calibration file: calibration")
        .one_of({"angle", "velocity", "angle-velocity", "angle-activity", "curve", "cutoff", "class", "sides",
                 "agreement", "calibration"})
        .otherwise("angle");
    list.value("--size", request->size, "WxH", "width and height in pixels, such as 800x500");
    list.value("--title", request->style.title, "TEXT", "instead of the figure's own title");
    list.value("--subtitle", request->style.subtitle, "TEXT", "beneath the title, instead of the file's name");
    list.group("Class tables");
    list.value("--value", request->value, "COLUMN", "measured column; else positive_deg, or arc_deg");
    list.value("--by", request->by, "COLUMN,...",
               "group by these; else by those of joint, motion, side, condition that are there");
    list.values("--only", request->only, "COLUMN=TEXT", "rows with that text only");
    list.value("--participant", request->participant, "COLUMN", "whose a value is (participant or subject)");
    list.value("--repeat", request->repeat, "COLUMN",
               "what tells the measurements of a participant apart (the first of trial, rater, condition that varies)");
    request->norms.attach(list, false);
    request->settings.attach(list, {SettingGroup::reading, SettingGroup::joint, SettingGroup::angle,
                                    SettingGroup::phases, SettingGroup::turning_points, SettingGroup::activity});
    list.group("Output");
    list.value("--output", request->output.output, "FILE", "write to FILE.svg instead of standard output");
    list.flag("--quiet", request->output.quiet, "print no notes and warnings");
    return [request](Console& console) { return run_plot(*request, console); };
}

}  // namespace jointrom::cli
