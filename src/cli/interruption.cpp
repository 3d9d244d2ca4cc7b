#include "cli/interruption.hpp"

namespace jointrom::cli {
namespace {

std::atomic<bool> is_requested{false};
static_assert(std::atomic<bool>::is_always_lock_free, "a signal handler may set it");

void request(int) {
    is_requested = true;
}

}  // namespace

Interruption::Interruption() {
    is_requested = false;
    struct sigaction action = {};
    action.sa_handler = request;
    action.sa_flags = static_cast<int>(SA_RESETHAND) | SA_RESTART;
    sigaction(SIGINT, &action, &before_int_);
    sigaction(SIGTERM, &action, &before_term_);
}

Interruption::~Interruption() {
    sigaction(SIGINT, &before_int_, nullptr);
    sigaction(SIGTERM, &before_term_, nullptr);
}

const std::atomic<bool>& Interruption::requested() noexcept {
    return is_requested;
}

}  // namespace jointrom::cli
