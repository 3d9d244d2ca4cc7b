#!/usr/bin/env python3
"""Whether two results of the same recordings agree, so that speed is compared between equal work.

  agreement_of_results.py repetitions BASELINE.csv OURS.csv     a row per repetition of one recording
  agreement_of_results.py recordings  BASELINE.csv OURS.csv     a row per recording

Counts must be equal but for one repetition at an end of a recording, which one counts and the other calls cut off. Arcs
must agree within 1.5 deg: the baseline filters at a lower frequency, since it runs its 6 Hz filter twice, takes the
largest minus the smallest sample where jointrom starts at the level of rest, and so gets twice the noise of an extreme.
"""
import csv
import os
import sys

ALLOWED_ARC_DEG = 1.5


def rows_of(path):
    with open(path, encoding="utf-8") as file:
        lines = [line for line in file if not line.startswith("#")]
    return list(csv.DictReader(lines))


def near(values, value, allowed):
    return any(abs(other - value) <= allowed for other in values)


def compare_repetitions(base, ours):
    if abs(len(base) - len(ours)) > 2:
        return f"{len(base)} against {len(ours)} repetitions"
    # By time, since numbers shift where one end is counted differently.
    arc_at = {round(float(row["turn_s"]), 1): float(row["arc_deg"]) for row in ours}
    apart = [
        row
        for row in base
        if not near(
            [arc for time, arc in arc_at.items() if float(row["start_s"]) <= time <= float(row["end_s"])],
            float(row["arc_deg"]),
            ALLOWED_ARC_DEG,
        )
    ]
    if len(apart) > 2:
        return f"{len(apart)} of {len(base)} arcs differ by more than {ALLOWED_ARC_DEG} deg, first {apart[0]}"
    return ""


def compare_recordings(base, ours):
    if len(base) != len(ours):
        return f"{len(base)} against {len(ours)} recordings"
    result_of = {os.path.basename(row["file"]): row for row in ours}
    for row in base:
        other = result_of[os.path.basename(row["file"])]
        if other["status"] != "done":
            return f"{row['file']}: {other['reason']}"
        if abs(int(row["repetitions"]) - int(other["repetitions"])) > 2:
            return f"{row['file']}: {row['repetitions']} against {other['repetitions']} repetitions"
        if abs(float(row["arc_deg"]) - float(other["arc_deg"])) > ALLOWED_ARC_DEG:
            return f"{row['file']}: arcs {row['arc_deg']} against {other['arc_deg']} deg"
    return ""


def main():
    kind, base, ours = sys.argv[1:4]
    compare = {"repetitions": compare_repetitions, "recordings": compare_recordings}[kind]
    difference = compare(rows_of(base), rows_of(ours))
    if difference:
        sys.exit("results differ: " + difference)


main()
