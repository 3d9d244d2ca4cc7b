#include <support/program.hpp>

#include "cli/command.hpp"

#include <sstream>
#include <vector>

namespace jointrom::test {

ProgramRun run_program(std::initializer_list<std::string> arguments, const std::string& in) {
    std::vector<const char*> argv{"jointrom"};
    for (const std::string& argument : arguments) {
        argv.push_back(argument.c_str());
    }
    std::istringstream input(in);
    std::ostringstream out;
    std::ostringstream err;
    cli::Console console{input, out, err};
    const int status = cli::run(static_cast<int>(argv.size()), argv.data(), console);
    return {status, out.str(), err.str()};
}

}  // namespace jointrom::test
