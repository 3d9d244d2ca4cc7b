#include "table/formula_guard.hpp"

namespace jointrom {

bool looks_like_formula(std::string_view text) {
    return !text.empty() && std::string_view("=+-@\t\r\n").find(text.front()) != std::string_view::npos;
}

std::string_view without_guard(std::string_view cell) {
    return cell.starts_with('\'') && looks_like_formula(cell.substr(1)) ? cell.substr(1) : cell;
}

}  // namespace jointrom
