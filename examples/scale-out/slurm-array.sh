#!/bin/sh
#SBATCH --job-name=jointrom
#SBATCH --cpus-per-task=2
#SBATCH --time=01:00:00
# sbatch --array=1-N slurm-array.sh MANIFEST FOLDER [OPTION...]
# Each task of the array measures one of N parts; the tables of part K are in FOLDER/K. Start the array again to measure what
# is missing.
set -eu
manifest=$1 folder=$2
shift 2
mkdir -p "$folder"
status=0
jointrom batch "$manifest" --shard "$SLURM_ARRAY_TASK_ID/$SLURM_ARRAY_TASK_COUNT" --into "$folder/$SLURM_ARRAY_TASK_ID" \
    --threads "${SLURM_CPUS_PER_TASK:-1}" --resume --quiet "$@" || status=$?
# Status 1 means that some recordings failed, which is told in the tables.
[ "$status" -le 1 ]
