#!/usr/bin/env python3
"""Writes the exports r_*.csv beside itself and tests/reference/recording/exports.json, always with the same bytes.

Every file is an invented logger export of a joint that bends. What is expected of it (rates, times, values, findings)
is what went into it here, never what the program makes of it.
"""
import json
import math
import pathlib
import random

HERE = pathlib.Path(__file__).parent
CASES = []


class Signals:
    """A joint that rests for 0.4 s and bends twice, and a muscle that works meanwhile; both with noise."""

    def __init__(self, seed):
        self.random = random.Random(seed)

    def angle(self, time_s, noise=0.2, size=90.0, rest=8.0):
        phase = max(0.0, time_s - 0.4)
        return rest + size / 2 * (1 - math.cos(2 * math.pi * phase / 1.5)) + noise * self.random.gauss(0, 1)

    def emg(self):
        return 0.05 * self.random.gauss(0, 1)


def series(seed, count, rate_hz, start_s=0.0, decimals=2, **angle):
    """Times, angles and EMG of `count` samples; angles rounded as they will stand in the file."""
    signals = Signals(seed)
    times = [start_s + i / rate_hz for i in range(count)]
    angles = [round(signals.angle(t - start_s, **angle), decimals) for t in times]
    return times, angles, [round(signals.emg(), 4) for _ in times]


def write(name, lines, encoding="utf-8", end="\n"):
    (HERE / name).write_bytes((end.join(lines) + end).encode(encoding))


def picks(values, every=97):
    """Some samples to compare, missing ones as null."""
    return [[i, values[i]] for i in range(3, len(values), every)]


def expect(file, options=None, **what):
    case = {"file": file}
    if options:
        case["options"] = options
    case.update(what)
    CASES.append(case)


def angle(name, column, rate_hz, values, unit="deg", start_s=0.0, regular=True):
    return {"name": name, "column": column, "unit": unit, "rate_hz": rate_hz, "start_s": start_s,
            "count": len(values), "regular": regular, "missing": sum(v is None for v in values),
            "values": picks(values)}


def three_columns(name, times, angles, emg, head, time_text, findings=(), delimiter=",", comma=False, preamble=(),
                  rate_hz=100.0, column_name="Angle", unit="deg", start_s=0.0, options=None, **more):
    def text(number):
        shown = "" if number is None else f"{number:g}" if abs(number) >= 1e-3 or number == 0 else f"{number:.6f}"
        return shown.replace(".", ",") if comma else shown

    rows = [delimiter.join([time_text(t).replace(".", ",") if comma else time_text(t), text(a), text(e)])
            for t, a, e in zip(times, angles, emg)]
    write(name, [*preamble, head, *rows])
    expect(name, options, angle=angle(column_name, 2, rate_hz, angles, unit, start_s), findings=list(findings), **more)


# ---- how times are written ---------------------------------------------------------------------------------------
t, a, e = series(1, 300, 100)
three_columns("r_plain.csv", t, a, e, "Time (s),Angle (deg),Biceps (mV)", lambda t: f"{t:.2f}",
              time_format="seconds", channels=[["Angle", "angle", 100], ["Biceps", "emg", 100]])
t, a, e = series(2, 300, 100)
three_columns("r_milliseconds_without_unit.csv", t, a, e, "Zeit;Winkel;Bizeps", lambda t: f"{1000 * t:.0f}",
              delimiter=";", comma=True, column_name="Winkel", unit="", findings=["time-unit-assumed"],
              time_format="milliseconds", channels=[["Winkel", "angle", 100], ["Bizeps", "emg", 100]])
t, a, e = series(3, 300, 50)
three_columns("r_minutes.csv", t, a, e, "Elapsed (min),Angle (deg),EMG (mV)", lambda t: f"{t / 60:.7f}", rate_hz=50.0,
              time_format="minutes")
t, a, e = series(4, 300, 250)
three_columns("r_microseconds.csv", t, a, e, "timestamp_us,elbow_deg,emg_mV", lambda t: f"{1e6 * t + 1234000:.0f}",
              rate_hz=250.0, column_name="elbow", start_s=1.234, time_format="microseconds")
t, a, e = series(5, 300, 50)
three_columns("r_epoch_milliseconds.csv", t, a, e, "timestamp,angle (deg),emg (mV)",
              lambda t: f"{1935052267000 + round(1000 * t)}", rate_hz=50.0, column_name="angle",
              findings=["time-unit-assumed"], time_format="milliseconds")
t, a, e = series(6, 300, 20)
three_columns("r_spreadsheet_days.csv", t, a, e, "Time,Angle (deg),EMG (mV)",
              lambda t: f"{47965.4375 + t / 86400:.10f}", rate_hz=20.0, findings=["time-unit-assumed"],
              time_format="days")
t, a, e = series(7, 300, 100)
three_columns("r_time_of_day.csv", t, a, e, "Clock,Angle (deg),EMG (mV)", lambda t: f"10:31:{7 + t:06.3f}")
t, a, e = series(8, 300, 100)
three_columns("r_past_midnight.csv", t, a, e, "Time,Angle (deg),EMG (mV)",
              lambda t: f"23:59:{58.5 + t:06.3f}" if t < 1.4995 else f"00:00:{t - 1.5:06.3f}")
t, a, e = series(9, 240, 40)
three_columns("r_iso_8601.csv", t, a, e, "Time,Angle (deg),EMG (mV)",
              lambda t: f"2031-05-04T10:31:{7 + t:06.3f}", rate_hz=40.0)
t, a, e = series(10, 300, 100, start_s=-1.0)
three_columns("r_before_trigger.csv", t, a, e, "Time (s),Angle (deg),EMG (mV)", lambda t: f"{t:.2f}", start_s=-1.0)
t, a, e = series(11, 300, 60)
three_columns("r_60_hz_in_hundredths.csv", t, a, e, "Time (s),Angle (deg),EMG (mV)", lambda t: f"{t:.2f}", rate_hz=60.0)
t, a, e = series(12, 200, 2, size=60)
three_columns("r_2_hz.csv", t, a, e, "Time (s),Angle (deg),EMG (mV)", lambda t: f"{t:.1f}", rate_hz=2.0)
t, a, e = series(13, 3000, 10000, decimals=3)
three_columns("r_10_khz.csv", t, a, e, "Time (s),Angle (deg),EMG (mV)", lambda t: f"{t:.4f}", rate_hz=10000.0)

# A clock of whole seconds, started within one, over rows at 10 Hz.
t, a, e = series(14, 205, 10, start_s=0.7)
rows = [f"0:{int(x + 1e-9):02d},{v:g},{m:g}" for x, v, m in zip(t, a, e)]
write("r_whole_seconds.csv", ["Time,Angle (deg),EMG (mV)", *rows])
expect("r_whole_seconds.csv", angle=angle("Angle", 2, 10.0, a, start_s=0.7), findings=["time-repeated"])

# ---- rows that are missing, repeated or out of order --------------------------------------------------------------
t, a, e = series(20, 400, 100)
kept = [i for i in range(400) if not (120 <= i < 160 or i == 300)]
write("r_rows_missing.csv", ["Time (s),Angle (deg),EMG (mV)", *(f"{t[i]:.2f},{a[i]:g},{e[i]:g}" for i in kept)])
expect("r_rows_missing.csv", angle=angle("Angle", 2, 100.0, [a[i] if i in kept else None for i in range(400)]),
       findings=["missing-samples"])

t, a, e = series(21, 300, 100)
blank = {i for i in range(300) if random.Random(i).random() < 0.05 or 200 <= i < 212}
three_columns("r_cells_missing.csv", t, [None if i in blank else v for i, v in enumerate(a)], e,
              "Time (s),Angle (deg),EMG (mV)", lambda t: f"{t:.2f}", findings=["missing-samples"])

t, a, e = series(22, 300, 100)
rows = [f"{5 + x:.2f},{v:g},{m:g}" for x, v, m in zip(t[:6], a[50:], e)]
rows += [f"{x:.2f},{v:g},{m:g}" for x, v, m in zip(t, a, e)]
write("r_clock_set_back_at_start.csv", ["Time (s),Angle (deg),EMG (mV)", *rows])
expect("r_clock_set_back_at_start.csv", angle=angle("Angle", 2, 100.0, a), findings=["time-backwards"])

first = series(23, 180, 100)
second = series(24, 260, 100)
rows = [f"{x:.2f},{v:g},{m:g}" for trial in (first, second) for x, v, m in zip(*trial)]
write("r_clock_starts_again.csv", ["Time (s),Angle (deg),EMG (mV)", *rows])
expect("r_clock_starts_again.csv", angle=angle("Angle", 2, 100.0, second[1]), findings=["time-backwards"])
expect("r_clock_starts_again.csv", {"trial": 1}, angle=angle("Angle", 2, 100.0, first[1]), findings=["time-backwards"])
expect("r_clock_starts_again.csv", {"trial": 3}, failure="no-such-trial")

t, a, e = series(25, 300, 100)
stamps = [f"{x:.2f}" for x in t]
stamps[77] = "0.12"
stamps[201] = "91.00"
write("r_stray_stamps.csv", ["Time (s),Angle (deg),EMG (mV)", *(f"{s},{v:g},{m:g}" for s, v, m in zip(stamps, a, e))])
expect("r_stray_stamps.csv", findings=["missing-samples", "time-backwards"],
       angle=angle("Angle", 2, 100.0, [None if i in (77, 201) else v for i, v in enumerate(a)]))

t, a, e = series(26, 300, 100)
rows = []
for i in range(300):
    rows += [f"{t[i]:.2f},{a[i]:g},{e[i]:g}"] * (2 if i in (40, 41, 150, 222) else 1)
write("r_rows_repeated.csv", ["Time (s),Angle (deg),EMG (mV)", *rows])
expect("r_rows_repeated.csv", angle=angle("Angle", 2, 100.0, a), findings=["time-repeated"])

unsteady = random.Random(27)
t = [0.0]
while len(t) < 300:
    t.append(round(t[-1] + unsteady.uniform(0.010, 0.030), 3))
signals = Signals(27)
a = [round(signals.angle(x), 2) for x in t]
steps = sorted(y - x for x, y in zip(t, t[1:]))
write("r_unsteady_clock.csv", ["Time (s),Angle (deg)", *(f"{x:.3f},{v:g}" for x, v in zip(t, a))])
expect("r_unsteady_clock.csv", angle=angle("Angle", 2, 1 / steps[len(steps) // 2], a, regular=False), findings=[])

t, a, e = series(28, 60, 100)
write("r_clock_falls.csv", ["Time (s),Angle (deg)", *(f"{9 - x:.2f},{v:g}" for x, v in zip(t, a))])
expect("r_clock_falls.csv", failure="time-unusable")
write("r_clock_stands.csv", ["Time (s),Angle (deg)", *(f"1.00,{v:g}" for v in a)])
expect("r_clock_stands.csv", failure="time-unusable")
expect("r_clock_stands.csv", {"time": "Angle"}, failure="time-unusable")

# ---- channels at different rates -----------------------------------------------------------------------------------
signals = Signals(30)
slow = [round(signals.angle(i / 50), 2) for i in range(100)]
fast = [round(signals.emg(), 4) for _ in range(2000)]
write("r_slow_angle.csv", ["Time (s),Angle (deg),EMG (mV)",
                           *(f"{i / 1000:.3f},{f'{slow[i // 20]:g}' if i % 20 == 0 else ''},{fast[i]:g}"
                             for i in range(2000))])
expect("r_slow_angle.csv", angle=angle("Angle", 2, 50.0, slow), findings=[],
       channels=[["Angle", "angle", 50], ["EMG", "emg", 1000]])

gappy = [None if 40 <= i < 52 or i == 70 else v for i, v in enumerate(slow)]
write("r_slow_angle_with_gap.csv", ["Time (s)\tAngle (deg)\tEMG (mV)",
                                    *(f"{i / 400:.4f}\t"
                                      f"{'' if i % 8 != 3 or gappy[i // 8] is None else f'{gappy[i // 8]:g}'}\t{fast[i]:g}"
                                      for i in range(800))])
expect("r_slow_angle_with_gap.csv", angle=angle("Angle", 2, 50.0, gappy, start_s=0.0075), findings=["missing-samples"],
       channels=[["Angle", "angle", 50], ["EMG", "emg", 400]])

slower = [round(signals.angle(i / 64), 2) for i in range(96)]
rows = sorted([(i / 500, "", f"{fast[i]:g}") for i in range(750)] +
              [(0.0007 + round(i / 64, 4), f"{slower[i]:g}", "") for i in range(96)])
write("r_two_clocks.csv", ["Time (s);Angle (deg);EMG (mV)", *(f"{x:.4f};{v};{m}" for x, v, m in rows)])
expect("r_two_clocks.csv", angle=angle("Angle", 2, 64.0, slower, start_s=0.0007), findings=[],
       channels=[["Angle", "angle", 64], ["EMG", "emg", 500]])

rows = [f"{i / 500:.3f},{fast[i]:g},{f'{i / 50:.2f},{slow[i]:g}' if i < 60 else ','}" for i in range(600)]
write("r_time_for_each_channel.csv", ["X [s],Biceps [mV],X2 [s],Knee angle [deg]", *rows])
expect("r_time_for_each_channel.csv", angle=angle("Knee angle", 4, 50.0, slow[:60]), findings=[],
       channels=[["Biceps", "emg", 500], ["Knee angle", "angle", 50]])

write("r_short_column.csv", ["Sampling rate: 500 Hz", "Gonio (deg),EMG (mV)",
                             *(f"{f'{slow[i]:g}' if i < 60 else ''},{fast[i]:g}" for i in range(600))])
expect("r_short_column.csv", angle=angle("Gonio", 1, 50.0, slow[:60]), findings=["preamble-skipped", "rate-assumed", "rate-assumed"],
       channels=[["Gonio", "angle", 50], ["EMG", "emg", 500]])

held = [slow[i // 20] for i in range(2000)]
write("r_readings_repeated.csv", ["Time (s),Angle (deg),EMG (mV)",
                                  *(f"{i / 1000:.3f},{held[i]:g},{fast[i]:g}" for i in range(2000))])
expect("r_readings_repeated.csv", angle=angle("Angle", 2, 1000.0, held), findings=["repeated-readings"])
expect("r_readings_repeated.csv", {"rates": [["angle", 50]]}, angle=angle("Angle", 2, 50.0, slow), findings=[])

joined = [round(slow[i // 10] + (slow[i // 10 + 1] - slow[i // 10]) * (i % 10) / 10, 3) for i in range(990)]
joined += [round(v + 0.001 * k, 3) for k, v in enumerate(joined)]
write("r_readings_joined.csv", ["Time (s),Angle (deg)", *(f"{i / 500:.3f},{v:g}" for i, v in enumerate(joined))])
expect("r_readings_joined.csv", angle=angle("Angle", 2, 500.0, joined), findings=["repeated-readings"])

# ---- tables without time or names ---------------------------------------------------------------------------------
t, a, e = series(40, 300, 200)
plain = [f"{v:g};{m:g}" for v, m in zip(a, e)]
write("r_interval_above.csv", ["Interval=\t0,005 s", "Angle [deg];EMG [mV]", *(p.replace(".", ",") for p in plain)])
expect("r_interval_above.csv", angle=angle("Angle", 1, 200.0, a), findings=["preamble-skipped", "rate-assumed"])
write("r_no_time.csv", ["Angle [deg];EMG [mV]", *plain])
expect("r_no_time.csv", failure="rate-missing")
expect("r_no_time.csv", {"rate": 200}, angle=angle("Angle", 1, 200.0, a), findings=[])
expect("r_no_time.csv", {"rates": [["Angle", 200], ["EMG", 200]]}, angle=angle("Angle", 1, 200.0, a), findings=[])
expect("r_no_time.csv", {"rate": 200, "rates": [["Angle", 90]]}, failure="rate-mismatch")

write("r_numbers_only.csv", [f"{m:g} {v:g} {x:.3f}" for x, v, m in zip(t, a, e)])
expect("r_numbers_only.csv", angle=angle("column 2", 2, 200.0, a, unit=""), findings=["column-assumed"],
       channels=[["column 1", "emg", 200], ["column 2", "angle", 200]])
write("r_channels_described_above.csv",
      ["Export of run 7", "Channel 1: 'Quad', 300 values, units: mV", "Channel 2: 'Bend', 300 values, units: deg",
       "200 samples per second", "", *(f"{m:g}\t{v:g}" for v, m in zip(a, e))])
expect("r_channels_described_above.csv", angle=angle("Bend", 2, 200.0, a), findings=["preamble-skipped", "rate-assumed"],
       channels=[["Quad", "emg", 200], ["Bend", "angle", 200]])
write("r_counter_and_status.csv", ["Sample,Status,Event,Time (ms),Elbow flexion (deg),Battery (V)",
                                   *(f"{i + 1},ok,{int(i > 99)},{5 * i},{v:g},3.71" for i, v in enumerate(a))])
expect("r_counter_and_status.csv", angle=angle("Elbow flexion", 5, 200.0, a), findings=["text-cells"],
       time_format="milliseconds", channels=[["Event", "other", 200], ["Elbow flexion", "angle", 200],
                                             ["Battery", "other", 200]])
write("r_date_and_time.csv", ["Date,Time,Elapsed (s),Angle (deg)",
                              *(f"2031-05-04,10:31:{7 + int(x):02d},{x:.3f},{v:g}" for x, v in zip(t, a))])
expect("r_date_and_time.csv", angle=angle("Angle", 4, 200.0, a), findings=None)

# ---- which column is the angle ------------------------------------------------------------------------------------
hip = [round(0.3 * v + 5, 2) for v in a]
write("r_two_joints_hip.csv", ["Time (s),Knee angle (deg),Hip angle (deg)",
                               *(f"{x:.3f},{v:g},{h:g}" for x, v, h in zip(t, a, hip))])
expect("r_two_joints_hip.csv", angle=angle("Hip angle", 3, 200.0, hip), findings=["column-assumed"], joint="hip")
expect("r_two_joints_hip.csv", {"angle": "knee"}, angle=angle("Knee angle", 2, 200.0, a), findings=[])
write("r_muscle_in_both_names.csv", ["t/s,Biceps,Biceps angle", *(f"{x:.3f},{m:g},{v:g}" for x, v, m in zip(t, a, e))])
expect("r_muscle_in_both_names.csv", angle=angle("Biceps angle", 3, 200.0, a, unit=""), findings=[],
       channels=[["Biceps", "emg", 200], ["Biceps angle", "angle", 200]])
write("r_genou_droit.csv", ["Temps (s);Angle du genou (°);Vaste médial (mV)",
                            *(f"{x:.3f};{v:g};{m:g}" for x, v, m in zip(t, a, e))], encoding="cp1252", end="\r\n")
expect("r_genou_droit.csv", angle=angle("Angle du genou", 2, 200.0, a), findings=["encoding-assumed"], joint="knee",
       side="right", channels=[["Angle du genou", "angle", 200], ["Vaste médial", "emg", 200]])
heads = ["Time (s)"] + [f"{name} {i}" for i in range(1, 4) for name in ("Acc x", "Acc y", "Gyro z", "Temp", "EMG")]
heads += ["Force (N)", "Torque (Nm)", "Angular velocity (deg/s)", "Wrist angle (deg)"]
wide = Signals(41)
write("r_20_columns.csv", [",".join(heads), *(f"{x:.3f}," + ",".join(f"{wide.emg():.3f}" for _ in range(18)) + f",{v:g}"
                                              for x, v in zip(t, a))])
expect("r_20_columns.csv", angle=angle("Wrist angle", 20, 200.0, a), findings=[], joint="wrist")
write("r_only_channel.csv", ["Time (s),CH1", *(f"{x:.3f},{v:g}" for x, v in zip(t, a))])
expect("r_only_channel.csv", angle=angle("CH1", 2, 200.0, a, unit=""), findings=["column-assumed"])
write("r_force_only.csv", ["Time (s),Force (N)", *(f"{x:.3f},{v:g}" for x, v in zip(t, a))])
expect("r_force_only.csv", findings=[], failure_of_angle="angle-missing")
expect("r_force_only.csv", {"angle": "Force", "angle_unit": "deg"}, angle=angle("Force", 2, 200.0, a), findings=[])
write("r_angle_column_empty.csv", ["Time (s),Elbow angle (deg),EMG (mV)",
                                   *(f"{x:.3f},,{m:g}" for x, m in zip(t, e))])
expect("r_angle_column_empty.csv", findings=["missing-samples"], failure_of_angle="angle-missing")
expect("r_angle_column_empty.csv", {"angle": "Elbow angle"}, failure="column-empty")
expect("r_plain.csv", {"angle": "Knee"}, failure="column-missing")
expect("r_two_joints_hip.csv", {"angle": "angle"}, failure="column-ambiguous")
expect("r_counter_and_status.csv", {"angle": "Status"}, failure="column-text")
expect("r_plain.csv", {"angle_unit": "parsec"}, failure="unit-unknown")

# ---- tables that hold no recording --------------------------------------------------------------------------------
write("r_time_only.csv", ["Time (s)", *(f"{x:.3f}" for x in t)])
expect("r_time_only.csv", failure="no-channels")
write("r_one_row.csv", ["Time (s),Angle (deg)", "0.000,12.5"])
expect("r_one_row.csv", failure="too-few-rows")
write("r_words_only.csv", ["Name,Group", *(f"P{i:02d},{'AB'[i % 2]}" for i in range(12))])
expect("r_words_only.csv", failure="no-table")

# ---- readings that cannot be trusted ------------------------------------------------------------------------------
def suspect(name, values, findings, head="Time (s),Angle (deg)", unit="deg", rate_hz=100.0, options=None, shown=None):
    if not options:
        write(name, [head, *(f"{i / rate_hz:.3f},{v:g}" for i, v in enumerate(values))])
    expect(name, options, angle=angle("Angle", 2, rate_hz, shown or values, unit), findings=findings)


t, a, e = series(50, 400, 100)
suspect("r_stuck.csv", [57.3] * 300, ["stuck"])
suspect("r_frozen.csv", [a[150] if 150 <= i < 270 else v for i, v in enumerate(a)], ["stuck"])
suspect("r_cut_off.csv", [min(v, 75.0) for v in a], ["saturated"])
turned = [round((v + 300) % 360, 2) for v in a]
suspect("r_full_turn.csv", turned, [])
coded = [999.0 if i in (33, 34, 35, 210, 300, 301) else v for i, v in enumerate(a)]
suspect("r_missing_as_999.csv", coded, ["missing-suspect"])
suspect("r_missing_as_999.csv", coded, ["missing-samples"], options={"missing": [999]},
        shown=[None if v == 999.0 else v for v in coded])
high = [round(v + 120, 2) for v in a]
suspect("r_drops_to_zero.csv", [0.0 if i in (60, 61, 133, 250, 251, 252) else v for i, v in enumerate(high)],
        ["missing-suspect"])
suspect("r_radians_as_degrees.csv", [round(math.radians(v), 4) for v in a], ["unit-suspect"])
suspect("r_counts_without_unit.csv", [float(round(180 + 5.2 * v)) for v in a], ["unit-suspect"],
        head="Time (s),Angle", unit="")
suspect("r_volts.csv", [round(0.4 + 0.02 * v, 4) for v in a], [], head="Time (s),Angle (V)", unit="V")
suspect("r_spikes.csv", [round(v + (65 if i in (80, 199, 330) else 0), 2) for i, v in enumerate(a)], [])
quiet = Signals(51)
suspect("r_still.csv", [round(30 + 0.05 * quiet.random.gauss(0, 1), 2) for _ in range(300)], [])

lines = ",\n".join(json.dumps(case, separators=(",", ":")) for case in CASES)
(HERE / "../../reference/recording/exports.json").write_text(f"[{lines}]\n")
