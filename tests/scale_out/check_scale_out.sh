#!/bin/sh
# check_scale_out.sh ROOT PROGRAM_FOLDER SCRATCH
# The recipes of examples/scale-out on the demo session: parts, in any number and by any engine that is installed, put
# together give the bytes of one run.
set -eu
root=$1 scratch=$3
PATH=$2:$PATH
export PATH
recipes=$root/examples/scale-out

rm -rf "$scratch"
mkdir -p "$scratch"
cd "$scratch"
cp "$root"/data/demo/*_elbow.csv .
echo "file,participant,side,joint,age" >class.csv
for file in *_elbow.csv; do
    echo "$file,${file%%_*},$(echo "$file" | cut -d_ -f2),elbow,20" >>class.csv
done
jointrom batch class.csv --into whole --quiet >log

same_tables() {
    for table in trials repetitions phases findings; do
        sh "$recipes/join-parts.sh" "$1" $table.csv | cmp - whole/$table.csv
    done
}

mkdir seven one
for k in 1 2 3 4 5 6 7; do
    jointrom batch class.csv --shard $k/7 --into seven/$k --quiet >log
done
jointrom batch class.csv --shard 1/1 --threads 1 --into one/1 --quiet >log
same_tables seven
same_tables one

(head -n 1 class.csv && tail -n +2 class.csv | sort -r) >reversed.csv
jointrom batch reversed.csv --into reversed --quiet >log
cmp reversed/trials.csv whole/trials.csv

find . -maxdepth 1 -name '*_elbow.csv' -print0 | sort -z |
    jointrom batch --files-from - --pattern '{participant}_{side}_{joint}.csv' --into listed --quiet >log
cmp listed/repetitions.csv whole/repetitions.csv

for script in "$recipes"/*.sh; do
    sh -n "$script"
    ! command -v shellcheck >log || shellcheck "$script"
done
for k in 1 2 3; do
    SLURM_ARRAY_TASK_ID=$k SLURM_ARRAY_TASK_COUNT=3 sh "$recipes/slurm-array.sh" class.csv array
done
same_tables array
if command -v parallel >log; then
    sh "$recipes/with-parallel.sh" class.csv 3 parallel
    same_tables parallel
fi
if command -v snakemake >log; then
    snakemake --quiet --snakefile "$recipes/Snakefile" --cores 2 --config class=class.csv shards=2 >log 2>&1
    cmp trials.csv whole/trials.csv
fi
