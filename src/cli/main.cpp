#include "cli/terminal.hpp"

#include <algorithm>
#include <cstdint>
#include <cstdlib>
#include <iostream>
#include <new>

#include <malloc.h>
#include <sys/mman.h>

// Long series get large pages, whose first use is several times as fast; that is a hint, which may be refused.
void* operator new(std::size_t size) {
    constexpr std::size_t long_series = std::size_t{4} << 20;
    constexpr std::uintptr_t page = 4096;
    void* const memory = std::malloc(std::max<std::size_t>(size, 1));
    if (memory == nullptr) {
        throw std::bad_alloc();
    }
    if (size >= long_series) {
        const std::uintptr_t to_page = (page - reinterpret_cast<std::uintptr_t>(memory) % page) % page;
        madvise(static_cast<char*>(memory) + to_page, (size - to_page) / page * page, MADV_HUGEPAGE);
    }
    return memory;
}

void operator delete(void* memory) noexcept {
    std::free(memory);
}

void operator delete(void* memory, std::size_t /*size*/) noexcept {
    std::free(memory);
}

int main(int argc, char** argv) {
    // Memory of one long series is used again for the next: returned to the system, each page would have to be fetched
    // anew.
    mallopt(M_MMAP_MAX, 0);
    mallopt(M_TRIM_THRESHOLD, 1 << 30);
    std::ios::sync_with_stdio(false);
    jointrom::cli::Console console{std::cin, std::cout, std::cerr};
    jointrom::cli::look_at_terminal(console);
    return jointrom::cli::run(argc, argv, console);
}
