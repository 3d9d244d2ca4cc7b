#!/bin/sh
# make-demo-session.sh [FOLDER]
# Writes the demo lab session into FOLDER (data/demo): recordings as a school logger would export them, and the truth
# behind them. What is simulated stands in demo-session/. Needs jointrom and jq in the PATH; gives the same bytes every time.
set -eu
export LC_ALL=C
here=$(cd "$(dirname "$0")" && pwd)
settings=$here/demo-session
folder=${1:-$here/../data/demo}
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
mkdir -p "$folder"

# The recordings; those of muscles alone are in none of the tables of truth.
jointrom simulate "$settings/elbows.json" --into "$work/session" --quiet
jointrom simulate "$settings/others.json" --into "$work/session" --quiet
jointrom simulate "$settings/muscles.json" --into "$work/muscles" --quiet
cp "$work"/session/P*.csv "$work"/session/calibration*.csv "$work"/muscles/P*.csv "$settings/answers.csv" "$folder"

# table HEADINGS FILTER: a table of the truth; the filter gives an array for each row.
table() {
    echo "$1"
    jq -r "$2 | map(if type == \"number\" then . * 10000 | round / 10000 else . end) | join(\",\")" \
        "$work"/session/*.truth.json
}
about_sensor=neutral_reading,reading_per_deg,reading_unit
table file,joint,side,task,repetitions,min_deg,max_deg,arc_deg,mean_top_deg,$about_sensor,peculiarity \
    '(.repetitions | map(.top_deg)) as $tops | [.file, .joint, .side, (if $tops == [] then "postures" else "flexion" end),
     ($tops | length), .range.negative_deg, .range.positive_deg, .range.arc_deg,
     (if $tops == [] then "" else ($tops | add / length) end),
     (.sensor | .neutral_reading, .reading_per_deg, .unit), .note]' \
    >"$folder/truth.csv"
table file,repetition,start_s,top_from_s,top_to_s,end_s,start_deg,top_deg,end_deg \
    '.file as $file | .repetitions[] | [$file] + [.[]]' >"$folder/truth_repetitions.csv"
table file,posture,from_s,to_s,angle_deg \
    'select(.repetitions == []) | .file as $file | .phases | map(select(.start_deg == .end_deg)) | to_entries[]
     | [$file, .key + 1, (.value | .start_s, .end_s, .start_deg)]' >"$folder/truth_postures.csv"
table file,muscle,repetition,on_s,off_s,raising_mv,holding_mv,lowering_mv,rest_mv \
    '.file as $file | .muscles[] | .name as $muscle | .rest_sd_mv as $rest | .bursts | to_entries[]
     | [$file, $muscle, .key + 1, (.value | .onset_s, .offset_s, .sd_mv[]), $rest]' >"$folder/truth_activity.csv"

# A class before and after stretching, which adds 4 degrees: simulated, then measured.
simulate_class() {
    jointrom simulate "$settings/class.json" "$@"
}
echo id,file,participant,side,joint,motion,trial,condition,age_years,sex >"$work/manifest.csv"
for condition in before after; do
    top_deg=138
    [ $condition = before ] || top_deg=142
    simulate_class --file "{participant}_{side}_${condition}_{trial}.csv" --top-deg $top_deg --into "$work/class" --quiet
    awk -F, -v OFS=, -v condition=$condition 'NR == FNR { who[$1] = $2 OFS $3; next }
        FNR > 1 { print substr($1, 1, length($1) - 4), $0, condition, who[$2] }' \
        "$settings/students.csv" "$work/class/manifest.csv" >>"$work/manifest.csv"
done
mv "$work/manifest.csv" "$work/class"
# One sensor's plug is out; another sensor slips by 42 degrees while the knee bends, and is pushed back.
simulate_class --students 0 --participant P08 --side right --trials 1 --gap-s 0,60 --blank-gaps \
    --output "$work/class/P08_right_before_2.csv"
simulate_class --students 0 --participant P11 --side left --trials 1 --slip 2.7,-42 --slip 4.7,42 \
    --top-deg "$(jq .range.own_top_deg "$work/class/P11_left_after_1.truth.json")" \
    --output "$work/class/P11_left_after_1.csv"
jointrom batch "$work/class/manifest.csv" --into "$work/results" --quiet >"$work/log" || [ $? -eq 1 ]
wanted=id,file,participant,side,joint,motion,condition,trial,rater,age_years,sex,status,code,reason
wanted=$wanted,positive_direction,positive_deg,negative_direction,negative_deg,arc_deg
awk -F, -v OFS=, -v wanted=$wanted '
    NR == 1 { n = split(wanted, name); for (i = 1; i <= NF; ++i) column[$i] = i }
    { for (i = 1; i <= n; ++i) printf "%s%s", $column[name[i]], i < n ? OFS : "\n" }' \
    "$work/results/trials.csv" >"$folder/class_trials.csv"
