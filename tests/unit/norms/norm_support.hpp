#pragma once

#include <jointrom/norms/norm_lookup.hpp>
#include <jointrom/norms/norm_table.hpp>

#include <support/catch.hpp>

#include <string>

namespace jointrom::test {

inline NormTable table_of(const std::string& text) {
    const auto source = text_source(text);
    return read_norm_table(*source, "class.csv");
}

/// The only row of the built-in table for a group.
inline const NormRow& built_in_row(std::string_view source, std::string_view joint, std::string_view motion,
                                   std::optional<Sex> sex = {}, double age_years = 30.0) {
    CAPTURE(source, joint, motion, age_years);
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

}  // namespace jointrom::test
