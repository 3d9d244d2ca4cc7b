#!/bin/sh
# check_demo.sh ROOT PROGRAM_FOLDER SCRATCH
# Writes the demo session anew and compares it with the one in data/demo; with ACCEPT set it writes data/demo itself.
set -eu
root=$1 scratch=$3
PATH=$2:$PATH
export PATH
if ! command -v jq >/dev/null; then
    echo "skipped: jq is not installed"
    exit 0
fi
if [ -n "${ACCEPT:-}" ]; then
    exec "$root/examples/make-demo-session.sh"
fi
rm -rf "$scratch"
"$root/examples/make-demo-session.sh" "$scratch"
diff -r -q --exclude=README.md "$scratch" "$root/data/demo"
