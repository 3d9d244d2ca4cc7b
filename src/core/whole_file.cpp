#include <jointrom/core/failure.hpp>
#include <jointrom/core/whole_file.hpp>

#include <cerrno>
#include <cstring>
#include <utility>

#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

namespace jointrom {

WholeFile::WholeFile(std::filesystem::path path) : path_(std::move(path)) {
    if (std::filesystem::is_directory(path_)) {
        throw Failure(FailureKind::cannot_create, "cannot-create", "the output is a folder, a file name was expected",
                      "Name a file in that folder.", {path_.string()});
    }
    temporary_ = path_;
    temporary_ += ".tmp-XXXXXX";
    std::string name = temporary_.string();
    const int descriptor = ::mkstemp(name.data());
    if (descriptor < 0) {
        throw Failure(FailureKind::cannot_create, "cannot-create",
                      std::string("cannot create the file: ") + std::strerror(errno),
                      "Check that the folder exists and may be written.", {path_.string()});
    }
    // mkstemp makes files private; results get the permissions that any new file of this user gets.
    const mode_t mask = ::umask(0);
    ::umask(mask);
    ::fchmod(descriptor, 0666 & ~mask);
    temporary_ = name;
    file_ = ::fdopen(descriptor, "wb");
}

WholeFile::~WholeFile() {
    if (file_ != nullptr) {
        std::fclose(file_);
        std::error_code ignored;
        std::filesystem::remove(temporary_, ignored);
    }
}

void WholeFile::append(std::string_view text) {
    if (std::fwrite(text.data(), 1, text.size(), file_) != text.size()) {
        fail_to_write();
    }
}

void WholeFile::commit() {
    const bool stored = std::fflush(file_) == 0 && ::fsync(::fileno(file_)) == 0;
    if (!stored) {
        fail_to_write();
    }
    std::fclose(std::exchange(file_, nullptr));
    std::error_code status;
    std::filesystem::rename(temporary_, path_, status);
    if (status) {
        std::error_code ignored;
        std::filesystem::remove(temporary_, ignored);
        throw Failure(FailureKind::cannot_create, "cannot-create", "cannot name the file: " + status.message(),
                      "Check that the folder may be written.", {path_.string()});
    }
}

void WholeFile::fail_to_write() {
    throw Failure(FailureKind::cannot_write, "cannot-write",
                  std::string("cannot write the file: ") + std::strerror(errno),
                  "Make room on the disk; nothing was left behind.", {path_.string()});
}

void write_whole_file(const std::filesystem::path& path, std::string_view text) {
    WholeFile file(path);
    file.append(text);
    file.commit();
}

}  // namespace jointrom
