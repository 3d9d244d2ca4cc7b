#include <jointrom/recording/edf_recording.hpp>
#include <jointrom/recording/sampling.hpp>
#include <jointrom/report/inspection_tables.hpp>

#include <fmt/format.h>

namespace jointrom {
namespace {

std::string name_of(Encoding encoding) {
    switch (encoding) {
    case Encoding::utf8:
        return "UTF-8";
    case Encoding::utf8_with_mark:
        return "UTF-8 with byte order mark";
    case Encoding::utf16_little_endian:
        return "UTF-16 little endian";
    case Encoding::utf16_big_endian:
        return "UTF-16 big endian";
    case Encoding::windows_1252:
        break;
    }
    return "Windows-1252";
}

std::string name_of_delimiter(char delimiter) {
    return delimiter == '\t' ? "tab" : delimiter == ' ' ? "blanks" : std::string(1, delimiter);
}

std::string line_or_none(std::size_t line) {
    return line == 0 ? "none" : fmt::format("line {}", line);
}

}  // namespace

ResultTable channel_table(const Recording& recording, std::span<const ChannelQuality> qualities) {
    ResultTable table("channels", {"column", "name", "unit", "role", "count", "rate_hz", "jitter_ms", "gaps", "missing",
                                   "minimum", "median", "maximum", "noise", "resolution", "repeated_pct", "wraps",
                                   "spikes", "start_s", "end_s"});
    for (std::size_t i = 0; i < recording.channels.size(); ++i) {
        const Channel& channel = recording.channels[i];
        const ChannelQuality& quality = qualities[i];
        const Sampling sampling = sampling_of(channel);
        const bool is_the_angle = recording.angle == i;
        table.add_row({count_cell(channel.column), channel.name, channel.unit,
                       std::string(name_of(channel.role)) + (is_the_angle ? " *" : ""), count_cell(quality.count),
                       sampling.rate_hz, 1000.0 * sampling.jitter_s, count_cell(sampling.gaps.size()),
                       count_cell(quality.missing), quality.min, quality.median, quality.max, quality.noise_sd,
                       quality.resolution, 100.0 * quality.repeated_share, count_cell(quality.full_turns),
                       count_cell(quality.spikes), channel.times.time_s(0),
                       channel.times.time_s(channel.times.count() - 1)});
    }
    return table;
}

ResultTable file_table(const Recording& recording) {
    const TableDescription& description = recording.table;
    const Dialect& dialect = description.dialect;
    ResultTable table("file", {"property", "understood"});
    const auto add = [&](const char* property, std::string understood) {
        table.add_row({std::string(property), std::move(understood)});
    };
    if (is_edf(recording.source)) {
        add("encoding", "EDF");
        add("rows", std::to_string(description.rows));
        add("times", "from the rate");
        return table;
    }
    add("encoding", name_of(dialect.encoding));
    add("delimiter", name_of_delimiter(dialect.delimiter));
    add("decimal mark", std::string(1, dialect.decimal_mark));
    if (dialect.grouping_mark != 0) {
        add("mark between thousands", std::string(1, dialect.grouping_mark));
    }
    add("header", line_or_none(description.header_line));
    add("row of units", line_or_none(description.units_line));
    add("lines above the table", std::to_string(description.preamble.size()));
    add("lines below the table", std::to_string(description.footer.size()));
    add("rows", std::to_string(description.rows));
    add("times", description.time_heading.empty()
                     ? "from the rate"
                     : fmt::format("{} ({})", description.time_heading, description.time_format));
    return table;
}

ResultTable trial_table(const TableDescription& description) {
    ResultTable table("trials", {"trial", "label", "first_line", "last_line", "rows", "used"});
    for (std::size_t i = 0; i < description.blocks.size(); ++i) {
        const TableBlock& block = description.blocks[i];
        table.add_row({count_cell(i + 1), block.label, count_cell(block.first_line), count_cell(block.last_line),
                       count_cell(block.rows), i == description.block_used});
    }
    return table;
}

ResultTable annotation_table(std::span<const Annotation> annotations) {
    ResultTable table("annotations", {"start_s", "duration_s", "annotation"});
    for (const Annotation& annotation : annotations) {
        table.add_row({annotation.start.value(), annotation.duration.value(), annotation.text});
    }
    return table;
}

}  // namespace jointrom
