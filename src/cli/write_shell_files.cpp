/// \file
/// A program of the build: writes manual pages and completions into the folder that its argument names.

#include "cli/shell_files.hpp"

#include <jointrom/core/failure.hpp>
#include <jointrom/core/whole_file.hpp>

#include <filesystem>
#include <iostream>
#include <string>

int main(int argc, char** argv) {
    using namespace jointrom;
    if (argc != 2) {
        std::cerr << "which folder?\n";
        return 2;
    }
    try {
        const std::filesystem::path folder(argv[1]);
        std::filesystem::create_directories(folder / "man");
        const auto commands = cli::command_texts();
        write_whole_file(folder / "man/jointrom.1", cli::program_man_page(commands));
        for (const cli::CommandText& command : commands) {
            write_whole_file(folder / ("man/jointrom-" + std::string(command.name) + ".1"),
                             cli::command_man_page(command));
        }
        write_whole_file(folder / "jointrom.bash", cli::bash_completion(commands));
        write_whole_file(folder / "_jointrom", cli::zsh_completion(commands));
        write_whole_file(folder / "jointrom.fish", cli::fish_completion(commands));
    } catch (const std::exception& failure) {
        std::cerr << failure.what() << '\n';
        return 1;
    }
    return 0;
}
