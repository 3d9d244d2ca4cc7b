#include <jointrom/table/table_reader.hpp>

#include <table/finished_table.hpp>
#include <table/table_assembly.hpp>
#include <table/text_blocks.hpp>

namespace jointrom {

std::size_t Table::line_of_row(std::size_t row) const {
    return jointrom::line_of_row(line_offsets, row);
}

Table read_table(const std::filesystem::path& path, const TableOptions& options) {
    const std::unique_ptr<ByteSource> source = file_source(path);
    return read_table(*source, path.string(), options);
}

Table read_table(ByteSource& source, const std::string& name, const TableOptions& options) {
    TextBlocks blocks(source, name);
    return TableAssembly(blocks, source.size_hint(), name, options).read();
}

Table read_table_text(std::string_view text, const std::string& name, const TableOptions& options) {
    const std::unique_ptr<ByteSource> source = text_source(text);
    return read_table(*source, name, options);
}

}  // namespace jointrom
