#include <jointrom/report/column_catalogue.hpp>

#include <algorithm>
#include <array>
#include <stdexcept>

namespace jointrom {
namespace {

struct UnitSuffix {
    std::string_view suffix;
    std::string_view unit;
};

/// Longest first, so that "_deg_s" is not taken for "_s".
constexpr auto unit_suffixes = std::to_array<UnitSuffix>({{"_deg_s2", "deg/s2"},
                                                          {"_per_min", "1/min"},
                                                          {"_deg_s", "deg/s"},
                                                          {"_hz_s", "Hz/s"},
                                                          {"_deg", "deg"},
                                                          {"_pct", "%"},
                                                          {"_hz", "Hz"},
                                                          {"_kg", "kg"},
                                                          {"_mv", "mV"},
                                                          {"_nm", "N m"},
                                                          {"_j", "J"},
                                                          {"_m", "m"},
                                                          {"_n", "N"},
                                                          {"_w", "W"},
                                                          {"_s", "s"}});

UnitSuffix suffix_of(std::string_view key) {
    const auto found =
        std::ranges::find_if(unit_suffixes, [&](const UnitSuffix& entry) { return key.ends_with(entry.suffix); });
    return found == unit_suffixes.end() ? UnitSuffix{} : *found;
}

}  // namespace

std::string_view ColumnKind::unit() const {
    return suffix_of(key).unit;
}

std::string ColumnKind::key_with(std::string_view suffix) const {
    const std::string_view unit_part = suffix_of(key).suffix;
    std::string result(key.substr(0, key.size() - unit_part.size()));
    return result.append("_").append(suffix).append(unit_part);
}

const ColumnKind& column_kind(std::string_view key) {
    const auto catalogue = column_catalogue();
    const auto found = std::ranges::lower_bound(catalogue, key, {}, &ColumnKind::key);
    if (found == catalogue.end() || found->key != key) {
        throw std::out_of_range("no column is called " + std::string(key));
    }
    return *found;
}

}  // namespace jointrom
