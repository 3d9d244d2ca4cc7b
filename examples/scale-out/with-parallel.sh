#!/bin/sh
# with-parallel.sh MANIFEST SHARDS FOLDER [OPTION...]
# Measures a class in SHARDS parts with GNU parallel, as many at a time as there are processors; the tables of part K are
# in FOLDER/K. On other machines that see the same folders: PARALLEL="--sshlogin host1,host2 --workdir ." with-parallel.sh ...
set -eu
manifest=$1 shards=$2 folder=$3
shift 3
mkdir -p "$folder"
# Status 1 means that some recordings failed, which is told in the tables.
# shellcheck disable=SC2016
seq "$shards" | parallel -q --joblog "$folder/jobs.log" sh -c '
    manifest=$1 shards=$2 folder=$3 part=$4
    shift 4
    jointrom batch "$manifest" --shard "$part/$shards" --into "$folder/$part" --threads 1 --quiet "$@" >/dev/null ||
        [ $? -eq 1 ]' sh "$manifest" "$shards" "$folder" {} "$@"
