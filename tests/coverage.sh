#!/bin/sh
# coverage.sh [FILE...]
# Which lines of src/ and include/ the tests run, by gcc and gcovr (Debian: gcovr): builds with the preset "coverage", runs every
# test, prints the share a file and of all. With FILEs, such as src/table/cell.cpp, only theirs, with the lines that never ran.
# The test that installs the library is left out: what is built outside counts nothing.
set -eu
cd "$(dirname "$0")/.."
command -v gcovr >/dev/null || { echo "gcovr is missing: apt-get install gcovr" >&2; exit 1; }
build=build/coverage

cmake --preset coverage
cmake --build --preset coverage -j "$(nproc)"
find $build -name '*.gcda' -delete
status=0
ctest --preset coverage -j "$(nproc)" -E '^install' >$build/tests.log 2>&1 || status=$?
tail -n 3 $build/tests.log

report() {
    gcovr --root . --object-directory $build -j "$(nproc)" "$@" $build | sed -n '/^File/,$p'
}
if [ $# -eq 0 ]; then
    report --filter 'src/' --filter 'include/'
fi
for file in "$@"; do
    report --filter "$file"
done
exit $status
