#pragma once

/// \file
/// What the program knows about one command, and the run from arguments to exit status.

#include "cli/option_list.hpp"

#include <cstddef>
#include <functional>
#include <iosfwd>
#include <string>
#include <string_view>

namespace jointrom::cli {

/// The streams of one run; passed in, so that tests run a command without a process.
struct Console {
    std::istream& in;
    std::ostream& out;
    std::ostream& err;
    std::size_t width = 0;     ///< characters a line of `out`; 0: as many as are needed
    bool has_colours = false;  ///< whether `err` shows colours
};

/// 65 to 74 are the numbers of sysexits.h.
enum ExitStatus : int {
    exit_done = 0,
    exit_not_met = 1,         ///< done, but something that was asked for is not met
    exit_usage = 2,           ///< the request cannot be served as it was put
    exit_data = 65,           ///< an input cannot be understood
    exit_missing_file = 66,   ///< an input is not there
    exit_cannot_create = 73,  ///< an output cannot be created
    exit_cannot_write = 74,   ///< an output could not be written to its end
    exit_interrupted = 130    ///< by Ctrl-C; what was done until then is written
};

using Action = std::function<ExitStatus(Console&)>;

/// One row of the table of commands.
struct Command {
    std::string_view name;
    std::string_view summary;
    std::string_view examples;  ///< two or more lines, each a command that works in data/demo
    /// Adds the command's options and returns what to do once they are read. Opens no file.
    Action (*attach)(OptionList& list);
};

Action attach_inspect(OptionList& list);
Action attach_calibrate(OptionList& list);
Action attach_angles(OptionList& list);
Action attach_static(OptionList& list);
Action attach_range(OptionList& list);
Action attach_peaks(OptionList& list);
Action attach_phases(OptionList& list);
Action attach_repetitions(OptionList& list);
Action attach_activity(OptionList& list);
Action attach_load(OptionList& list);
Action attach_norms(OptionList& list);
Action attach_check(OptionList& list);
Action attach_batch(OptionList& list);
Action attach_summary(OptionList& list);
Action attach_agreement(OptionList& list);
Action attach_grade(OptionList& list);
Action attach_schema(OptionList& list);
Action attach_simulate(OptionList& list);
Action attach_plot(OptionList& list);
Action attach_report(OptionList& list);

/// "error", "warning" or "note" as it is printed before a message.
[[nodiscard]] std::string severity_text(std::string_view severity, const Console& console);

/// Reads the arguments and runs the command; the only place that turns a Failure into text and an exit status.
int run(int argc, const char* const* argv, Console& console);

}  // namespace jointrom::cli
