#include <jointrom/core/failure.hpp>
#include <jointrom/core/random_bytes.hpp>

#include <cerrno>

#include <sys/random.h>

namespace jointrom {

std::string random_bytes(std::size_t count) {
    std::string bytes(count, '\0');
    std::size_t filled = 0;
    while (filled < count) {
        const ssize_t got = ::getrandom(bytes.data() + filled, count - filled, 0);
        if (got < 0 && errno != EINTR) {
            throw Failure(FailureKind::unreadable_data, "no-random-source",
                          "the operating system gives no random bytes");
        }
        filled += got > 0 ? static_cast<std::size_t>(got) : 0;
    }
    return bytes;
}

}  // namespace jointrom
