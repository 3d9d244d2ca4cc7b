#!/bin/sh
# check_links.sh ROOT: every relative link of the documents leads to a file that is there.
set -eu
cd "$1"
broken=0
for document in *.md docs/*.md docs/*/*.md data/demo/*.md; do
    for link in $(grep -o '](\([^)]*\))' "$document" | sed 's/^](//; s/)$//; s/#.*//' | grep -v '^[a-z]*:' || true); do
        if [ ! -e "$(dirname "$document")/$link" ]; then
            echo "$document: no $link"
            broken=1
        fi
    done
done
exit $broken
