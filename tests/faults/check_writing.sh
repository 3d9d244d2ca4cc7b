#!/bin/sh
# check_writing.sh ROOT PROGRAM_FOLDER SCRATCH
# Output that cannot be written: a device that is full, a file that may not grow, a folder that is not there, a program that is
# killed. Nothing half written may stand under the name that was asked for, and the exit status tells what happened.
set -eu
root=$1 scratch=$3
PATH=$2:$PATH
export PATH
recording=$root/data/demo/P01_right_elbow.csv

rm -rf "$scratch"
mkdir -p "$scratch"
cd "$scratch"

fails_with() {
    expected=$1
    shift
    status=0
    "$@" >out 2>err || status=$?
    if [ $status -ne "$expected" ]; then
        echo "$* ended with $status instead of $expected:"
        cat err
        exit 1
    fi
}

no_trace_of() {
    for left in "$1" "$1".* ".$1"*; do
        if [ -e "$left" ]; then
            echo "$left was left behind"
            exit 1
        fi
    done
}

# A file may grow to 8 blocks, then writing fails, as on a full disk.
limited() {
    (trap '' XFSZ && ulimit -f 8 && exec "$@")
}
fails_with 74 limited jointrom angles "$recording" --quiet --output angles.csv
no_trace_of angles.csv
fails_with 74 limited jointrom batch "$root/data/demo" --pattern '{participant}_{side}_{joint}.csv' --into class --quiet
no_trace_of class
echo earlier >kept.csv
fails_with 74 limited jointrom angles "$recording" --quiet --output kept.csv
[ "$(cat kept.csv)" = earlier ]

if [ -e /dev/full ]; then
    fails_with 74 sh -c 'jointrom angles "$1" --quiet >/dev/full' sh "$recording"
fi
fails_with 73 jointrom range "$recording" --quiet --output missing/range.csv
[ ! -e missing ]
mkdir folder.csv
fails_with 73 jointrom range "$recording" --quiet --output folder.csv

# Killed while it waits for the end of its input: the old result stands.
mkfifo slow.csv
jointrom angles slow.csv --quiet --output kept.csv >out 2>err &
run=$!
exec 3>slow.csv
head -n 50 "$recording" >&3
kill -KILL $run
exec 3>&-
wait $run || true
[ "$(cat kept.csv)" = earlier ]

# A reader that goes away ends the program without a word.
fails_with 0 sh -c 'jointrom angles "$1" --quiet | head -n 1' sh "$recording"
[ ! -s err ]

# Numbers look the same in a country of decimal commas.
if command -v localedef >out && localedef -i de_DE -f UTF-8 "$scratch/de_DE.UTF-8" >out 2>&1; then
    jointrom range "$recording" --quiet --format csv >point
    LOCPATH=$scratch LC_ALL=de_DE.UTF-8 jointrom range "$recording" --quiet --format csv | cmp - point
    [ "$(LOCPATH=$scratch LC_ALL=de_DE.UTF-8 locale decimal_point)" = , ]
fi
