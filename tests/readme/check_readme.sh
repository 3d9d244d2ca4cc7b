#!/bin/sh
# check_readme.sh DOCUMENT ROOT PROGRAM_FOLDER SCRATCH
# Runs every command that DOCUMENT shows in a ```console block (lines that start with "$ ", continued behind a "\"), one
# after another in a copy of the demo data, and compares what they print with what the document says. With ACCEPT=1 in
# the environment the document is rewritten; review that with git diff.
set -eu
unset COLUMNS
document=$1 root=$2 program_folder=$3 scratch=$4

rm -rf "$scratch"
mkdir -p "$scratch/copy"
cp -R "$root/data" "$root/examples" "$scratch/copy"
PATH=$program_folder:$PATH
export PATH

# The command's output, both streams as a terminal shows them; $? in it is the status of the command before.
run() {
    (cd "$scratch/copy" && sh -c "(exit $status)
$1" </dev/null 2>&1) && status=0 || status=$?
}

in_block=no
status=0
while IFS= read -r line; do
    if [ "$in_block" = no ]; then
        printf '%s\n' "$line"
        [ "$line" != '```console' ] || in_block=yes
    elif [ "$line" = '```' ]; then
        printf '%s\n' "$line"
        in_block=no
    else
        case $line in
        '$ '*)
            printf '%s\n' "$line"
            command=${line#'$ '}
            while [ "${command%\\}" != "$command" ] && IFS= read -r line; do
                printf '%s\n' "$line"
                command="${command%\\} $line"
            done
            run "$command"
            ;;
        esac
    fi
done <"$document" >"$scratch/document"

if [ "${ACCEPT:-}" = 1 ]; then
    cp "$scratch/document" "$document"
elif ! diff -u "$document" "$scratch/document"; then
    echo "$document shows something else (-) than the commands print (+)."
    exit 1
fi
