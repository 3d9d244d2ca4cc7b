// Measures simulated recordings and compares with their truth.
//
//     validation TEXT.md PAGE.md    thousands of recordings; fills in the tables of the page (docs/validation.md)
//     validation --quick            a few hundred; fails when results are worse than the page says

#include "study.hpp"

#include <jointrom/core/failure.hpp>
#include <jointrom/core/whole_file.hpp>

#include <cstdio>
#include <string>
#include <string_view>

using namespace jointrom::validation;

namespace {

struct Studies {
    Section range, calibrated, onset, blunder;
};

Studies studies(std::size_t repeats) {
    return {range_study(repeats), calibrated_study(12 * repeats), onset_study(2 * repeats), blunder_study(repeats)};
}

/// Puts tables into the words of page.md, each in place of a line "{name}".
std::string page(std::string text, const Studies& done) {
    const auto put = [&](const std::string& place, const std::string& content) {
        if (const std::size_t at = text.find("{" + place + "}\n"); at != std::string::npos) {
            text.replace(at, place.size() + 3, content);
        }
    };
    put("angles", markdown(done.range.tables[0]));
    put("times", markdown(done.range.tables[1]));
    put("worst", markdown(done.range.tables[2]));
    put("calibrated", markdown(done.calibrated.tables[0]));
    put("onsets", markdown(done.onset.tables[0]));
    put("blunders", markdown(done.blunder.tables[0]));
    put("alarms", markdown(done.blunder.tables[1]));
    put("count", std::to_string(done.range.recordings + done.calibrated.recordings + done.onset.recordings +
                                done.blunder.recordings) +
                     " recordings.\n");
    return text;
}

int quick() {
    const Studies done = studies(2);
    int failed = 0;
    for (const Section* section : {&done.range, &done.calibrated, &done.onset, &done.blunder}) {
        for (const Check& check : section->checks) {
            std::printf("%s: %s\n", check.holds ? "holds" : "FAILS", check.what.c_str());
            failed += check.holds ? 0 : 1;
        }
    }
    return failed == 0 ? 0 : 1;
}

}  // namespace

int main(int argc, char** argv) {
    try {
        if (argc == 2 && std::string_view(argv[1]) == "--quick") {
            return quick();
        }
        if (argc == 3) {
            jointrom::write_whole_file(argv[2],
                                       page(jointrom::read_whole_file(argv[1], "text of the page"), studies(60)));
            return 0;
        }
        std::fputs("usage: validation --quick | validation TEXT.md PAGE.md\n", stderr);
        return 2;
    } catch (const jointrom::Failure& failure) {
        std::fprintf(stderr, "validation: %s\n", failure.what());
        return 1;
    }
}
