#include <norms/norm_cells.hpp>

#include <jointrom/core/failure.hpp>
#include <jointrom/core/near_miss.hpp>

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <array>
#include <cmath>

namespace jointrom {
namespace {

bool same_letters(std::string_view a, std::string_view b) {
    return a.size() == b.size() && edit_distance(a, b) == 0;
}

/// The nearest known name, or one that is `name` with a unit behind it.
std::optional<std::string_view> likely_column(const std::string& name, std::span<const std::string_view> known) {
    if (const auto meant = nearest(name, known)) {
        return meant;
    }
    const auto longer = std::ranges::find_if(known, [&](auto key) { return key.starts_with(name + "_"); });
    return longer == known.end() ? std::nullopt : std::optional(*longer);
}

}  // namespace

NormCells::NormCells(RecordReader& reader, std::span<const std::string_view> known,
                     std::span<const std::string_view> required)
    : reader_(&reader) {
    for (std::size_t i = 0; i < reader.columns().size(); ++i) {
        const std::string& name = reader.columns()[i];
        const auto found = std::ranges::find_if(known, [&](auto key) { return same_letters(key, name); });
        if (found != known.end()) {
            columns_.emplace_back(*found, i);
            continue;
        }
        const auto meant = name.empty() ? std::nullopt : likely_column(name, known);
        throw Failure(FailureKind::unreadable_data, "norm-column-unknown",
                      name.empty() ? fmt::format("column {} has no name", i + 1)
                                   : fmt::format("no column of this table is called '{}'", name),
                      (meant ? fmt::format("Did you mean '{}'? ", *meant) : std::string()) +
                          fmt::format("Known: {}.", fmt::join(known, ", ")),
                      reader.place(i));
    }
    for (const std::string_view name : required) {
        if (!index(name)) {
            throw Failure(FailureKind::unreadable_data, "norm-column-missing",
                          fmt::format("there is no column '{}'", name),
                          fmt::format("These must be there: {}.", fmt::join(required, ", ")),
                          {.file = reader.place(0).file, .line = reader.line()});
        }
    }
}

std::optional<std::size_t> NormCells::index(std::string_view column) const {
    const auto found = std::ranges::find(columns_, column, &std::pair<std::string, std::size_t>::first);
    return found == columns_.end() ? std::nullopt : std::optional(found->second);
}

std::string NormCells::text(std::string_view column) const {
    const auto i = index(column);
    return i ? std::string(reader_->text(*i)) : std::string();
}

std::string NormCells::required_text(std::string_view column) const {
    std::string result = text(column);
    if (result.empty()) {
        refuse(column, "a text");
    }
    return result;
}

double NormCells::number(std::string_view column) const {
    const auto i = index(column);
    if (!i) {
        return std::numeric_limits<double>::quiet_NaN();
    }
    try {
        return reader_->number(*i);
    } catch (const Failure&) {
        refuse(column, "a number such as 12.5, or nothing");
    }
}

std::optional<std::size_t> NormCells::word(std::string_view column, std::span<const std::string_view> words) const {
    const std::string cell = text(column);
    if (cell.empty()) {
        return std::nullopt;
    }
    const auto found = std::ranges::find_if(words, [&](auto word) { return same_letters(word, cell); });
    if (found == words.end()) {
        refuse(column, fmt::format("one of: {}", fmt::join(words, ", ")));
    }
    return static_cast<std::size_t>(found - words.begin());
}

std::optional<std::size_t> NormCells::count(std::string_view column) const {
    const double value = number(column);
    if (std::isnan(value)) {
        return std::nullopt;
    }
    if (value < 1.0 || value > 1e9 || value != std::floor(value)) {
        refuse(column, "a whole number from 1");
    }
    return static_cast<std::size_t>(value);
}

NamedPart NormCells::part() const {
    const std::string joint = required_text("joint");
    const std::string motion = required_text("motion");
    try {
        return motion_part(joint, motion);
    } catch (const Failure& failure) {
        refuse(failure.code() == "joint-unknown" ? "joint" : "motion", "norm-cell", failure.what(), failure.advice());
    }
}

Provenance NormCells::provenance(std::string_view column) const {
    constexpr std::array<std::string_view, 3> words{"found", "secondary", "memory"};
    return static_cast<Provenance>(word(column, words).value_or(0));
}

void NormCells::refuse(std::string_view column, const std::string& expected) const {
    const std::string cell = text(column);
    refuse(column, "norm-cell",
           cell.empty() ? fmt::format("'{}' is empty", column) : fmt::format("'{}' cannot be '{}'", column, cell),
           fmt::format("Expected {}.", expected));
}

void NormCells::refuse(std::string_view column, std::string_view code, const std::string& text,
                       const std::string& advice) const {
    Place place = reader_->place(index(column).value_or(0));
    throw Failure(FailureKind::unreadable_data, code, text, advice, std::move(place));
}

}  // namespace jointrom
