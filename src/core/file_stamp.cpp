#include <jointrom/core/checksum.hpp>
#include <jointrom/core/file_stamp.hpp>

#include <utility>

#include <sys/stat.h>

namespace jointrom {
namespace {

std::optional<FileStamp> stamp_of(bool is_known, const struct stat& status) {
    if (!is_known || !S_ISREG(status.st_mode)) {
        return std::nullopt;
    }
    return FileStamp{.device = status.st_dev,
                     .number = status.st_ino,
                     .size = status.st_size,
                     .changed_s = status.st_mtim.tv_sec,
                     .changed_ns = status.st_mtim.tv_nsec};
}

}  // namespace

std::optional<FileStamp> find_file_stamp(int descriptor) {
    struct stat status = {};
    const bool is_known = ::fstat(descriptor, &status) == 0;
    return stamp_of(is_known, status);
}

std::optional<FileStamp> find_file_stamp(const std::filesystem::path& path) {
    struct stat status = {};
    const bool is_known = ::stat(path.c_str(), &status) == 0;
    return stamp_of(is_known, status);
}

Failure file_changed(const std::filesystem::path& path, std::string advice) {
    return {FailureKind::unreadable_data,
            "file-changed",
            "the file changed while it was read",
            std::move(advice),
            {path.string()}};
}

std::string sha256_of_unchanged(const std::filesystem::path& path, const std::optional<FileStamp>& before) {
    std::string checksum = sha256_of_file(path);
    if (find_file_stamp(path) != before) {
        throw file_changed(path, "Run again once it is written to its end.");
    }
    return checksum;
}

}  // namespace jointrom
