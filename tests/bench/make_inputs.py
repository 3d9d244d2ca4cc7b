#!/usr/bin/env python3
"""Makes the recordings that compare.sh runs on; the same bytes each time. Needs NumPy, as the baseline does.

  make_inputs.py long   FILE.csv              an hour at 1000 Hz: time, angle, two EMG channels (3.6 million rows)
  make_inputs.py class  FOLDER [COUNT]        recordings of a minute at 200 Hz: time, angle, one EMG channel
  make_inputs.py tiny   FOLDER [COUNT]        recordings of 5 s at 100 Hz: time, angle
  make_inputs.py table  FILE.csv [ROWS]       a class table: participant, side, condition, trial, arc_deg

A joint is raised with minimum jerk, held, lowered and rested; the sensor shows 180 when it is straight and less with
flexion, with noise of 0.2 deg. The muscle that raises it works hardest on the way up, its antagonist the other way round.
"""
import os
import sys

import numpy as np

PARTS = ((1.0, 0.0, 1.0, 0.30), (0.6, 1.0, 1.0, 0.18), (1.2, 1.0, 0.0, 0.12), (0.7, 0.0, 0.0, 0.01))


def minimum_jerk(count):
    s = np.arange(count) / count
    return 10 * s**3 - 15 * s**4 + 6 * s**5


def movement(seconds, rate, random):
    """The angle, from a straight joint, and the drive of the muscle that raises it."""
    count = round(seconds * rate)
    angle, drive = np.zeros(0), np.zeros(0)
    pieces = []
    made = 0
    while made < count:
        top = 120 + 10 * random.standard_normal()
        for length_s, start, end, strength in PARTS:
            n = round(length_s * rate)
            pieces.append((top * (start + (end - start) * minimum_jerk(n)), np.full(n, strength)))
            made += n
    angle = np.concatenate([piece[0] for piece in pieces])[:count]
    drive = np.concatenate([piece[1] for piece in pieces])[:count]
    return angle, drive


def write_recording(path, seconds, rate, emg_channels, random):
    angle, drive = movement(seconds, rate, random)
    count = len(angle)
    columns = [np.arange(count) / rate, 180.0 - angle + 0.2 * random.standard_normal(count)]
    for k in range(emg_channels):
        columns.append((drive if k == 0 else 0.3 - drive) * random.standard_normal(count))
    names = ["Time (s)", "Angle (deg)"] + [f"EMG {k + 1} (mV)" for k in range(emg_channels)]
    row = ",".join(["%.3f", "%.2f"] + ["%.4f"] * emg_channels)
    with open(path, "w", encoding="ascii", newline="\n") as file:
        file.write(",".join(names) + "\n")
        block = 100000
        for first in range(0, count, block):
            part = zip(*(column[first : first + block].tolist() for column in columns))
            file.write("\n".join([row % values for values in part]) + "\n")


def write_folder(folder, count, seconds, rate, emg_channels, random):
    os.makedirs(folder, exist_ok=True)
    for k in range(count):
        write_recording(f"{folder}/P{k:05d}.csv", seconds, rate, emg_channels, random)


def write_table(path, rows, random):
    """Six trials a participant: each condition on either side, spread within and between participants."""
    conditions = ("warm", "cold", "loaded")
    true_arc = 130 + 8 * random.standard_normal((rows + 5) // 6)
    arc = np.repeat(true_arc, 6)[:rows] + 2 * random.standard_normal(rows)
    with open(path, "w", encoding="ascii", newline="\n") as file:
        file.write("participant,side,condition,trial,arc_deg\n")
        for i, value in enumerate(arc.tolist()):
            side = "left" if i % 2 else "right"
            file.write(f"P{i // 6:06d},{side},{conditions[i // 2 % 3]},{i % 6 + 1},{value:.2f}\n")


def main():
    what, out = sys.argv[1:3]
    count = int(sys.argv[3]) if len(sys.argv) > 3 else None
    random = np.random.default_rng(20)
    if what == "long":
        write_recording(out, 3600, 1000, 2, random)
    elif what == "class":
        write_folder(out, count or 1000, 60, 200, 1, random)
    elif what == "tiny":
        write_folder(out, count or 20000, 5, 100, 0, random)
    elif what == "table":
        write_table(out, count or 1_000_000, random)
    else:
        sys.exit(__doc__)


main()
