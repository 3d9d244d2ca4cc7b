#include <jointrom/core/finding.hpp>

#include <algorithm>
#include <stdexcept>
#include <utility>

namespace jointrom {

const FindingKind& finding_kind(std::string_view code) {
    const auto catalogue = finding_catalogue();
    const auto found = std::ranges::lower_bound(catalogue, code, {}, &FindingKind::code);
    if (found == catalogue.end() || found->code != code) {
        throw std::out_of_range("no finding is called " + std::string(code));
    }
    return *found;
}

Finding::Finding(std::string_view code, std::string found, Place where)
    : kind(&finding_kind(code)), text(std::move(found)), place(std::move(where)) {}

bool contains(const Findings& findings, std::string_view code) {
    return std::ranges::any_of(findings, [&](const Finding& finding) { return finding.code() == code; });
}

std::string_view name_of(Severity severity) {
    switch (severity) {
    case Severity::note:
        return "note";
    case Severity::warning:
        return "warning";
    case Severity::error:
        break;
    }
    return "error";
}

}  // namespace jointrom
