// From the file of a logger to the range of motion: read, make the angle, measure.
//
//     range_of_file data/demo/P01_right_elbow.csv

#include <jointrom/analysis/measurements.hpp>
#include <jointrom/analysis/trial.hpp>
#include <jointrom/core/failure.hpp>
#include <jointrom/core/number_text.hpp>

#include <iostream>

using namespace jointrom;

namespace {

void print(const std::string& what, Degrees angle, const Budget& budget) {
    std::cout << what << ' ' << fixed_text(angle.value(), 2) << " +- " << fixed_text(budget.expanded_uncertainty(), 2)
              << " deg (95 %)\n";
}

}  // namespace

int main(int argc, char** argv) {
    if (argc != 2) {
        std::cerr << "which file?\n";
        return 2;
    }
    try {
        const Settings settings;  // the defaults, which are those of the program
        const Trial trial = prepare_trial(argv[1], std::cin, settings);
        const RangeOfMotion range = measure(trial.trace, settings).range;
        print(trial.trace.motion().positive, range.positive.angle, range.positive.budget);
        print(trial.trace.motion().negative, range.negative.angle, range.negative.budget);
        print("arc", range.arc, range.arc_budget);
        for (const Finding& finding : trial.findings) {
            std::cerr << name_of(finding.severity()) << ": " << finding.text << " [" << finding.code() << "]\n";
        }
    } catch (const Failure& failure) {  // what stops a computation; findings do not
        std::cerr << failure.place().text() << ' ' << failure.what() << '\n' << failure.advice() << '\n';
        return 1;
    }
}
