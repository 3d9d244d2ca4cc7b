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
    for table in trials repetitions phases activity findings; do
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
jointrom summary one/1/trials.csv --format csv >summary.csv 2>log
cmp summary.csv whole/summary.csv
jointrom summary seven/*/trials.csv --format csv 2>log | cmp - summary.csv
jointrom summary $(find seven -name trials.csv | sort -r) --format csv 2>log | cmp - summary.csv

(head -n 1 class.csv && tail -n +2 class.csv | sort -r) >reversed.csv
jointrom batch reversed.csv --into reversed --quiet >log
cmp reversed/trials.csv whole/trials.csv

find . -maxdepth 1 -name '*_elbow.csv' -print0 | sort -z |
    jointrom batch --files-from - --pattern '{participant}_{side}_{joint}.csv' --into listed --quiet >log
cmp listed/repetitions.csv whole/repetitions.csv

# Ctrl-C in the middle of the second of three recordings: it is finished, the third is not begun, the tables are whole.
mkfifo second.csv
printf 'file,trial\n%s,1\nsecond.csv,2\nthird.csv,3\n' P01_left_elbow.csv >three.csv
cp P02_left_elbow.csv third.csv
jointrom batch three.csv --into three --threads 1 --delimiter comma --decimal point --quiet >log 2>&1 &
run=$!
exec 3>second.csv
kill -INT $run
cat P01_right_elbow.csv >&3
exec 3>&-
status=0
wait $run || status=$?
[ $status -eq 130 ]
[ "$(tail -n +2 three/trials.csv | wc -l)" -eq 2 ]
rm second.csv
cp P01_right_elbow.csv second.csv
jointrom batch three.csv --into three --resume --delimiter comma --decimal point --quiet >log
jointrom batch three.csv --into three-anew --delimiter comma --decimal point --quiet >log
for table in trials repetitions phases activity findings; do
    cmp three/$table.csv three-anew/$table.csv
done

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
