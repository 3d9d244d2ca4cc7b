#include <jointrom/batch/pseudonyms.hpp>
#include <jointrom/core/failure.hpp>
#include <jointrom/core/random_bytes.hpp>
#include <jointrom/report/render.hpp>
#include <jointrom/table/record_reader.hpp>

#include <algorithm>
#include <cerrno>
#include <cstring>

#include <fcntl.h>
#include <sys/file.h>
#include <sys/stat.h>
#include <unistd.h>

namespace jointrom {
namespace {

constexpr std::string_view code_letters = "23456789ABCDEFGHJKMNPQRSTVWXYZ";  // none is taken for another
constexpr std::size_t code_length = 8;

/// The key file, open and locked until the end of the block.
class LockedKey {
  public:
    explicit LockedKey(const std::filesystem::path& path)
        : path_(path), descriptor_(::open(path.c_str(), O_RDWR | O_CREAT | O_APPEND | O_CLOEXEC, 0600)) {
        struct stat status = {};
        if (descriptor_ < 0 || ::flock(descriptor_, LOCK_EX) != 0 || ::fstat(descriptor_, &status) != 0) {
            const std::string why = std::strerror(errno);
            close();
            throw Failure(FailureKind::cannot_create, "cannot-create", "cannot open the key file: " + why,
                          "Check that the folder exists and may be written.", {path.string()});
        }
        size_ = status.st_size;
        if ((status.st_mode & (S_IRWXG | S_IRWXO)) != 0) {
            close();
            throw Failure(FailureKind::usage, "key-readable", "others may read the key file",
                          "Let its owner alone read it: chmod 600 " + path.string(), {path.string()});
        }
    }
    ~LockedKey() { close(); }
    LockedKey(const LockedKey&) = delete;
    LockedKey& operator=(const LockedKey&) = delete;

    [[nodiscard]] bool is_empty() const noexcept { return size_ == 0; }

    /// All or nothing: what a full disk did not take is cut off again.
    void append(const std::string& text) {
        const ssize_t written = ::write(descriptor_, text.data(), text.size());
        if (written == static_cast<ssize_t>(text.size()) && ::fsync(descriptor_) == 0) {
            return;
        }
        const std::string why = std::strerror(errno);
        const bool cut = ::ftruncate(descriptor_, size_) == 0;
        throw Failure(FailureKind::cannot_write, "cannot-write", "cannot write the key file: " + why,
                      cut ? "Make room on the disk." : "Make room on the disk; its last line is not whole.",
                      {path_.string()});
    }

  private:
    void close() {
        if (descriptor_ >= 0) {
            ::close(std::exchange(descriptor_, -1));
        }
    }

    std::filesystem::path path_;
    int descriptor_;
    off_t size_ = 0;
};

char small(char c) {
    return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
}

bool is_letter(char c) {
    return (small(c) >= 'a' && small(c) <= 'z') || (c >= '0' && c <= '9') || static_cast<unsigned char>(c) >= 0x80;
}

std::string row(std::string_view kind, std::string_view name, std::string_view code) {
    return std::string(kind) + "," + csv_text(name) + "," + std::string(code) + "\n";
}

/// What stands in quotes gives way to dots; an apostrophe within or behind a word opens none.
std::string without_quotes(std::string_view text) {
    std::string result;
    std::size_t i = 0;
    while (i < text.size()) {
        const bool opens = (text[i] == '\'' || text[i] == '"') && (i == 0 || !is_letter(text[i - 1]));
        std::size_t end = opens ? text.find(text[i], i + 1) : std::string_view::npos;
        while (end != std::string_view::npos && end + 1 < text.size() && is_letter(text[end + 1])) {
            end = text.find(text[i], end + 1);
        }
        if (!opens || end == std::string_view::npos) {
            result += text[i++];
            continue;
        }
        result += text[i] + std::string("...") + text[i];
        i = end + 1;
    }
    return result;
}

bool stands_at(std::string_view text, std::size_t at, std::string_view name) {
    if (at + name.size() > text.size() ||
        !std::equal(name.begin(), name.end(), text.begin() + static_cast<std::ptrdiff_t>(at),
                    [](char a, char b) { return small(a) == small(b); })) {
        return false;
    }
    const bool part_of_word =
        (at > 0 && is_letter(text[at - 1])) || (at + name.size() < text.size() && is_letter(text[at + name.size()]));
    return name.size() > 3 || !part_of_word;
}

}  // namespace

Pseudonyms::Pseudonyms(const std::filesystem::path& key_file, const std::vector<std::string>& participants,
                       const std::vector<std::string>& raters) {
    LockedKey file(key_file);
    std::string added;
    if (file.is_empty()) {
        constexpr std::string_view digits = "0123456789abcdef";
        for (const char byte : random_bytes(32)) {
            secret_ += digits[static_cast<unsigned char>(byte) >> 4U];
            secret_ += digits[static_cast<unsigned char>(byte) & 15U];
        }
        added = "kind,name,code\n" + row("secret", "", secret_);
    } else {
        read(key_file);
    }
    for (const auto& [kind, names] : {std::pair{"participant", &participants}, std::pair{"rater", &raters}}) {
        for (const std::string& name : *names) {
            if (!name.empty() && !codes_.contains({kind, name})) {
                added += row(kind, name, add(kind, name));
            }
        }
    }
    if (!added.empty()) {
        file.append(added);
    }
}

void Pseudonyms::read(const std::filesystem::path& key_file) {
    RecordReader reader(key_file);
    const std::size_t kind = reader.column("kind"), name = reader.column("name"), code = reader.column("code");
    while (reader.next()) {
        const Key key{reader.text(kind), reader.text(name)};
        const std::string value(reader.text(code));
        if (value.empty() || (key.first != "secret" && !names_.emplace(value, key).second)) {
            throw Failure(FailureKind::unreadable_data, "key-invalid", "a code is missing or stands twice",
                          "Take the key file that was written, unchanged.", reader.place(code));
        }
        (key.first == "secret" ? secret_ : codes_[key]) = value;
    }
    if (secret_.empty()) {
        throw Failure(FailureKind::unreadable_data, "key-invalid", "the key file has no row 'secret'",
                      "Take the key file that was written, unchanged.", {key_file.string()});
    }
}

std::string Pseudonyms::add(const std::string& kind, const std::string& name) {
    std::string code;
    while (code.empty() || names_.contains(code)) {
        code = kind == "rater" ? "R-" : "P-";
        while (code.size() < code_length) {
            const auto byte = static_cast<unsigned char>(random_bytes(1).front());
            if (byte < 240) {  // a multiple of the 30 letters, so that each is as likely
                code += code_letters[byte % code_letters.size()];
            }
        }
    }
    names_.emplace(code, Key{kind, name});
    codes_.emplace(Key{kind, name}, code);
    return code;
}

std::string Pseudonyms::participant(const std::string& name) const {
    return name.empty() ? std::string() : codes_.at({"participant", name});
}

std::string Pseudonyms::rater(const std::string& name) const {
    return name.empty() ? std::string() : codes_.at({"rater", name});
}

std::string without_names(std::string_view text, const std::vector<std::string>& names) {
    const std::string open = without_quotes(text);
    std::string result;
    std::size_t i = 0;
    while (i < open.size()) {
        std::size_t longest = 0;
        for (const std::string& name : names) {
            if (!name.empty() && name.size() > longest && stands_at(open, i, name)) {
                longest = name.size();
            }
        }
        if (longest == 0) {
            result += open[i++];
        } else {
            result += "...";
            i += longest;
        }
    }
    return result;
}

std::vector<std::string> name_and_words(std::string_view name) {
    std::vector<std::string> result{std::string(name)};
    std::string word;
    for (const char c : std::string(name) + " ") {
        if (is_letter(c)) {
            word += c;
            continue;
        }
        if (word.size() >= 3 && word != name) {
            result.push_back(word);
        }
        word.clear();
    }
    return result;
}

}  // namespace jointrom
