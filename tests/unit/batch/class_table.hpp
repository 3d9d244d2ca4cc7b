#pragma once

/// \file
/// Class tables written for one test.

#include <jointrom/batch/long_table.hpp>
#include <jointrom/core/failure.hpp>
#include <support/catch.hpp>
#include <support/scratch_folder.hpp>

#include <fstream>
#include <sstream>
#include <string>
#include <vector>

namespace jointrom::test {

/// Reads texts as the files of one table.
inline LongTable table_of(const std::vector<std::string>& contents, const LongTableRequest& request) {
    const ScratchFolder folder;
    std::vector<std::string> files;
    for (const std::string& content : contents) {
        files.push_back((folder.path() / ("shard" + std::to_string(files.size()) + ".csv")).string());
        std::ofstream(files.back()) << content;
    }
    std::istringstream nothing;
    return read_long_table(files, nothing, [&](const std::vector<std::string>&) { return request; });
}

/// The code of the failure, "none" when all went well.
template <typename Work>
std::string failure_code(Work work) {
    try {
        work();
    } catch (const Failure& failure) {
        return failure.code();
    }
    return "none";
}

}  // namespace jointrom::test
