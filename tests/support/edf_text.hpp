#pragma once

/// \file
/// EDF and EDF+ files of one record, byte by byte as Kemp et al. (1992) and Kemp and Olivan (2003) lay them out.

#include <string>
#include <vector>

namespace jointrom::test {

struct TestSignal {
    std::string label, unit;
    int low, high;  ///< physical values of the digital ones -1000 and 1000
    std::vector<int> digital;
};

/// A file with one record of a second. With annotations, their bytes as they stand in the record, it is an EDF+.
[[nodiscard]] std::string edf_text(std::vector<TestSignal> signals, const std::string& annotations = {});

}  // namespace jointrom::test
