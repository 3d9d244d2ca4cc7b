#include "cli/command.hpp"
#include "cli/output_options.hpp"

#include <jointrom/core/failure.hpp>
#include <jointrom/report/json_schema.hpp>

#include <memory>

namespace jointrom::cli {
namespace {

struct SchemaOptions {
    std::string name;
    OutputOptions output;
};

Report list_of_schemas() {
    Report report;
    report.schema = "jointrom-schema";
    report.title = "JSON Schemas, draft 2020-12";
    ResultTable table("schemas", {"schema", "schema_form", "describes"});
    for (const SchemaKind& kind : schema_catalogue()) {
        table.add_row({kind.name, kind.form, kind.about});
    }
    report.tables.push_back(std::move(table));
    report.remarks = {"JSON: of a whole file. row: of one row of a table, whose keys are the headings."};
    return report;
}

std::vector<std::string> schema_names() {
    std::vector<std::string> names;
    for (const SchemaKind& kind : schema_catalogue()) {
        names.push_back(kind.name);
    }
    return names;
}

ExitStatus run_schema(const SchemaOptions& options, Console& console) {
    if (options.name.empty()) {
        options.output.write(list_of_schemas(), console);
        return exit_done;
    }
    if (options.output.chosen_format(Format::json) != Format::json) {
        throw Failure(FailureKind::usage, "format-impossible", "a schema is JSON", "Leave out --format.");
    }
    options.output.write({}, console, [&](const TextSink& sink) { sink(json_schema(options.name)); });
    return exit_done;
}

}  // namespace

Action attach_schema(OptionList& list) {
    auto options = std::make_shared<SchemaOptions>();
    list.argument("name", options->name, "NAME", "which schema; without it, they are listed").suggest(schema_names());
    options->output.attach(list, false);
    return [options](Console& console) { return run_schema(*options, console); };
}

}  // namespace jointrom::cli
