#pragma once

/// \file
/// JSON Schemas (draft 2020-12) of what the program writes and reads. Those of results are made from the catalogues of
/// tables and columns, that of a settings file from the catalogue of settings.

#include <string>
#include <string_view>
#include <vector>

namespace jointrom {

/// Something that has a schema.
struct SchemaKind {
    std::string name;   ///< e.g. "range", "manifest"
    std::string form;   ///< "JSON": a whole file; "row": one row of a table in CSV, or one line of NDJSON
    std::string about;  ///< what it is, in a few words
};

/// Every schema, sorted by name.
[[nodiscard]] std::vector<SchemaKind> schema_catalogue();

/// The schema as text, the same bytes every time. A row is described as an object whose keys are the column headings.
/// \throws Failure usage "schema-unknown", with the nearest name
[[nodiscard]] std::string json_schema(std::string_view name);

}  // namespace jointrom
