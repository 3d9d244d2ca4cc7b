#pragma once

/// \file
/// The blocks of a file, one after another: which lines separate trials, which are remarks, which end the table.

#include <table/row_reader.hpp>
#include <table/table_layout.hpp>
#include <table/text_blocks.hpp>

#include <jointrom/table/table_reader.hpp>

#include <cstddef>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace jointrom {

class TableAssembly {
  public:
    /// \param size_hint  bytes of the input, 0 if unknown
    TableAssembly(TextBlocks& blocks, std::size_t size_hint, std::string name, const TableOptions& options);

    [[nodiscard]] Table read();

  private:
    /// A run of rows with its own layout and columns.
    struct Block {
        TableLayout layout;
        std::unique_ptr<ColumnStore> store;
        std::unique_ptr<RowReader> reader;
        std::size_t first_line = 0;
        std::size_t last_line = 0;
        std::vector<ColumnStore::Column> columns;  ///< once it is finished
        std::size_t rows = 0;
        std::size_t first_index = 0;  ///< of its first trial among all trials of the file
    };
    /// A line that is no row, kept until it shows what it was.
    struct PendingLine {
        std::string text;
        std::size_t number = 0;
        bool wrong = false;
    };

    void start();
    void begin_block(const DialectGuess& guess);
    void finish_block();
    void next_text();
    void settle_pending();
    void begin_next_block();
    [[nodiscard]] bool begins_trial(std::string_view row);
    [[nodiscard]] bool has_label_or_header();
    void skip_pending();
    [[nodiscard]] std::size_t expected_rows() const;
    [[nodiscard]] Table finish();

    TextBlocks& blocks_;
    std::string name_;
    const TableOptions& options_;
    std::size_t size_hint_;
    std::string_view text_;  ///< what is left of the present stretch of text
    std::size_t line_ = 1;   ///< number of its first line
    std::size_t cut_line_ = 0;
    Dialect dialect_;
    bool decimal_known_ = false;
    bool windows_1252_ = false;
    Block current_;
    std::optional<Block> best_;
    std::size_t best_trial_ = 0;  ///< index into trials_
    std::vector<TableBlock> trials_;
    std::vector<std::string> preamble_;
    std::vector<PendingLine> pending_;
    std::size_t skipped_lines_ = 0;
    std::size_t first_skipped_line_ = 0;
};

}  // namespace jointrom
