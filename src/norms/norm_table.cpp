#include <jointrom/norms/norm_table.hpp>

#include <norms/embedded_tables.hpp>

#include <jointrom/table/record_reader.hpp>

#include <algorithm>
#include <stdexcept>
#include <utility>

namespace jointrom {
namespace {

std::vector<NormSource> read_sources() {
    const auto source = text_source(embedded::sources_csv);
    RecordReader reader(*source, "data/norms/sources.csv");
    const std::size_t key = reader.column("key");
    const std::size_t citation = reader.column("citation");
    const std::size_t population = reader.column("population");
    const std::size_t read_in = reader.column("read_in");
    const std::size_t reuse = reader.column("reuse");
    std::vector<NormSource> sources;
    while (reader.next()) {
        const auto text = [&](std::size_t column) { return std::string(reader.text(column)); };
        sources.push_back({text(key), text(citation), text(population), text(read_in), text(reuse)});
    }
    return sources;
}

}  // namespace

NormTable::NormTable(std::string name, std::vector<NormRow> rows, std::vector<NormSource> sources)
    : name_(std::move(name)), rows_(std::move(rows)) {
    for (const NormRow& row : rows_) {
        if (std::ranges::find(sources_, row.source, &NormSource::key) != sources_.end()) {
            continue;
        }
        const auto known = std::ranges::find(sources, row.source, &NormSource::key);
        sources_.push_back(known != sources.end() ? *known : NormSource{row.source, {}, {}, {}, {}});
    }
}

const NormSource& NormTable::source(std::string_view key) const {
    const auto found = std::ranges::find(sources_, key, &NormSource::key);
    if (found == sources_.end()) {
        throw std::out_of_range("no source has the key " + std::string(key));
    }
    return *found;
}

const NormTable& built_in_norms() {
    static const NormTable table = [] {
        const auto source = text_source(embedded::norms_csv);
        const NormTable read = read_norm_table(*source, "data/norms/norms.csv");
        const std::span<const NormSource> sources = built_in_sources();
        return NormTable("built-in", {read.rows().begin(), read.rows().end()}, {sources.begin(), sources.end()});
    }();
    return table;
}

std::span<const NormSource> built_in_sources() {
    static const std::vector<NormSource> sources = read_sources();
    return sources;
}

}  // namespace jointrom
