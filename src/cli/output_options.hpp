#pragma once

/// \file
/// Where a result goes and in which form: the options that every command has.

#include "cli/command.hpp"

#include <jointrom/core/file_stamp.hpp>
#include <jointrom/report/result_table.hpp>

#include <filesystem>
#include <functional>
#include <map>
#include <memory>
#include <optional>
#include <string>
#include <string_view>

namespace jointrom::cli {

enum class Format { table, csv, json };

/// Passes text on to where the result goes; may be called many times.
using TextSink = std::function<void(std::string_view)>;

struct OutputOptions {
    std::string format;
    std::string output;
    bool quiet = false;
    bool explain = false;
    std::shared_ptr<std::map<std::string, std::optional<FileStamp>>> watched =
        std::make_shared<std::map<std::string, std::optional<FileStamp>>>();  ///< as they were before they were read

    /// \param may_explain whether the command has an uncertainty budget to print
    void attach(OptionList& list, bool may_explain);

    /// The form asked for, or the one that the file's extension names, or `otherwise`.
    [[nodiscard]] Format chosen_format(Format otherwise) const;

    /// Before `file` is read: input() then refuses it if it has changed in the meantime.
    void watch(const std::string& file) const { (*watched)[file] = find_file_stamp(std::filesystem::path(file)); }
    /// An input as a result names it; its checksum is computed only where it is printed.
    /// \throws Failure as sha256_of_unchanged()
    [[nodiscard]] InputFile input(const std::string& file, std::size_t rows) const;

    /// Prints the findings that are to be seen to the error stream.
    void print(const Findings& findings, Console& console) const;

    /// Prints the findings, then the report in the chosen form to --output or standard output.
    void write(const Report& report, Console& console, Format otherwise = Format::table) const;

    /// Prints the findings, then whatever `produce` writes, whole, to --output or standard output.
    void write(const Findings& findings, Console& console, const std::function<void(const TextSink&)>& produce) const;
};

}  // namespace jointrom::cli
