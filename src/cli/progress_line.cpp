#include "cli/progress_line.hpp"

#include <fmt/ostream.h>

#include <iostream>

#include <unistd.h>

namespace jointrom::cli {
namespace {

constexpr std::string_view erase_line = "\r\x1B[K";

std::string time_left(double seconds) {
    const auto whole = static_cast<long>(seconds + 0.5);
    return whole < 60     ? fmt::format("{} s", whole)
           : whole < 3600 ? fmt::format("{} min {:02} s", whole / 60, whole % 60)
                          : fmt::format("{} h {:02} min", whole / 3600, whole / 60 % 60);
}

}  // namespace

ProgressLine::ProgressLine(std::ostream& err) : err_(err), is_shown_(&err == &std::cerr && ::isatty(2) == 1) {}

ProgressLine::~ProgressLine() {
    if (is_shown_) {
        err_ << erase_line << std::flush;
    }
}

void ProgressLine::show(const BatchProgress& progress) {
    const Clock::time_point now = Clock::now();
    if (!is_shown_ || (now - last_ < std::chrono::milliseconds(100) && progress.reached < progress.total)) {
        return;
    }
    last_ = now;
    const double elapsed_s = std::chrono::duration<double>(now - start_).count();
    const double per_second = static_cast<double>(progress.reached) / std::max(elapsed_s, 1e-3);
    const double left_s = static_cast<double>(progress.total - progress.reached) / per_second;
    fmt::print(err_, "{}{} of {} recordings, {} failed, {:.3g} a second, {} left", erase_line, progress.reached,
               progress.total, progress.failed, per_second, time_left(left_s));
    err_.flush();
}

}  // namespace jointrom::cli
