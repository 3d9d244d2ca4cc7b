#!/bin/sh
# run.sh SECONDS [TARGET...]
# Builds the fuzz targets with clang under the address and undefined-behaviour sanitizers and feeds each for SECONDS with bytes
# made from the tests' own files. Input on which one fails stays in build/fuzz/TARGET/found; keep it in tests/fuzz/corpus/TARGET.
set -eu
cd "$(dirname "$0")/../.."
seconds=$1
shift

cmake --preset fuzz
cmake --build --preset fuzz -j "$(nproc)" --target fuzz
[ $# -gt 0 ] || set -- recording calibration norms people answers long_table manifest edf settings typed

# Files that the tests have anyway are where the inputs start from.
seeds_of() {
    case $1 in
    recording) find tests/data -type f -size -20k ;;
    calibration | settings) find tests/golden -name '*.json' -size -20k ;;
    norms) find tests/golden/norms tests/golden/check data/norms -name '*.csv' -size -20k ;;
    people | long_table) find tests/golden data/demo -name '*trials*.csv' -size -20k ;;
    answers) find tests/golden data/demo -name '*answers*.csv' -size -20k ;;
    manifest) find tests/golden -name '*class*.csv' -size -20k ;;
    esac
}

for target in "$@"; do
    folder=build/fuzz/$target
    mkdir -p "$folder/grown" "$folder/seeds" "$folder/found"
    for seed in $(seeds_of "$target"); do
        cp "$seed" "$folder/seeds/$(echo "$seed" | tr / _)"
    done
    echo "$target for $seconds s"
    JOINTROM_FUZZ_TARGET=$target build/fuzz/tests/fuzz -max_total_time="$seconds" -max_len=4096 -timeout=10 -rss_limit_mb=2048 \
        -print_final_stats=1 -artifact_prefix="$folder/found/" "$folder/grown" "$folder/seeds" "tests/fuzz/corpus/$target" \
        >"$folder/log" 2>&1 || { tail -n 40 "$folder/log"; exit 1; }
    grep -E 'stat::number_of_executed_units|cov:' "$folder/log" | tail -n 2
done
