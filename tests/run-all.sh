#!/bin/sh
# Every test: installs the packages that are missing (apt-get, as root or with sudo), builds with warnings as errors and
# runs all tests. tests/run-sanitized.sh runs those of the library and the program again under sanitizers.
set -eu
cd "$(dirname "$0")/.."
jobs=$(nproc)

src/cmake/install_packages.sh 'libcatch2-dev|catch2' librapidcheck-dev python3 python3-jsonschema jq libedf-dev

cmake --preset developer
cmake --build --preset developer -j "$jobs"
ctest --preset developer -j "$jobs"

# Other versions of clang-format lay out some lines differently.
if clang-format --version 2>/dev/null | grep -q 'version 14\.'; then
    find include src tests -name '*.[ch]pp' -exec clang-format --dry-run --Werror {} +
fi
