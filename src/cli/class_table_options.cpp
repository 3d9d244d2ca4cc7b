#include "cli/class_table_options.hpp"

#include <jointrom/batch/results_folder.hpp>
#include <jointrom/core/failure.hpp>
#include <jointrom/core/whole_file.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <iterator>

namespace jointrom::cli {
namespace {

std::string_view trimmed(std::string_view text) {
    const std::size_t first = text.find_first_not_of(" \t\r");
    return first == std::string_view::npos ? std::string_view()
                                           : text.substr(first, text.find_last_not_of(" \t\r") - first + 1);
}

std::vector<std::string> parts_of(std::string_view text, char delimiter) {
    std::vector<std::string> parts;
    while (!text.empty()) {
        const std::size_t end = std::min(text.find(delimiter), text.size());
        if (const std::string_view part = trimmed(text.substr(0, end)); !part.empty()) {
            parts.emplace_back(part);
        }
        text.remove_prefix(std::min(end + 1, text.size()));
    }
    return parts;
}

}  // namespace

std::vector<std::string> comma_list(const std::string& text) {
    return parts_of(text, ',');
}

void ClassTableOptions::attach(OptionList& list, std::initializer_list<std::string_view> tables) {
    list.arguments("file", files, "FILE",
                   "tables of results, such as trials.csv, or folders of results; several are read as one; - for "
                   "standard input");
    list.group("Table");
    list.value("--files-from", files_from, "FILE",
               "read the names of tables from FILE, one a line; - for standard input");
    list.values("--value", values, "COLUMN,...",
                "measured columns; otherwise those of arc_deg, positive_deg, negative_deg that are there");
    list.values(
        "--by", by, "COLUMN,...",
        "group by these, '' for no groups; otherwise by those of joint, motion, side, condition that are there");
    list.value("--table", table, "NAME", fmt::format("give this table alone: {}", fmt::join(tables, ", ")))
        .one_of(tables);
    output.attach(list, false);
}

std::vector<std::string> ClassTableOptions::all_files(Console& console) const {
    std::vector<std::string> all = files;
    if (!files_from.empty()) {
        const std::string list = files_from == "-" ? std::string(std::istreambuf_iterator<char>(console.in), {})
                                                   : read_whole_file(files_from, "list of files");
        const std::vector<std::string> listed = parts_of(list, '\n');
        all.insert(all.end(), listed.begin(), listed.end());
    }
    if (all.empty()) {
        throw Failure(FailureKind::usage, "no-files", "no table was named",
                      "Name tables such as trials.csv, or a list of them with --files-from FILE.");
    }
    std::ranges::transform(all, all.begin(), results_table_named);
    return all;
}

std::vector<std::string> ClassTableOptions::value_names() const {
    return comma_list(fmt::format("{}", fmt::join(values, ",")));
}

std::optional<std::vector<std::string>> ClassTableOptions::by_names() const {
    return by.empty() ? std::nullopt : std::optional(comma_list(fmt::format("{}", fmt::join(by, ","))));
}

bool ClassTableOptions::wants(std::string_view name, bool is_first) const {
    return table.empty() ? is_first || output.chosen_format(Format::table) != Format::csv : name == table;
}

void ClassTableOptions::describe_input(const LongTable& read, Report& report) const {
    for (const auto& [file, rows] : read.files) {
        report.inputs.push_back(output.input(file, rows));
    }
    if (read.failed > 0) {
        report.findings.emplace_back("rows-failed", fmt::format("{} of {} recordings failed and are left out",
                                                                read.failed, read.failed + read.rows));
    }
    if (read.repeated > 0) {
        report.findings.emplace_back("rows-repeated", fmt::format("{} rows stood there already", read.repeated));
    }
}

void ClassTableOptions::write(Report report, Console& console) const {
    if (!table.empty()) {
        std::erase_if(report.tables, [&](const ResultTable& candidate) { return candidate.name() != table; });
        if (report.tables.empty()) {
            throw Failure(FailureKind::usage, "table-not-there",
                          fmt::format("there is no table {} for this input", table),
                          "Leave --table out to see which there are.");
        }
    }
    output.write(report, console);
}

}  // namespace jointrom::cli
