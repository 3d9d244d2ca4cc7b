#include "simulate/portable_math.hpp"

#include <jointrom/simulate/random_numbers.hpp>

#include <cmath>

namespace jointrom {
namespace {

std::uint64_t fnv1a(std::string_view text) noexcept {
    std::uint64_t hash = 14695981039346656037U;
    for (const char c : text) {
        hash = (hash ^ static_cast<unsigned char>(c)) * 1099511628211U;
    }
    return hash;
}

}  // namespace

RandomNumbers::RandomNumbers(std::uint64_t seed, std::string_view purpose) noexcept
    : state_(RandomNumbers(seed).bits() ^ fnv1a(purpose)) {}

std::uint64_t RandomNumbers::bits() noexcept {
    state_ += 0x9e3779b97f4a7c15U;
    std::uint64_t z = state_;
    z = (z ^ (z >> 30)) * 0xbf58476d1ce4e5b9U;
    z = (z ^ (z >> 27)) * 0x94d049bb133111ebU;
    return z ^ (z >> 31);
}

double RandomNumbers::uniform() noexcept {
    return static_cast<double>(bits() >> 11) * 0x1p-53;
}

double RandomNumbers::normal() noexcept {
    if (spare_) {
        const double value = *spare_;
        spare_.reset();
        return value;
    }
    while (true) {
        const double x = 2.0 * uniform() - 1.0;
        const double y = 2.0 * uniform() - 1.0;
        const double square = x * x + y * y;
        if (square > 0.0 && square < 1.0) {
            const double factor = std::sqrt(-2.0 * portable_log(square) / square);
            spare_ = y * factor;
            return x * factor;
        }
    }
}

}  // namespace jointrom
