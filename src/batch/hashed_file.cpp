#include <jointrom/batch/hashed_file.hpp>
#include <jointrom/recording/recording_files.hpp>

#include <array>
#include <cerrno>
#include <cstring>
#include <utility>

#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

namespace jointrom {

HashedFile::HashedFile(std::filesystem::path path)
    : path_(std::move(path)), descriptor_(::open(path_.c_str(), O_RDONLY | O_CLOEXEC)) {
    struct stat status = {};
    if (descriptor_ < 0 || ::fstat(descriptor_, &status) != 0 || S_ISDIR(status.st_mode)) {
        const std::string why = std::strerror(errno);
        if (descriptor_ >= 0) {
            ::close(descriptor_);
        }
        (void)file_source(path_);  // knows how to say it
        throw Failure(FailureKind::missing_file, "file-unreadable", "the file cannot be read: " + why, {},
                      {path_.string()});
    }
    before_ = find_file_stamp(descriptor_);
}

HashedFile::~HashedFile() {
    ::close(descriptor_);
}

std::size_t HashedFile::read(std::span<char> buffer) {
    ssize_t count = -1;
    do {
        count = ::read(descriptor_, buffer.data(), buffer.size());
    } while (count < 0 && errno == EINTR);
    if (count < 0) {
        throw Failure(FailureKind::missing_file, "file-unreadable",
                      std::string("the file cannot be read: ") + std::strerror(errno),
                      "Check that the disk is connected.", {path_.string()});
    }
    hash_.add({buffer.data(), static_cast<std::size_t>(count)});
    bytes_ += count;
    return static_cast<std::size_t>(count);
}

std::string HashedFile::sha256() {
    std::array<char, 1U << 14U> rest;
    while (read(rest) > 0) {
    }
    if (before_ && (find_file_stamp(descriptor_) != before_ || bytes_ != before_->size)) {
        throw file_changed(path_, "Run again with --resume once it is written to its end.");
    }
    return hash_.hexadecimal();
}

HashedRecording::HashedRecording(const std::filesystem::path& path) {
    for (const std::filesystem::path& file : recording_files(path)) {
        files_.push_back(std::make_unique<HashedFile>(file));
    }
}

std::string HashedRecording::sha256() {
    if (files_.size() == 1) {
        return files_.front()->sha256();
    }
    std::string sums;
    for (const auto& file : files_) {
        sums += file->sha256() + '\n';
    }
    return sha256_of(sums);
}

}  // namespace jointrom
