#include <jointrom/core/failure.hpp>

#include <utility>

namespace jointrom {

Failure::Failure(FailureKind kind, std::string_view code, const std::string& text, std::string advice, Place place)
    : std::runtime_error(text), kind_(kind), code_(code), advice_(std::move(advice)), place_(std::move(place)) {}

Failure Failure::in_file(const std::string& file) const {
    Failure result = *this;
    if (result.place_.file.empty()) {
        result.place_.file = file;
    }
    return result;
}

}  // namespace jointrom
