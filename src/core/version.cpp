#include <jointrom/core/version.hpp>

namespace jointrom {

std::string_view version() {
    return JOINTROM_VERSION;
}

}  // namespace jointrom
