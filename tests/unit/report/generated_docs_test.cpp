#include <jointrom/core/finding.hpp>
#include <jointrom/report/column_catalogue.hpp>

#include <support/catch.hpp>
#include <support/reference_file.hpp>

#include <cstdlib>
#include <fstream>
#include <sstream>
#include <string>

// docs/findings.md and docs/columns.md are printed from the catalogues. With ACCEPT=1 in the environment they are
// rewritten; otherwise a page that is behind its catalogue fails here.

using namespace jointrom;

namespace {

std::string findings_page() {
    std::ostringstream page;
    page << "# Findings\n\nWhat the program says beside a result. The code is stable; scripts may rely on it. A note "
            "says "
            "what was inferred, a warning that a figure may be off, an error that a figure could not be given.\n\n"
            "| code | severity | meaning | what to do |\n|---|---|---|---|\n";
    for (const FindingKind& kind : finding_catalogue()) {
        page << "| `" << kind.code << "` | " << name_of(kind.severity) << " | " << kind.meaning << " | " << kind.advice
             << " |\n";
    }
    return page.str();
}

std::string columns_page() {
    std::ostringstream page;
    page
        << "# Columns\n\nEvery column of CSV results and every key of JSON results. A value with uncertainty has two "
           "more: in CSV `arc_u_deg` (standard) and `arc_u95_deg` (expanded, 95 %) beside `arc_deg`; in JSON an object "
           "`{\"value\", \"u\", \"u95\"}`. Empty cells and `null` mean that there is no value.\n\n"
           "| column | unit | decimals | meaning |\n|---|---|---|---|\n";
    for (const ColumnKind& column : column_catalogue()) {
        page << "| `" << column.key << "` | " << column.unit() << " | " << column.decimals << " | " << column.meaning
             << " |\n";
    }
    return page.str();
}

void check_page(const std::string& name, const std::string& wanted) {
    const auto path = test::tests_path("../docs/" + name);
    if (const char* accept = std::getenv("ACCEPT"); accept != nullptr && std::string(accept) == "1") {
        std::ofstream(path) << wanted;
    }
    std::ostringstream got;
    got << std::ifstream(path).rdbuf();
    CAPTURE(name);
    CHECK(got.str() == wanted);
}

}  // namespace

TEST_CASE("the pages of findings and columns are those of the catalogues", "[report][docs]") {
    check_page("findings.md", findings_page());
    check_page("columns.md", columns_page());
}
