#include <jointrom/core/failure.hpp>
#include <jointrom/core/whole_file.hpp>

#include <atomic>
#include <cerrno>
#include <cstring>
#include <memory>
#include <utility>

#include <fcntl.h>
#include <unistd.h>

namespace jointrom {
namespace {

std::filesystem::path temporary_name(const std::filesystem::path& path) {
    static std::atomic<unsigned> count{0};
    std::filesystem::path name = path;
    name += ".tmp-" + std::to_string(::getpid()) + "-" + std::to_string(count++);
    return name;
}

}  // namespace

WholeFile::WholeFile(std::filesystem::path path) : path_(std::move(path)) {
    std::error_code unknown;  // what cannot be looked at cannot be created either, which is found out below
    const std::filesystem::file_status status = std::filesystem::status(path_, unknown);
    if (std::filesystem::is_directory(status)) {
        throw Failure(FailureKind::cannot_create, "cannot-create", "the output is a folder, a file name was expected",
                      "Name a file in that folder.", {path_.string()});
    }
    // A device or a pipe cannot be replaced; what goes there goes directly.
    const bool replaceable = !std::filesystem::exists(status) || std::filesystem::is_regular_file(status);
    temporary_ = replaceable ? temporary_name(path_) : path_;
    const int descriptor =
        ::open(temporary_.c_str(), replaceable ? O_CREAT | O_EXCL | O_WRONLY | O_CLOEXEC : O_WRONLY | O_CLOEXEC, 0666);
    file_ = descriptor < 0 ? nullptr : ::fdopen(descriptor, "wb");
    if (file_ == nullptr) {
        throw Failure(FailureKind::cannot_create, "cannot-create",
                      std::string("cannot create the file: ") + std::strerror(errno),
                      "Check that the folder exists and may be written.", {path_.string()});
    }
}

WholeFile::~WholeFile() {
    if (file_ != nullptr) {
        std::fclose(file_);
    }
    if (is_pending_) {
        discard();
    }
}

void WholeFile::append(std::string_view text) {
    if (std::fwrite(text.data(), 1, text.size(), file_) != text.size()) {
        fail_to_write();
    }
}

void WholeFile::finish() {
    if (file_ == nullptr) {
        return;
    }
    if (std::fflush(file_) != 0 || std::fclose(std::exchange(file_, nullptr)) != 0) {
        fail_to_write();
    }
}

void WholeFile::commit() {
    finish();
    if (temporary_ == path_) {
        is_pending_ = false;
        return;
    }
    std::error_code status;
    std::filesystem::rename(temporary_, path_, status);
    if (status) {
        throw Failure(FailureKind::cannot_create, "cannot-create", "cannot name the file: " + status.message(),
                      "Check that the folder may be written.", {path_.string()});
    }
    is_pending_ = false;
}

void WholeFile::discard() const {
    if (temporary_ != path_) {
        std::error_code ignored;
        std::filesystem::remove(temporary_, ignored);
    }
}

void WholeFile::fail_to_write() const {
    throw Failure(FailureKind::cannot_write, "cannot-write",
                  std::string("cannot write the file: ") + std::strerror(errno),
                  "Make room on the disk; nothing was left behind.", {path_.string()});
}

void write_whole_file(const std::filesystem::path& path, std::string_view text) {
    WholeFile file(path);
    file.append(text);
    file.commit();
}

std::string read_whole_file(const std::filesystem::path& path, std::string_view what) {
    const std::unique_ptr<std::FILE, decltype(&std::fclose)> file(std::fopen(path.c_str(), "rb"), &std::fclose);
    std::string text;
    std::size_t count = 0;
    do {
        const std::size_t end = text.size();
        text.resize(end + 4096);
        count = file ? std::fread(text.data() + end, 1, 4096, file.get()) : 0;
        text.resize(end + count);
    } while (count > 0);
    if (!file || std::ferror(file.get()) != 0) {
        throw Failure(FailureKind::missing_file, "file-missing",
                      "cannot read the " + std::string(what) + ": " + std::strerror(errno),
                      "Check the name and the permissions.", {path.string()});
    }
    return text;
}

}  // namespace jointrom
