#include <jointrom/norms/norm_table.hpp>

#include <jointrom/core/failure.hpp>
#include <jointrom/norms/norm_lookup.hpp>
#include <jointrom/norms/sd_from_interval.hpp>

#include <support/catch.hpp>

#include <cmath>
#include <set>
#include <string>

using namespace jointrom;

namespace {

NormTable table_of(const std::string& text) {
    const auto source = text_source(text);
    return read_norm_table(*source, "class.csv");
}

Failure failure_of(const std::string& text) {
    try {
        (void)table_of(text);
    } catch (const Failure& failure) {
        return failure;
    }
    throw std::logic_error("was accepted");
}

/// The only row of the built-in table for a group.
const NormRow& row_of(std::string_view source, std::string_view joint, std::string_view motion,
                      std::optional<Sex> sex = {}, double age_years = 30.0) {
    const NamedPart named = motion_part(joint, motion);
    const NormRow* found = nullptr;
    for (const NormRow& row : built_in_norms().rows()) {
        if (row.source == source && row.motion == named.motion && row.part == named.part && row.sex == sex &&
            holds_age(row, age_years)) {
            REQUIRE(found == nullptr);
            found = &row;
        }
    }
    REQUIRE(found != nullptr);
    return *found;
}

}  // namespace

TEST_CASE("no row of the built-in table is without a source that can be looked up", "[norms][norm_table]") {
    REQUIRE(built_in_norms().rows().size() > 200);
    std::set<std::string> keys;
    for (const NormSource& source : built_in_sources()) {
        CAPTURE(source.key);
        CHECK(keys.insert(source.key).second);
        CHECK(source.citation.size() > 20);
        CHECK_FALSE(source.read_in.empty());
        CHECK_FALSE(source.reuse.empty());
    }
    for (const NormRow& row : built_in_norms().rows()) {
        CAPTURE(row.line);
        CHECK(keys.count(row.source) == 1);
        CHECK(built_in_norms().source(row.source).citation.size() > 20);
        CHECK(row.n.value_or(1) > 0);
    }
}
