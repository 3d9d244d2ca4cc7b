#!/bin/sh
# How many times as fast and as small jointrom is as a script that does the same jobs with pandas and SciPy.
#
#   tests/bench/compare.sh BASELINE.py [CASE ...]
#
# BASELINE.py is called as  one FILE OUT  (a recording -> a row per repetition),  many FOLDER OUT [PROCESSES]  (a folder
# -> a row per recording) and  table FILE OUT  (a class table -> its statistics). CASE: long, class, tiny, table; all of
# them without. Environment: JOINTROM, the program (build/release/jointrom, else build/developer/jointrom); ROUNDS, runs
# of each command (5); SCRATCH, where inputs are made and kept (a temporary folder that is removed).
#
# Printed are ratios, baseline / jointrom: nothing depends on how fast the machine is. Results are compared too.
# Needs python3 with NumPy, pandas and SciPy (Debian: python3-pandas python3-scipy); PYTHON names another python3.
set -eu

here=$(cd "$(dirname "$0")" && pwd)
baseline=${1:?"usage: compare.sh BASELINE.py [long] [class] [tiny] [table]"}
shift
cases=${*:-long class tiny table}
python=${PYTHON:-/usr/bin/python3}
rounds=${ROUNDS:-5}
root=$(cd "$here/../.." && pwd)
if [ -z "${JOINTROM:-}" ]; then
    for program in "$root/build/release/jointrom" "$root/build/developer/jointrom"; do
        [ ! -x "$program" ] || { JOINTROM=$program; break; }
    done
fi
: "${JOINTROM:?"no program in build/; set JOINTROM"}"
if [ -z "${SCRATCH:-}" ]; then
    SCRATCH=$(mktemp -d)
    trap 'rm -rf "$SCRATCH"' EXIT INT TERM
fi
mkdir -p "$SCRATCH"
cd "$SCRATCH"

has() { "$JOINTROM" "$1" --help >/dev/null 2>&1; }
base() { printf '%s %s' "$python $baseline" "$*"; }
ratio() { # NAME 'COMMAND A' 'COMMAND B'
    printf '%-46s ' "$1"
    "$python" "$here/paired_runs.py" "$rounds" "$2" "$3"
}
made() { # the inputs of a case, made once
    [ -e "$1" ] || { "$python" "$here/make_inputs.py" "${1%.csv}" "$1.part" && mv "$1.part" "$1"; }
}

# shellcheck disable=SC2086 # the list is meant to be split
for case in $cases; do
    case $case in
    long)
        made long.csv
        "$python" "$baseline" one long.csv long.base.csv
        "$JOINTROM" repetitions long.csv --format csv --quiet >long.ours.csv
        "$python" "$here/agreement_of_results.py" repetitions long.base.csv long.ours.csv
        ratio "an hour at 1000 Hz: repetitions" "$(base one long.csv out)" "$JOINTROM repetitions long.csv --format csv"
        ratio "  range of motion" "$(base one long.csv out)" "$JOINTROM range long.csv --format csv"
        if has activity; then
            ratio "  muscle activity: all that the baseline does" "$(base one long.csv out)" \
                "$JOINTROM activity long.csv --format csv"
        fi
        ;;
    class | tiny)
        if ! has batch; then
            echo "$case: the program has no command batch"
            continue
        fi
        made "$case"
        "$python" "$baseline" many "$case" "$case.base.csv" 2
        rm -rf "$case.results"
        "$JOINTROM" batch "$case" --into "$case.results" --quiet || [ $? -eq 1 ]
        "$python" "$here/agreement_of_results.py" recordings "$case.base.csv" "$case.results/trials.csv"
        # Each run starts without results; a folder that is there would be an earlier run.
        run="sh -c 'rm -rf results && $JOINTROM batch $case --into results --quiet --threads"
        count=$(ls "$case" | wc -l)
        ratio "$count recordings ($case), 2 threads" "$(base many $case out)" "$run 2'"
        ratio "  baseline with 2 processes" "$(base many $case out 2)" "$run 2'"
        ratio "  1 thread against 2" "$run 1'" "$run 2'"
        ;;
    table)
        if ! has summary; then
            echo "table: the program has no command summary"
            continue
        fi
        made table.csv
        ratio "a million rows: statistics by group" "$(base table table.csv out)" \
            "$JOINTROM summary table.csv --value arc_deg --by side,condition --format csv"
        ;;
    *)
        echo "compare.sh: no case $case" >&2
        exit 2
        ;;
    esac
done
