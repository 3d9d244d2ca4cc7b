#include <jointrom/core/checksum.hpp>
#include <jointrom/core/failure.hpp>

#include <openssl/evp.h>

#include <array>
#include <cstdio>
#include <memory>
#include <vector>

namespace jointrom {
namespace {

struct CloseFile {
    void operator()(std::FILE* file) const { std::fclose(file); }
};

/// Looked up once for the life of the process: a search among the providers takes longer than hashing a short text.
const EVP_MD* algorithm() {
    static const EVP_MD* const fetched = EVP_MD_fetch(nullptr, "SHA256", nullptr);
    return fetched;
}

}  // namespace

struct Sha256::State {
    EVP_MD_CTX* context = EVP_MD_CTX_new();
};

void Sha256::Free::operator()(State* state) const {
    EVP_MD_CTX_free(state->context);
    delete state;
}

Sha256::Sha256() : state_(new State) {
    EVP_DigestInit_ex(state_->context, algorithm(), nullptr);
}

void Sha256::add(std::string_view bytes) {
    EVP_DigestUpdate(state_->context, bytes.data(), bytes.size());
}

std::string Sha256::hexadecimal() {
    std::array<unsigned char, EVP_MAX_MD_SIZE> digest{};
    unsigned int length = 0;
    EVP_DigestFinal_ex(state_->context, digest.data(), &length);
    constexpr std::string_view digits = "0123456789abcdef";
    std::string text;
    text.reserve(2 * std::size_t{length});
    for (unsigned int i = 0; i < length; ++i) {
        text += digits[digest[i] >> 4U];
        text += digits[digest[i] & 15U];
    }
    return text;
}

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
