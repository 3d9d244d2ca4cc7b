#include <jointrom/core/checksum.hpp>
#include <jointrom/core/failure.hpp>

#include <fmt/format.h>
#include <openssl/evp.h>

#include <array>
#include <cstdio>
#include <memory>
#include <vector>

namespace jointrom {
namespace {

class Sha256 {
  public:
    Sha256() : context_(EVP_MD_CTX_new()) { EVP_DigestInit_ex(context_.get(), EVP_sha256(), nullptr); }

    void add(std::string_view bytes) { EVP_DigestUpdate(context_.get(), bytes.data(), bytes.size()); }

    [[nodiscard]] std::string hexadecimal() {
        std::array<unsigned char, EVP_MAX_MD_SIZE> digest{};
        unsigned int length = 0;
        EVP_DigestFinal_ex(context_.get(), digest.data(), &length);
        std::string text;
        for (unsigned int i = 0; i < length; ++i) {
            text += fmt::format("{:02x}", digest[i]);
        }
        return text;
    }

  private:
    struct Free {
        void operator()(EVP_MD_CTX* context) const { EVP_MD_CTX_free(context); }
    };
    std::unique_ptr<EVP_MD_CTX, Free> context_;
};

struct CloseFile {
    void operator()(std::FILE* file) const { std::fclose(file); }
};

}  // namespace

std::string sha256_of(std::string_view bytes) {
    Sha256 hash;
    hash.add(bytes);
    return hash.hexadecimal();
}

std::string sha256_of_file(const std::filesystem::path& path) {
    const std::unique_ptr<std::FILE, CloseFile> file(std::fopen(path.c_str(), "rb"));
    if (!file) {
        throw Failure(FailureKind::missing_file, "file-missing", "cannot read the file",
                      "Check the name and the permissions.", {path.string()});
    }
    Sha256 hash;
    std::vector<char> block(std::size_t{1} << 18);
    while (const std::size_t count = std::fread(block.data(), 1, block.size(), file.get())) {
        hash.add({block.data(), count});
    }
    return hash.hexadecimal();
}

}  // namespace jointrom
