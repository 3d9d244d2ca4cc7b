# check_completion.bash FILE: completes command lines with the completion in FILE and compares what bash would offer.
set -u
source "$1"
cd "$(mktemp -d)" && trap 'rm -r "$PWD"' EXIT
touch recording.csv 'my recording.csv'
mkdir range results
failed=0

# offers WORD... : what is offered for the last word, a line each
offers() {
    COMP_WORDS=("$@")
    COMP_CWORD=$(($# - 1))
    COMPREPLY=()
    _jointrom
    printf '%s\n' "${COMPREPLY[@]}"
}

expect() {
    local wanted=$1
    shift
    local got
    got=$(offers "$@" | sort | paste -sd,)
    if [ "$got" != "$wanted" ]; then
        echo "'$*' offers '$got', wanted '$wanted'"
        failed=1
    fi
}

expect 'range,repetitions,report' jointrom r
expect 'help' jointrom hel
expect 'range' jointrom help ran
expect '--format' jointrom range --form
expect 'csv,json,table' jointrom range --format ''
expect 'json' jointrom range --format = js
expect 'csv,json,table' jointrom range --format =
expect 'left,right' jointrom range recording.csv --side ''
expect 'elbow' jointrom range --joint elb
expect 'abduction,abduction-adduction' jointrom range --motion abd
expect 'great\ toe\ mtp' jointrom range --joint gr
expect 'extension,flexion,flexion-extension' jointrom range --joint elbow --motion ''
expect 'flexion,flexion-extension' jointrom range --motion fl --joint elbow --motion fl
expect 'flexion,flexion-extension' jointrom range --joint = Elbow --motion = fl
expect 'extension,flexion,flexion-extension' jointrom check --joint 'great\ toe\ mtp' --motion ''
expect 'prone,sitting,standing' jointrom load --joint knee --posture ''
expect 'my recording.csv,range,recording.csv,results' jointrom range ''
expect 'recording.csv,results' jointrom range re
expect 'recording.csv' jointrom range --quiet rec
expect 'recording.csv,results' jointrom angles x.csv --calibration re
expect 'results' jointrom batch range --into res
expect 'calibration' jointrom schema calibrati
expect 'gaps' jointrom norms ga
expect 'wrist' jointrom norms gaps wri
expect 'auto' jointrom range x.csv --lowpass-hz a
expect '' jointrom nosuch --fo
expect '' jointrom range --rate-hz ''
exit $failed
