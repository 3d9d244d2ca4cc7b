#include <table/finished_table.hpp>

#include <jointrom/core/number_text.hpp>
#include <jointrom/table/heading.hpp>

#include <algorithm>
#include <cmath>

namespace jointrom {
namespace {

std::string time_format_of(const ColumnStore::Column& column, const std::string& unit) {
    if (column.kind == CellKind::time) {
        return std::string(name_of(column.times.format().value_or(TimeFormat::minutes_seconds)));
    }
    constexpr std::pair<std::string_view, std::string_view> names[] = {
        {"s", "seconds"}, {"ms", "milliseconds"}, {"us", "microseconds"}, {"min", "minutes"}, {"h", "hours"}};
    const auto* const found = std::ranges::find(names, unit, &std::pair<std::string_view, std::string_view>::first);
    return found == std::end(names) ? std::string() : std::string(found->second);
}

std::optional<std::size_t> stated_column(const TableDescription& description, const std::vector<TableColumn>& columns,
                                         const std::string& name) {
    for (std::size_t c = 0; c < columns.size(); ++c) {
        if (description.headings[c] == name || split_heading(description.headings[c]).quantity == name) {
            return c;
        }
    }
    const std::optional<double> number = parse_number(name);
    for (std::size_t c = 0; number && c < columns.size(); ++c) {
        if (static_cast<double>(columns[c].number) == *number) {
            return c;
        }
    }
    return std::nullopt;
}

std::optional<std::size_t> find_time_column(const TableDescription& description,
                                            const std::vector<TableColumn>& columns) {
    for (std::size_t c = 0; c < columns.size(); ++c) {
        if (columns[c].is_time) {
            return c;
        }
    }
    for (std::size_t c = 0; c < columns.size(); ++c) {
        const std::string& unit = description.units[c];
        const bool time_unit = unit == "s" || unit == "ms" || unit == "us" || unit == "min" || unit == "h";
        if (columns[c].is_numeric && (time_unit || (unit.empty() && names_time(description.headings[c])))) {
            return c;
        }
    }
    return std::nullopt;
}

void choose_time(Table& table, const std::vector<std::string>& formats, const TableOptions& options,
                 const std::string& file) {
    if (options.time_column) {
        table.time_column = stated_column(table.description, table.columns, *options.time_column);
        if (!table.time_column || !table.columns[*table.time_column].is_numeric) {
            throw Failure(FailureKind::usage, "no-such-column",
                          "there is no column of numbers called \"" + *options.time_column + "\" to take the time from",
                          "Give the heading or the number of a column; `inspect` lists them.",
                          Place{file, table.description.header_line});
        }
    } else {
        table.time_column = find_time_column(table.description, table.columns);
    }
    if (table.time_column) {
        table.description.time_heading = table.description.headings[*table.time_column];
        table.description.time_format = formats[*table.time_column];
    }
}

void note_text_columns(Findings& findings, const Table& table, const std::string& file) {
    std::string names;
    std::size_t count = 0;
    for (std::size_t c = 0; c < table.columns.size(); ++c) {
        if (!table.columns[c].is_numeric) {
            names += (count++ > 0 ? ", " : "") + table.description.headings[c];
        }
    }
    if (count > 0) {
        findings.emplace_back(
            "text-cells",
            (count == 1 ? "one column holds text: " : std::to_string(count) + " columns hold text: ") + names,
            Place{file, table.first_data_line});
    }
}

}  // namespace

std::size_t line_of_row(std::span<const std::pair<std::size_t, std::size_t>> offsets, std::size_t row) {
    const auto after = std::ranges::upper_bound(offsets, row, {}, &std::pair<std::size_t, std::size_t>::first);
    return row + (after == offsets.begin() ? 0 : std::prev(after)->second);
}

std::vector<TableBlock> trials_of(const TableLayout& layout, const std::vector<ColumnStore::Column>& columns,
                                  std::size_t rows) {
    std::vector<TableBlock> trials;
    for (const ColumnGroup& group : layout.trials) {
        std::size_t filled = layout.trials.size() == 1 ? rows : 0;
        for (std::size_t c = group.first; c < group.last && filled < rows; ++c) {
            std::size_t last = columns[c].values.size();
            while (last > filled && std::isnan(columns[c].values[last - 1])) {
                --last;
            }
            filled = std::max(filled, last);
        }
        trials.push_back(
            {.rows = filled, .first_column = group.first + 1, .last_column = group.last, .label = group.label});
    }
    return trials;
}

Failure no_rows(const std::string& file) {
    return {FailureKind::unreadable_data, "no-table",
            "there is no row of numbers, where a table of samples was expected",
            "Check that the recording was exported with its data, and the delimiter (--delimiter).", Place{file}};
}

std::vector<bool> wanted_columns(const TableOptions& options, const TableLayout& layout) {
    return options.wanted ? options.wanted(layout.headings, layout.units) : std::vector<bool>(layout.columns, true);
}

void take_columns(Table& table, const TableLayout& layout, std::vector<ColumnStore::Column> columns,
                  const TableOptions& options, const std::string& file) {
    const TableBlock& used = table.description.blocks[table.description.block_used];
    const std::vector<bool> wanted = wanted_columns(options, layout);
    std::vector<std::string> formats;
    for (std::size_t c = used.first_column - 1; c < used.last_column; ++c) {
        ColumnStore::Column& from = columns[c];
        TableColumn column;
        column.number = c + 1;
        column.is_numeric = from.kind != CellKind::text;
        column.is_time = from.kind == CellKind::time;
        column.missing = column.is_numeric ? from.missing : 0;
        column.first_text = std::move(from.first_text);
        if (column.is_numeric && from.keep) {
            column.values = std::move(from.values);
            column.missing -= std::min(column.missing, column.values.size() - used.rows);
            column.values.resize(used.rows);
        }
        if (!wanted[c]) {
            column.values = {};
        }
        table.description.headings.push_back(layout.headings[c]);
        table.description.units.push_back(layout.units[c]);
        formats.push_back(time_format_of(from, layout.units[c]));
        table.columns.push_back(std::move(column));
    }
    choose_time(table, formats, options, file);
    note_text_columns(table.findings, table, file);
}

void note_lines(Findings& findings, std::string_view code, const std::string& where, std::size_t count, Place place) {
    if (count > 0) {
        findings.emplace_back(code, std::to_string(count) + (count == 1 ? " line " : " lines ") + where + " left out",
                              std::move(place));
    }
}

void note_blocks(Findings& findings, const std::vector<TableBlock>& blocks, std::size_t used, const std::string& file) {
    if (blocks.size() > 1) {
        findings.emplace_back("block-ignored",
                              "the file holds " + std::to_string(blocks.size()) + " trials; trial " +
                                  std::to_string(used + 1) + " with " + std::to_string(blocks[used].rows) +
                                  " rows was used",
                              Place{file, blocks[used].first_line});
    }
}

void note_ragged(Findings& findings, const RaggedRows& ragged, const std::string& file) {
    if (ragged.lines.empty()) {
        return;
    }
    std::string lines;
    for (const std::size_t line : ragged.lines) {
        lines += (lines.empty() ? "" : ", ") + std::to_string(line);
    }
    const bool more = ragged.short_rows + ragged.long_rows > ragged.lines.size();
    findings.emplace_back(
        "ragged-rows",
        std::to_string(ragged.short_rows) + " rows are too short and were filled up with missing samples, " +
            std::to_string(ragged.long_rows) + " are too long and were cut (lines " + lines + (more ? ", ...)" : ")"),
        Place{file, ragged.lines.front()});
}

void check_decimal_mark(Findings& findings, const std::vector<ColumnStore::Column>& columns,
                        const std::vector<std::string>& headings, const Dialect& dialect, const std::string& file) {
    constexpr const char* advice = "Say which it is with --decimal point or --decimal comma.";
    const bool point = dialect.decimal_mark == '.';
    std::size_t marked = 0;
    for (std::size_t c = 0; c < columns.size(); ++c) {
        const ColumnStore::Column& column = columns[c];
        marked += column.ambiguous;
        if (column.ambiguous > 0 && column.keep && column.ambiguous < column.values.size() - column.missing) {
            throw Failure(FailureKind::unreadable_data, "decimal-ambiguous",
                          "column " + std::to_string(c + 1) + " (" + headings[c] +
                              ") has numbers like 1.000 or 1,000 among plain ones: the mark may be the decimal mark or "
                              "stand between thousands",
                          advice, Place{file, 0, c + 1});
        }
    }
    if (marked > 0) {
        findings.emplace_back("decimal-ambiguous",
                              std::to_string(marked) + " numbers have three digits behind a " +
                                  (point ? "point" : "comma") + " and could be a thousand times larger; the " +
                                  (point ? "point" : "comma") +
                                  " was taken as the decimal mark. Settle it with --decimal point or --decimal comma",
                              Place{file});
    }
}

}  // namespace jointrom
