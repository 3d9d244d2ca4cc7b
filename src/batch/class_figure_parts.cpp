#include "batch/class_figure_parts.hpp"

#include <jointrom/report/column_catalogue.hpp>
#include <jointrom/stats/descriptive.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>

namespace jointrom {

std::optional<MotionPart> extent_in_column(const std::string& column) {
    return column == "positive_deg"   ? std::optional(MotionPart::positive)
           : column == "negative_deg" ? std::optional(MotionPart::negative)
           : column == "arc_deg"      ? std::optional(MotionPart::arc)
                                      : std::nullopt;
}

MeasuredQuantity quantity_of(const std::string& column, const JointMotion* motion, MotionPart part) {
    if (motion != nullptr) {
        return {part == MotionPart::arc ? fmt::format("{} {} arc", motion->joint, motion->motion)
                                        : fmt::format("{} {}", motion->joint, name_of(part, *motion)),
                "deg"};
    }
    const auto known = std::ranges::find(column_catalogue(), column, &ColumnKind::key);
    return known == column_catalogue().end()
               ? MeasuredQuantity{column, "unit as in the table"}
               : MeasuredQuantity{std::string(known->heading),
                                  known->unit().empty() ? "1" : std::string(known->unit())};
}

std::string capitalised(std::string text) {
    if (!text.empty() && text.front() >= 'a' && text.front() <= 'z') {
        text.front() = static_cast<char>(text.front() - 'a' + 'A');
    }
    return text;
}

std::vector<std::string> telling_names(const std::vector<std::vector<std::string>>& groups) {
    std::vector<std::string> names(groups.size());
    for (std::size_t column = 0; !groups.empty() && column < groups.front().size(); ++column) {
        const bool tells = std::ranges::any_of(
            groups, [&](const std::vector<std::string>& group) { return group[column] != groups.front()[column]; });
        for (std::size_t i = 0; tells && i < groups.size(); ++i) {
            const std::string& text = groups[i][column];
            names[i] += (names[i].empty() ? "" : ", ") + (text.empty() ? "?" : text);
        }
    }
    return names;
}

RowGroups groups_by(const LongTable& table, const std::vector<std::string>& by) {
    std::vector<const TextColumn*> columns;
    for (const std::string& name : by) {
        columns.push_back(table.find_text(name));
    }
    return row_groups(columns, table.rows);
}

std::vector<NamedValue> participant_means(const LongTable& table, std::span<const std::uint32_t> rows,
                                          const std::string& participant) {
    const TextColumn* const participants = table.find_text(participant);
    std::vector<NamedValue> values;
    std::map<std::uint32_t, std::vector<double>> by_code;
    for (const std::uint32_t row : rows) {
        const double value = table.numbers.front().values[row];
        if (participants == nullptr) {
            values.push_back({std::string(table.id(row)), value});
        } else {
            by_code[participants->codes[row]].push_back(value);
        }
    }
    for (const auto& [code, own] : by_code) {
        values.push_back({participants->texts[code], describe(own).mean});
    }
    std::erase_if(values, [](const NamedValue& value) { return std::isnan(value.value); });
    return values;
}

}  // namespace jointrom
