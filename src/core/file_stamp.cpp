#include <jointrom/core/file_stamp.hpp>

#include <utility>

#include <sys/stat.h>

namespace jointrom {

std::optional<FileStamp> find_file_stamp(int descriptor) {
    struct stat status = {};
    if (::fstat(descriptor, &status) != 0 || !S_ISREG(status.st_mode)) {
        return std::nullopt;
    }
    return FileStamp{status.st_size, status.st_mtim.tv_sec, status.st_mtim.tv_nsec};
}

Failure file_changed(const std::filesystem::path& path, std::string advice) {
    return {FailureKind::unreadable_data,
            "file-changed",
            "the file changed while it was read",
            std::move(advice),
            {path.string()}};
}

}  // namespace jointrom
