#include <jointrom/core/place.hpp>

namespace jointrom {

std::string Place::text() const {
    std::string result = file;
    if (line > 0) {
        result += (result.empty() ? "line " : ":") + std::to_string(line);
        if (column > 0) {
            result += ":" + std::to_string(column);
        }
    }
    return result;
}

}  // namespace jointrom
