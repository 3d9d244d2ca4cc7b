#!/bin/sh
# From a fresh copy of the sources to the first results: installs the packages that are missing (apt-get, as root or with
# sudo), builds the program and measures the demo session in data/demo. The results stay in results/.
set -eu
cd "$(dirname "$0")/.."

src/cmake/install_packages.sh
cmake --preset release
cmake --build --preset release -j "$(nproc)"
