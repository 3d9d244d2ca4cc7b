// libFuzzer's way in. The environment variable JOINTROM_FUZZ_TARGET names the target.
#include "targets.hpp"

#include <algorithm>
#include <cstddef>
#include <cstdint>
#include <cstdlib>
#include <iostream>

namespace {

const jointrom::test::FuzzTarget& chosen_target() {
    const char* name = std::getenv("JOINTROM_FUZZ_TARGET");
    const auto targets = jointrom::test::fuzz_targets();
    const auto found = std::ranges::find(targets, name == nullptr ? "" : name, &jointrom::test::FuzzTarget::name);
    if (found == targets.end()) {
        std::cerr << "JOINTROM_FUZZ_TARGET must name one of the targets in tests/fuzz/targets.cpp\n";
        std::exit(2);
    }
    return *found;
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    static const jointrom::test::FuzzTarget& target = chosen_target();
    jointrom::test::read_safely(target, {reinterpret_cast<const char*>(data), size});
    return 0;
}
