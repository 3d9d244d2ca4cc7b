#!/bin/sh
# join-parts.sh FOLDER TABLE
# Writes TABLE (such as trials.csv) of all parts in FOLDER/*/ as one: the header once, then the rows sorted by file and id. Rows
# of one recording stay in their order. Names of files must hold no comma.
set -eu
folder=$1 table=$2
first=$(find "$folder" -mindepth 2 -maxdepth 2 -name "$table" | LC_ALL=C sort | head -n 1)
head -n 1 "$first"
for part in "$folder"/*/"$table"; do
    tail -n +2 "$part"
done | LC_ALL=C sort -s -t , -k 2,2 -k 1,1
