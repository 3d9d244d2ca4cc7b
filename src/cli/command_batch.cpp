#include "cli/command.hpp"
#include "cli/interruption.hpp"
#include "cli/output_options.hpp"
#include "cli/progress_line.hpp"
#include "cli/setting_options.hpp"

#include "analysis/setting_text.hpp"

#include <jointrom/batch/folder_list.hpp>
#include <jointrom/batch/manifest.hpp>
#include <jointrom/batch/run_batch.hpp>
#include <jointrom/core/failure.hpp>
#include <jointrom/report/render.hpp>

#include <fmt/ostream.h>

#include <istream>
#include <iterator>
#include <memory>
#include <optional>
#include <thread>

namespace jointrom::cli {
namespace {

struct ClassOptions {
    std::string source;
    std::string into;
    std::string pattern;
    std::string files_from;
    std::string shard = "1/1";
    std::string threads;
    std::string key_file;
    bool resume = false;
    bool ndjson = false;
    SettingOptions settings;
    OutputOptions output;
};

std::vector<std::string> files_named(const ClassOptions& options, Console& console) {
    if (options.files_from != "-") {
        return listed_names(read_whole_file(options.files_from, "list of files"));
    }
    return listed_names(std::string(std::istreambuf_iterator<char>(console.in), {}));
}

ClassList class_list(const ClassOptions& options, Console& console) {
    std::optional<NamePattern> pattern;
    if (!options.pattern.empty()) {
        pattern.emplace(options.pattern);
    }
    if (options.source.empty()) {
        if (options.files_from.empty()) {
            throw Failure(FailureKind::usage, "class-missing", "there is no class to measure",
                          "Name a manifest or a folder, or a list of files with --files-from.");
        }
        return list_files(files_named(options, console), pattern);
    }
    const bool is_folder = std::filesystem::is_directory(options.source);
    if (!is_folder && pattern) {
        throw Failure(FailureKind::usage, "pattern-unused",
                      "--pattern is for a folder; a manifest says who was recorded",
                      "Leave --pattern out, or name the folder.");
    }
    ClassList list = is_folder ? list_folder(options.source, pattern) : read_manifest(options.source);
    if (!options.files_from.empty()) {
        want_listed(list, files_named(options, console));
    }
    return list;
}

std::optional<Pseudonyms> pseudonyms(const ClassOptions& options, const ClassList& list) {
    if (options.key_file.empty()) {
        return std::nullopt;
    }
    const auto key = std::filesystem::weakly_canonical(options.key_file);
    const auto inside = key.lexically_relative(std::filesystem::weakly_canonical(options.into));
    if (!inside.empty() && *inside.begin() != "..") {
        throw Failure(FailureKind::usage, "key-in-results", "the key file would lie in the folder for results",
                      "Keep it apart: whoever has both knows who is who.", {options.key_file});
    }
    std::vector<std::string> participants, raters;
    for (const ClassEntry& entry : list.entries) {
        participants.push_back(entry.subject.participant);
        raters.push_back(entry.subject.rater);
    }
    return Pseudonyms(options.key_file, participants, raters);
}

std::size_t thread_count(const ClassOptions& options) {
    return options.threads.empty() ? std::max(1U, std::thread::hardware_concurrency())
                                   : std::min<std::size_t>(count_setting("--threads", options.threads), 1024);
}

ExitStatus finish(const ClassOptions& options, const BatchPlan& plan, const BatchResult& result, Report report,
                  ResultsFolder& folder, Console& console) {
    folder.append(std::string(settings_file_name), json_report(report));
    folder.commit();
    if (result.taken_over > 0) {
        report.remarks.push_back(fmt::format("{} had not changed and were taken over.", result.taken_over));
    }
    report.remarks.push_back(fmt::format("The tables are in {}.", options.into));
    constexpr std::size_t most_printed = 20;
    if (report.findings.size() > most_printed) {
        report.remarks.push_back(fmt::format("The other {} findings about the class are in class_findings.csv.",
                                             report.findings.size() - most_printed));
        report.findings.erase(report.findings.begin() + most_printed, report.findings.end());
    }
    options.output.write(report, console);
    if (result.rows.size() < plan.tasks.size()) {
        fmt::print(console.err, "jointrom: interrupted after {} of {} recordings; go on with --resume\n",
                   result.rows.size(), plan.tasks.size());
        return exit_interrupted;
    }
    return result.failed > 0 ? exit_not_met : exit_done;
}

ExitStatus run_class(const ClassOptions& options, Console& console) {
    const Settings settings = options.settings.settings();
    const Shard shard = shard_named(options.shard);
    const std::size_t threads = thread_count(options);
    ClassList list = class_list(options, console);
    refuse_problems(list.problems);
    const InputFile source{list.source, list.sha256, list.entries.size()};
    const std::optional<Pseudonyms> codes = pseudonyms(options, list);
    const BatchPlan plan = plan_batch(std::move(list), settings, shard, codes ? &*codes : nullptr);

    ResultsFolder folder(options.into);
    if (folder.has_earlier() && !options.resume && !options.output.quiet) {
        fmt::print(console.err, "jointrom: note: the earlier results in {} are replaced\n", options.into);
    }
    const EarlierResults earlier =
        options.resume && folder.has_earlier() ? EarlierResults(folder.path()) : EarlierResults();
    const Interruption interruption;
    BatchResult result;
    {
        ProgressLine line(console.err);
        const BatchOptions batch{.threads = threads,
                                 .ndjson = options.ndjson,
                                 .progress = [&](const BatchProgress& progress) { line.show(progress); }};
        result = run_batch(plan, earlier, folder, batch, Interruption::requested());
    }
    return finish(options, plan, result, batch_report(plan, result, source), folder, console);
}

}  // namespace

Action attach_batch(OptionList& list) {
    auto options = std::make_shared<ClassOptions>();
    list.argument("class", options->source, "MANIFEST|FOLDER", "a manifest, or a folder of recordings");
    list.group("The class");
    list.value("--into", options->into, "FOLDER", "the folder for the tables; new, empty, or that of an earlier run")
        .required();
    list.value("--pattern", options->pattern, "PATTERN",
               "how the files of a folder are named, such as '{participant}_{side}_{trial}.csv'; * is anything");
    list.value("--files-from", options->files_from, "FILE",
               "only the files that FILE names, one a line or each before a NUL; - for standard input");
    list.value("--shard", options->shard, "K/N", "the K-th of N parts of the class").otherwise("1/1");
    list.value("--pseudonymise", options->key_file, "KEYFILE",
               "write random codes instead of names; KEYFILE tells whose they are and is made unless it is there");
    list.value("--threads", options->threads, "N",
               "recordings measured at a time; otherwise as many as there are processors");
    list.flag("--resume", options->resume, "keep earlier results of recordings and settings that have not changed");
    list.flag("--ndjson", options->ndjson, "write each table also as NDJSON, an object a line");
    options->settings.attach(list, {SettingGroup::reading, SettingGroup::joint, SettingGroup::angle,
                                    SettingGroup::phases, SettingGroup::activity});
    options->output.attach(list, false);
    return [options](Console& console) { return run_class(*options, console); };
}

}  // namespace jointrom::cli
