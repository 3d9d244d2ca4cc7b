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
show static data/demo/P05_right_elbow_static.csv --expected-deg 0,30,60,90,120 --quiet

show calibrate --point 0,30,60,90,120,90,60,30,0=data/demo/calibration_elbow_volts.csv \
    --joint elbow --side right --save results/elbow_calibration.json
show range data/demo/P01_right_elbow_volts.csv --calibration results/elbow_calibration.json

for recording in data/demo/P0*_elbow.csv data/demo/P0*_knee.csv; do
    name=$(basename "$recording" .csv)
    build/release/jointrom range "$recording" --quiet --output "results/${name}_range.csv"
    build/release/jointrom repetitions "$recording" --quiet --output "results/${name}_repetitions.csv"
done
printf '\nRange and repetitions of every recording in data/demo are in results/.\n'
