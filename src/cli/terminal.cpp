#include "cli/terminal.hpp"

#include <jointrom/core/number_text.hpp>

#include <sys/ioctl.h>
#include <unistd.h>

#include <cstdlib>
#include <string_view>

namespace jointrom::cli {
namespace {

std::string_view variable(const char* name) {
    const char* const text = std::getenv(name);
    return text == nullptr ? std::string_view() : std::string_view(text);
}

/// Nothing sensible is printed in fewer columns.
constexpr double narrowest = 20.0;

}  // namespace

void look_at_terminal(Console& console) {
    winsize size{};
    if (const auto stated = parse_number(variable("COLUMNS")); stated && *stated >= narrowest && *stated < 1e6) {
        console.width = static_cast<std::size_t>(*stated);
    } else if (isatty(STDOUT_FILENO) == 1 && ioctl(STDOUT_FILENO, TIOCGWINSZ, &size) == 0 && size.ws_col >= narrowest) {
        console.width = size.ws_col;
    }
    const std::string_view terminal = variable("TERM");
    console.has_colours =
        isatty(STDERR_FILENO) == 1 && variable("NO_COLOR").empty() && !terminal.empty() && terminal != "dumb";
}

}  // namespace jointrom::cli
