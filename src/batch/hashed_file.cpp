#include <jointrom/batch/hashed_file.hpp>
#include <jointrom/core/failure.hpp>

#include <array>
#include <system_error>
#include <utility>

namespace jointrom {

HashedFile::HashedFile(std::filesystem::path path)
    : path_(std::move(path)), file_(file_source(path_)), before_(stamp()) {}

HashedFile::Stamp HashedFile::stamp() const {
    std::error_code none;  // of what cannot be looked at, nothing can be compared
    return {std::filesystem::file_size(path_, none), std::filesystem::last_write_time(path_, none)};
}

std::size_t HashedFile::read(std::span<char> buffer) {
    const std::size_t count = file_->read(buffer);
    hash_.add({buffer.data(), count});
    bytes_ += count;
    return count;
}

std::string HashedFile::sha256() {
    std::array<char, 1U << 14U> rest{};
    while (read(rest) > 0) {
    }
    const bool is_regular = before_.size != static_cast<std::uintmax_t>(-1);
    if (is_regular && (stamp() != before_ || bytes_ != before_.size)) {
        throw Failure(FailureKind::unreadable_data, "file-changed", "the file changed while it was read",
                      "Run again with --resume once it is written to its end.", {path_.string()});
    }
    return hash_.hexadecimal();
}

}  // namespace jointrom
