#pragma once

/// \file
/// The program, run inside the test.

#include <initializer_list>
#include <string>

namespace jointrom::test {

struct ProgramRun {
    int status;
    std::string out;
    std::string err;
};

/// Runs `jointrom ARGUMENTS...` with `in` as standard input.
[[nodiscard]] ProgramRun run_program(std::initializer_list<std::string> arguments, const std::string& in = {});

}  // namespace jointrom::test
