#include <jointrom/table/byte_source.hpp>

#include <jointrom/core/failure.hpp>
#include <jointrom/core/file_stamp.hpp>

#include <algorithm>
#include <cerrno>
#include <cstdio>
#include <cstring>
#include <istream>
#include <optional>
#include <string>

namespace jointrom {
namespace {

Failure unreadable(const std::string& file, const std::string& why) {
    return {FailureKind::missing_file, "file-unreadable", "the file cannot be read: " + why,
            "Check that you may read it and that the disk is connected.", Place{file}};
}

class FileSource final : public ByteSource {
  public:
    FileSource(std::string name, std::size_t size)
        : name_(std::move(name)), size_(size), file_(std::fopen(name_.c_str(), "rb"), &std::fclose) {
        if (file_ == nullptr) {
            throw unreadable(name_, std::strerror(errno));
        }
        // The reader brings its own buffer.
        std::setvbuf(file_.get(), nullptr, _IONBF, 0);
        before_ = find_file_stamp(::fileno(file_.get()));
    }

    std::size_t read(std::span<char> buffer) override {
        const std::size_t got = std::fread(buffer.data(), 1, buffer.size(), file_.get());
        if (got == 0 && std::ferror(file_.get()) != 0) {
            throw unreadable(name_, std::strerror(errno));
        }
        if (got == 0 && !buffer.empty() && find_file_stamp(::fileno(file_.get())) != before_) {
            throw file_changed(name_, "Run again once it is written to its end.");
        }
        return got;
    }

    [[nodiscard]] std::size_t size_hint() const noexcept override { return size_; }

  private:
    std::string name_;
    std::size_t size_;
    std::unique_ptr<std::FILE, int (*)(std::FILE*)> file_;
    std::optional<FileStamp> before_;
};

class TextSource final : public ByteSource {
  public:
    explicit TextSource(std::string_view text) : rest_(text), size_(text.size()) {}

    std::size_t read(std::span<char> buffer) override {
        const std::size_t count = std::min(buffer.size(), rest_.size());
        std::copy_n(rest_.data(), count, buffer.data());
        rest_.remove_prefix(count);
        return count;
    }

    [[nodiscard]] std::size_t size_hint() const noexcept override { return size_; }

  private:
    std::string_view rest_;
    std::size_t size_;
};

class StreamSource final : public ByteSource {
  public:
    explicit StreamSource(std::istream& stream) : stream_(stream) {}

    std::size_t read(std::span<char> buffer) override {
        stream_.read(buffer.data(), static_cast<std::streamsize>(buffer.size()));
        if (stream_.bad()) {
            throw unreadable("-", "the stream failed");
        }
        return static_cast<std::size_t>(stream_.gcount());
    }

  private:
    std::istream& stream_;
};

}  // namespace

std::unique_ptr<ByteSource> file_source(const std::filesystem::path& path) {
    const std::string name = path.string();
    std::error_code problem;
    const std::filesystem::file_status status = std::filesystem::status(path, problem);
    if (status.type() == std::filesystem::file_type::not_found) {
        throw Failure(FailureKind::missing_file, "file-missing", "there is no such file",
                      "Check the name and the folder.", Place{name});
    }
    if (std::filesystem::is_directory(status)) {
        throw Failure(FailureKind::missing_file, "not-a-file", "this is a folder, where a file of text was expected",
                      "Name one of the files in it.", Place{name});
    }
    std::uintmax_t size = 0;
    if (std::filesystem::is_regular_file(status)) {
        size = std::filesystem::file_size(path, problem);
    }
    return std::make_unique<FileSource>(name, problem ? 0 : static_cast<std::size_t>(size));
}

std::unique_ptr<ByteSource> text_source(std::string_view text) {
    return std::make_unique<TextSource>(text);
}

std::unique_ptr<ByteSource> stream_source(std::istream& stream) {
    return std::make_unique<StreamSource>(stream);
}

}  // namespace jointrom
