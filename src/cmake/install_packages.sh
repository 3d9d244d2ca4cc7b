#!/bin/sh
# Installs with apt-get those Debian packages that building jointrom needs and that are missing, and any more that are
# named as arguments (NAME, or NAME|OTHER for whichever the system offers). Asks for nothing when nothing is missing.
set -eu

build_packages="g++ cmake ninja-build libcli11-dev libfmt-dev nlohmann-json3-dev libeigen3-dev libboost-dev
    libfast-float-dev libssl-dev"

is_installed() {
    dpkg-query -W -f='${db:Status-Status}\n' "$1" 2>/dev/null | grep -qx installed
}

# The first of "NAME|OTHER" that is offered, else the last.
choose() {
    for name in $(echo "$1" | tr '|' ' '); do
        if apt-cache show "$name" >/dev/null 2>&1; then
            break
        fi
    done
    echo "$name"
}

list_missing() {
    for alternatives in "$@"; do
        name=$(choose "$alternatives")
        is_installed "$name" || printf ' %s' "$name"
    done
}

if ! command -v dpkg-query >/dev/null || ! command -v apt-get >/dev/null; then
    echo "This is no Debian system: please see to it yourself that there are" $build_packages "$@" >&2
    exit 0
fi
if [ -z "$(list_missing $build_packages "$@")" ]; then
    exit 0
fi

if [ "$(id -u)" -eq 0 ]; then
    as_root="env"
elif command -v sudo >/dev/null; then
    as_root="sudo env"
else
    echo "Missing packages:$(list_missing $build_packages "$@")" >&2
    echo "Install them as root, or install sudo, and run this again." >&2
    exit 1
fi

$as_root DEBIAN_FRONTEND=noninteractive apt-get update -q ||
    echo "apt-get update failed; going on with the package lists that are there." >&2
missing=$(list_missing $build_packages "$@")
echo "Installing with apt-get:$missing"
$as_root DEBIAN_FRONTEND=noninteractive apt-get install -q -y --no-install-recommends $missing
