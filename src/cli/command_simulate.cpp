#include "cli/command.hpp"

#include <jointrom/core/failure.hpp>
#include <jointrom/core/whole_file.hpp>
#include <jointrom/report/render.hpp>
#include <jointrom/report/simulation_tables.hpp>
#include <jointrom/simulate/simulated_recording.hpp>
#include <jointrom/simulate/simulation_settings.hpp>

#include <fmt/format.h>

#include <filesystem>
#include <map>
#include <memory>
#include <optional>
#include <ostream>
#include <set>

namespace jointrom::cli {
namespace {

struct SimulateOptions {
    std::string preset;
    std::string into;
    std::string output;
    bool quiet = false;
    std::map<std::string_view, std::vector<std::string>> texts;
    std::map<std::string_view, std::optional<bool>> switches;
};

struct Planned {
    const Simulation* simulation;
    PlannedRecording recording;
};

SimulationTexts typed(const SimulateOptions& options) {
    SimulationTexts texts;
    for (const SimulationSetting& setting : simulation_settings()) {
        if (const auto values = options.texts.find(setting.name); values != options.texts.end()) {
            for (const std::string& text : values->second) {
                texts.emplace_back(&setting, text);  // of a setting that cannot be repeated, the last one stays
            }
        }
        if (const auto chosen = options.switches.find(setting.name);
            chosen != options.switches.end() && chosen->second) {
            texts.emplace_back(&setting, *chosen->second ? "true" : "false");
        }
    }
    return texts;
}

std::vector<Simulation> simulations(const SimulateOptions& options) {
    const SimulationTexts texts = typed(options);
    if (!options.preset.empty()) {
        return read_preset(options.preset, texts);
    }
    Simulation simulation;
    apply_texts(texts, simulation);
    return {simulation};
}

std::vector<Planned> planned(const std::vector<Simulation>& simulations) {
    std::vector<Planned> all;
    std::set<std::string> files;
    for (const Simulation& simulation : simulations) {
        for (PlannedRecording& recording : planned_recordings(simulation)) {
            if (!files.insert(recording.file).second) {
                throw Failure(FailureKind::usage, "simulation-invalid",
                              fmt::format("two recordings would be called {}", recording.file),
                              "Give them names of their own with --file, or file in the preset.");
            }
            all.push_back({&simulation, std::move(recording)});
        }
    }
    return all;
}

void make_folder(const std::filesystem::path& folder) {
    std::error_code error;
    std::filesystem::create_directories(folder, error);
    if (!std::filesystem::is_directory(folder)) {
        throw Failure(FailureKind::cannot_create, "cannot-create", "cannot make the folder", {}, {folder.string()});
    }
}

ExitStatus write_folder(const SimulateOptions& options, const std::vector<Planned>& all, Console& console) {
    const std::filesystem::path folder(options.into);
    make_folder(folder);
    ResultTable truths = truth_table();
    std::vector<PlannedRecording> listed;
    for (const Planned& plan : all) {
        const SimulatedRecording recording = simulate(*plan.simulation, plan.recording);
        write_whole_file(folder / plan.recording.file, recording_text(recording));
        write_whole_file(folder / truth_file(plan.recording.file), truth_text(recording));
        add_truth(truths, recording);
        listed.push_back(plan.recording);
    }
    write_whole_file(folder / "manifest.csv", manifest_text(listed));
    if (!options.quiet) {
        Report report;
        report.title = "simulated recordings and their true angles";
        report.tables.push_back(std::move(truths));
        report.remarks.push_back(
            fmt::format("The recordings, the truth of each and manifest.csv are in {}.", options.into));
        console.out << text_report(report, false);
    }
    return exit_done;
}

ExitStatus run_simulate(const SimulateOptions& options, Console& console) {
    const std::vector<Simulation> asked = simulations(options);
    const std::vector<Planned> all = planned(asked);
    if (!options.into.empty()) {
        return write_folder(options, all, console);
    }
    if (all.size() != 1) {
        throw Failure(FailureKind::usage, "folder-missing", fmt::format("{} recordings need a folder", all.size()),
                      "Name it with --into FOLDER.");
    }
    SimulatedRecording recording = simulate(*all.front().simulation, all.front().recording);
    if (options.output.empty() || options.output == "-") {
        console.out << recording_text(recording);
        return exit_done;
    }
    recording.plan.file = std::filesystem::path(options.output).filename().string();
    write_whole_file(options.output, recording_text(recording));
    write_whole_file(truth_file(options.output), truth_text(recording));
    return exit_done;
}

std::string_view heading_of(SimulationGroup group) {
    switch (group) {
    case SimulationGroup::who:
        return "What is recorded";
    case SimulationGroup::movement:
        return "The movement";
    case SimulationGroup::sensor:
        return "The sensor";
    case SimulationGroup::muscles:
        return "Electromyograms";
    case SimulationGroup::logger:
        return "The logger";
    case SimulationGroup::people:
        break;
    }
    return "The class";
}

}  // namespace

Action attach_simulate(OptionList& list) {
    auto options = std::make_shared<SimulateOptions>();
    list.argument(
        "preset", options->preset, "PRESET",
        "a session as JSON: keys as the options with _ for -, and a list \"recordings\"; options overrule it");
    for (const SimulationSetting& setting : simulation_settings()) {
        list.group(heading_of(setting.group));
        if (setting.value.empty()) {
            list.on_or_off(setting.name, options->switches[setting.name], setting.help);
        } else {
            list.values("--" + std::string(setting.name), options->texts[setting.name], setting.value, setting.help);
        }
    }
    list.group("Output");
    list.value("--into", options->into, "FOLDER", "write the recordings, the truth beside each, and a manifest");
    list.value("--output", options->output, "FILE",
               "write one recording to FILE instead of standard output, and its truth beside it");
    list.flag("--quiet", options->quiet, "print no table of what was made");
    return [options](Console& console) { return run_simulate(*options, console); };
}

}  // namespace jointrom::cli
