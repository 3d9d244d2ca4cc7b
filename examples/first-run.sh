#!/bin/sh
# From a fresh copy of the sources to the first results: installs the packages that are missing (apt-get, as root or with
# sudo), builds the program and measures the demo session in data/demo. The results stay in results/.
set -eu
cd "$(dirname "$0")/.."

src/cmake/install_packages.sh
cmake --preset release
cmake --build --preset release -j "$(nproc)"

show() {
    printf '\n$ jointrom %s\n' "$*"
    build/release/jointrom "$@"
}

mkdir -p results
show range data/demo/P01_right_elbow.csv
show repetitions data/demo/P01_right_elbow.csv

known=data/demo/calibration_elbow_volts.csv
show calibrate --joint elbow --side right --output results/elbow_calibration.json \
    --point "0=$known@0.5,2.5" --point "30=$known@4.5,6.5" --point "60=$known@8.5,10.5" \
    --point "90=$known@12.5,14.5" --point "120=$known@16.5,18.5" --point "90=$known@20.5,22.5" \
    --point "60=$known@24.5,26.5" --point "30=$known@28.5,30.5" --point "0=$known@32.5,34.5"
show range data/demo/P01_right_elbow_volts.csv --calibration results/elbow_calibration.json

for recording in data/demo/P0*_elbow.csv data/demo/P0*_knee.csv; do
    name=$(basename "$recording" .csv)
    build/release/jointrom range "$recording" --quiet --output "results/${name}_range.csv"
    build/release/jointrom repetitions "$recording" --quiet --output "results/${name}_repetitions.csv"
done
printf '\nRange and repetitions of every recording in data/demo are in results/.\n'
