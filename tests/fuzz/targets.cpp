#include "targets.hpp"

#include <jointrom/analysis/measure_activity.hpp>
#include <jointrom/analysis/measurements.hpp>
#include <jointrom/analysis/trial.hpp>
#include <jointrom/angle/calibration_file.hpp>
#include <jointrom/batch/answer_sheet.hpp>
#include <jointrom/batch/long_table.hpp>
#include <jointrom/batch/manifest.hpp>
#include <jointrom/batch/name_pattern.hpp>
#include <jointrom/core/failure.hpp>
#include <jointrom/norms/measured_person.hpp>
#include <jointrom/norms/norm_table.hpp>
#include <jointrom/recording/annotations.hpp>

#include <support/scratch_folder.hpp>

#include <array>
#include <fstream>
#include <sstream>

namespace jointrom::test {
namespace {

/// From the text of a recording to everything that is measured in it.
void read_a_recording(std::string_view bytes) {
    const auto source = text_source(bytes);
    const Settings settings;
    std::istringstream nothing;
    const Trial trial = prepare_trial(read_recording(*source, "recording", settings.reading), settings, {});
    (void)measure(trial.trace, settings);
    (void)measure_activity(trial, settings, nothing, FrequencyWish::required);
}

void read_a_calibration(std::string_view bytes) {
    (void)parse_calibration(bytes, "calibration");
}

void read_a_norm_table(std::string_view bytes) {
    const auto source = text_source(bytes);
    (void)read_norm_table(*source, "norms");
}

void read_measurements_of_people(std::string_view bytes) {
    const auto source = text_source(bytes);
    for (const MeasuredPerson& person : read_measured_people(*source, "people").people) {
        (void)judge_person(built_in_norms(), person);
    }
}

/// Results and answers in one table, as if somebody had kept both in it.
void read_an_answer_sheet(std::string_view bytes) {
    const auto answers = text_source(bytes), results = text_source(bytes);
    RecordReader answer_reader(*answers, "answers"), result_reader(*results, "results");
    (void)grade_answers(read_answers(answer_reader), read_computed(result_reader));
}

void read_a_long_table(std::string_view bytes) {
    std::istringstream standard_input{std::string(bytes)};
    const std::array<std::string, 1> files{"-"};
    (void)read_long_table(files, standard_input, [](const std::vector<std::string>& headings) {
        return headings.empty() ? LongTableRequest{}
                                : LongTableRequest{.texts = {headings.front()}, .numbers = {headings.back()}};
    });
}

/// The file that holds the bytes, for what is read by name.
std::filesystem::path file_of(const ScratchFolder& folder, std::string_view bytes, const char* name = "input") {
    const auto path = folder.path() / name;
    std::ofstream(path, std::ios::binary) << bytes;
    return path;
}

void read_a_manifest(std::string_view bytes) {
    static const ScratchFolder folder;
    (void)read_manifest(file_of(folder, bytes));
}

void read_an_edf_file(std::string_view bytes) {
    static const ScratchFolder folder;
    const auto path = file_of(folder, bytes, "input.edf");
    (void)read_annotations(path);
    (void)read_recording(path);
}

void read_a_settings_file(std::string_view bytes) {
    static const ScratchFolder folder;
    Settings settings;
    apply_settings_file(file_of(folder, bytes), settings);
}

/// What is typed: a pattern and a name, parted by a line end; and the name as the value of each setting.
void read_typed_texts(std::string_view bytes) {
    const auto cut = std::min(bytes.find('\n'), bytes.size());
    const std::string_view value = cut < bytes.size() ? bytes.substr(cut + 1) : bytes;
    for (const SettingKind& kind : setting_catalogue()) {
        try {
            Settings settings;
            kind.set(settings, value);
            (void)kind.text(settings);
        } catch (const Failure&) {  // every setting is to be tried
        }
    }
    (void)NamePattern(bytes.substr(0, cut)).fit(value);
}

constexpr std::array<FuzzTarget, 10> targets{{
    {"recording", read_a_recording},
    {"calibration", read_a_calibration},
    {"norms", read_a_norm_table},
    {"people", read_measurements_of_people},
    {"answers", read_an_answer_sheet},
    {"long_table", read_a_long_table},
    {"manifest", read_a_manifest},
    {"edf", read_an_edf_file},
    {"settings", read_a_settings_file},
    {"typed", read_typed_texts},
}};

}  // namespace

std::span<const FuzzTarget> fuzz_targets() {
    return targets;
}

void read_safely(const FuzzTarget& target, std::string_view bytes) {
    try {
        target.read(bytes);
    } catch (const Failure&) {  // said in words what is wrong
    }
}

}  // namespace jointrom::test
