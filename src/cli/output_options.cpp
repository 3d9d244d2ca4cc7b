#include "cli/output_options.hpp"

#include <jointrom/core/checksum.hpp>
#include <jointrom/core/whole_file.hpp>
#include <jointrom/report/render.hpp>

#include <fmt/ostream.h>

#include <filesystem>
#include <ostream>

namespace jointrom::cli {
namespace {

Format format_named(const std::string& name) {
    if (name == "table") {
        return Format::table;
    }
    if (name == "csv") {
        return Format::csv;
    }
    return Format::json;
}

void print_findings(const Findings& findings, bool quiet, Console& console) {
    for (const Finding& finding : findings) {
        if (quiet && finding.severity() != Severity::error) {
            continue;
        }
        const std::string place = finding.place.text();
        fmt::print(console.err, "jointrom: {}: {}{}{} [{}]\n", severity_text(name_of(finding.severity()), console),
                   place, place.empty() ? "" : ": ", finding.text, finding.code());
        if (finding.severity() != Severity::note) {
            fmt::print(console.err, "  {}\n", finding.kind->advice);
        }
    }
}

}  // namespace

void OutputOptions::attach(OptionList& list, bool may_explain) {
    list.group("Output");
    list.value("--format", format, "FORM", "table, csv or json").one_of({"table", "csv", "json"});
    list.value("--output", output, "FILE", "write to FILE instead of standard output; .csv and .json choose the form");
    list.flag("--quiet", quiet, "print no notes and warnings");
    if (may_explain) {
        list.flag("--explain", explain, "print how each uncertainty is made up");
    }
}

Format OutputOptions::chosen_format(Format otherwise) const {
    if (!format.empty()) {
        return format_named(format);
    }
    const std::string extension = std::filesystem::path(output).extension().string();
    if (extension == ".csv" || extension == ".json") {
        return format_named(extension.substr(1));
    }
    return otherwise;
}

InputFile OutputOptions::input(const std::string& file, std::size_t rows) const {
    if (file == "-" || chosen_format(Format::table) != Format::json) {
        return {file, {}, rows};
    }
    const auto before = watched->find(file);
    return {file, before == watched->end() ? sha256_of_file(file) : sha256_of_unchanged(file, before->second), rows};
}

void OutputOptions::print(const Findings& findings, Console& console) const {
    print_findings(findings, quiet, console);
}

void OutputOptions::write(const Report& report, Console& console, Format otherwise) const {
    const Format form = chosen_format(otherwise);
    write(report.findings, console, [&](const TextSink& sink) {
        sink(form == Format::csv ? csv_report(report)
             : form == Format::json
                 ? json_report(report)
                 : text_report(report, explain, output.empty() || output == "-" ? console.width : 0));
    });
}

void OutputOptions::write(const Findings& findings, Console& console,
                          const std::function<void(const TextSink&)>& produce) const {
    print(findings, console);
    if (output.empty() || output == "-") {
        produce([&](std::string_view text) { console.out << text; });
        return;
    }
    WholeFile file(output);
    produce([&](std::string_view text) { file.append(text); });
    file.commit();
}

}  // namespace jointrom::cli
