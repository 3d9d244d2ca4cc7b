#include "cli/terminal.hpp"

#include <iostream>

#include <malloc.h>

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
