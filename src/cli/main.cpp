#include "cli/command.hpp"

#include <csignal>
#include <iostream>

int main(int argc, char** argv) {
    // A reader that closes the pipe early is not an error of ours; writing then fails and is handled.
    std::signal(SIGPIPE, SIG_IGN);
    std::ios::sync_with_stdio(false);
    jointrom::cli::Console console{std::cin, std::cout, std::cerr};
    return jointrom::cli::run(argc, argv, console);
}
