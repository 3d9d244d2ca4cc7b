#!/bin/sh
# check_man_pages.sh FOLDER: groff has nothing to say about any of the manual pages, and each gives text.
set -eu
count=0
for page in "$1"/*.1; do
    warnings=$(groff -man -ww -Tascii -z "$page" 2>&1)
    if [ -n "$warnings" ]; then
        echo "$page: $warnings"
        exit 1
    fi
    groff -man -Tascii -P-cbou "$page" | grep -q 'EXIT STATUS'
    count=$((count + 1))
done
echo "$count pages"
[ "$count" -gt 10 ]
