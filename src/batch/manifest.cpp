#include "batch/entry_columns.hpp"

#include <jointrom/batch/manifest.hpp>
#include <jointrom/core/checksum.hpp>
#include <jointrom/table/record_reader.hpp>

#include <fmt/format.h>

namespace jointrom {
namespace {

/// What the cells of one column of the manifest are.
struct ManifestColumn {
    const EntryColumn* entry = nullptr;
    const SettingKind* setting = nullptr;
};

Failure placed(const Failure& failure, Place place) {
    return {failure.kind(), failure.code(), failure.what(), failure.advice(), std::move(place)};
}

class ManifestReading {
  public:
    explicit ManifestReading(const std::filesystem::path& path) : reader_(path) {
        list_.source = path.string();
        list_.folder = path.has_parent_path() ? path.parent_path() : std::filesystem::path(".");
        list_.sha256 = sha256_of_file(path);
        find_columns();
    }

    ClassList read() {
        try {
            while (reader_.next()) {
                read_row();
            }
        } catch (const Failure& failure) {  // the rows behind it cannot be told apart
            list_.problems.push_back(failure);
        }
        if (list_.entries.empty() && list_.problems.empty()) {
            throw Failure(FailureKind::unreadable_data, "manifest-empty", "the manifest has no rows",
                          "Add a row for each recording.", {list_.source});
        }
        return std::move(list_);
    }

  private:
    void find_columns() {
        (void)reader_.column("file");
        for (std::size_t c = 0; c < reader_.columns().size(); ++c) {
            const std::string& name = reader_.columns()[c];
            ManifestColumn column{find_entry_column(name), find_entry_setting(name)};
            if (column.entry == nullptr && column.setting == nullptr && !name.empty()) {
                list_.problems.push_back(placed(unknown_entry_name(name, "column"), {list_.source, 1, c + 1}));
            }
            columns_.push_back(column);
        }
    }

    void read_row() {
        ClassEntry entry;
        entry.line = reader_.line();
        for (std::size_t c = 0; c < columns_.size(); ++c) {
            const std::string_view text = reader_.text(c);
            if (text.empty()) {
                continue;
            }
            try {
                if (columns_[c].entry != nullptr) {
                    const std::size_t before = entry.settings.size();
                    columns_[c].entry->set(entry, list_, text);
                    for (std::size_t i = before; i < entry.settings.size(); ++i) {
                        entry.settings[i].column = c + 1;
                    }
                } else if (columns_[c].setting != nullptr) {
                    set_entry_setting(entry, list_, *columns_[c].setting, text, c + 1);
                }
            } catch (const Failure& failure) {
                list_.problems.push_back(placed(failure, reader_.place(c)));
            }
        }
        if (entry.path.empty() && reader_.text(reader_.column("file")).empty()) {
            list_.problems.emplace_back(FailureKind::unreadable_data, "file-unnamed", "the row names no file",
                                        "Fill in the column file.", reader_.place(reader_.column("file")));
        }
        list_.entries.push_back(std::move(entry));
    }

    RecordReader reader_;
    ClassList list_;
    std::vector<ManifestColumn> columns_;
};

}  // namespace

ClassList read_manifest(const std::filesystem::path& path) {
    return ManifestReading(path).read();
}

}  // namespace jointrom
