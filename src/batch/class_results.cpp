#include <jointrom/batch/class_results.hpp>

#include <jointrom/batch/outcome_tables.hpp>
#include <jointrom/batch/results_folder.hpp>
#include <jointrom/core/checksum.hpp>
#include <jointrom/core/failure.hpp>
#include <jointrom/core/number_text.hpp>
#include <jointrom/core/whole_file.hpp>
#include <jointrom/report/render.hpp>
#include <jointrom/table/record_reader.hpp>

#include <nlohmann/json.hpp>

namespace jointrom {
namespace {

namespace fs = std::filesystem;
using Json = nlohmann::ordered_json;

std::string setting_text(const Json& value) {
    return value.is_null()     ? std::string()
           : value.is_string() ? value.get<std::string>()
           : value.is_number() ? shortest_text(value.get<double>())
                               : value.dump(-1, ' ', false, Json::error_handler_t::replace);
}

void read_settings(const fs::path& file, ClassResults& results) {
    try {
        const Json root = Json::parse(read_whole_file(file, "file of settings"));
        if (root.at("schema").get<std::string>().rfind("jointrom-batch/", 0) == 0) {
            results.version = root.at("tool").at("version").get<std::string>();
            for (const auto& [name, value] : root.at("settings").items()) {
                results.settings.emplace_back(name, setting_text(value));
            }
            return;
        }
    } catch (const Json::exception&) {  // NOLINT(bugprone-empty-catch): refused below, as what has another schema
    }
    throw Failure(FailureKind::unreadable_data, "results-invalid", "this is not what `batch` writes",
                  "Run `batch` again with --into this folder.", {file.string()});
}

void read_class_findings(const fs::path& file, ClassResults& results) {
    RecordReader reader(file);
    const std::size_t severity = reader.column("severity"), code = reader.column("code"), text = reader.column("text");
    const auto cell = [&](std::size_t column) { return std::string(reader.text(column)); };
    while (reader.next()) {
        results.findings.push_back({cell(severity), cell(code), cell(text), {}});
    }
}

}  // namespace

std::vector<TrialRow> ClassResults::rows() const {
    std::vector<TrialRow> rows;
    rows.reserve(outcomes.size());
    for (const TrialOutcome& outcome : outcomes) {
        rows.push_back(outcome.row);
    }
    return rows;
}

ClassResults read_class_results(const fs::path& folder) {
    if (!fs::exists(folder / settings_file_name)) {
        throw Failure(FailureKind::missing_file, "results-missing", "the folder holds no results of a class",
                      "Measure the class first: jointrom batch FOLDER --into results; then jointrom report results.",
                      {folder.string()});
    }
    ClassResults results;
    read_settings(folder / settings_file_name, results);
    const OutcomeTables tables(folder);
    for (const std::string& id : tables.ids()) {
        results.outcomes.push_back(tables.outcome(id));
    }
    read_class_findings(folder / "class_findings.csv", results);
    results.files.push_back({"trials.csv", sha256_of_file(folder / "trials.csv"), results.outcomes.size()});
    return results;
}

}  // namespace jointrom
