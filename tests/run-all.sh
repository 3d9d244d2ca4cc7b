#!/bin/sh
# Every test: installs the packages that are missing (apt-get, as root or with sudo), builds with warnings as errors and
# runs what tests the program as users get it; then builds with the address and undefined-behaviour sanitizers and runs
# the unit tests and the program's tests under them.
set -eu
cd "$(dirname "$0")/.."
jobs=$(nproc)

src/cmake/install_packages.sh 'libcatch2-dev|catch2' python3

cmake --preset developer
cmake --build --preset developer -j "$jobs" --target jointrom_program lone_headers
ctest --preset developer -j "$jobs" -E '^unit'

cmake --preset sanitize
cmake --build --preset sanitize -j "$jobs" --target unit_tests jointrom_program
ctest --preset sanitize -j "$jobs" -R '^(unit|golden)\.'

# Other versions of clang-format lay out some lines differently.
if clang-format --version 2>/dev/null | grep -q 'version 14\.'; then
    find include src tests -name '*.[ch]pp' -exec clang-format --dry-run --Werror {} +
fi
