#!/bin/sh
# The unit tests and the program's tests under the address and undefined-behaviour sanitizers, and each public header by
# itself.
set -eu
cd "$(dirname "$0")/.."
jobs=$(nproc)

src/cmake/install_packages.sh 'libcatch2-dev|catch2' librapidcheck-dev python3

cmake --preset sanitize
cmake --build --preset sanitize -j "$jobs" --target unit_tests jointrom_program lone_headers
ctest --preset sanitize -j "$jobs" -R '^(unit|golden)\.'
