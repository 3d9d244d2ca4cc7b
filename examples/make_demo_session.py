#!/usr/bin/env python3
"""Writes the demo lab session: recordings as a school logger would export them, and the truth behind them.

    python3 examples/make_demo_session.py [FOLDER]      (FOLDER: data/demo beside this script's folder)

The session, the college and the participants P01 to P06 are invented. Movements are minimum-jerk curves with holds;
each reading is the true joint angle seen through a sensor (offset, gain, side, noise). The truth*.csv files hold what
went in. Only the four basic operations and square roots are used, so the bytes are the same on every machine.
"""

import math
import sys
from pathlib import Path

ANGLE_NOISE_DEG = 0.3


class Noise:
    """Pseudo-random numbers of our own: a 64-bit linear congruential generator (multiplier and increment of Knuth)."""

    def __init__(self, seed):
        self.state = seed
        for _ in range(8):
            self.uniform()

    def bits(self):
        self.state = (self.state * 6364136223846793005 + 1442695040888963407) % 2**64
        return self.state >> 11

    def uniform(self):
        return self.bits() / 2**53

    def normal(self):
        """Close to normal, mean 0, SD 1: the sum of twelve uniform numbers less six. Summed as integers, exactly."""
        return sum(self.bits() for _ in range(12)) / 2**53 - 6.0


class Movement:
    """A true joint angle over time: still stretches joined by minimum-jerk movements."""

    def __init__(self, start_deg=0.0):
        self.knots = [(0.0, start_deg)]
        self.repetitions = []  # (start_s, top_from_s, top_to_s, end_s, start_deg, top_deg, end_deg)
        self.postures = []  # (from_s, to_s, angle_deg)

    @property
    def now_s(self):
        return self.knots[-1][0]

    @property
    def now_deg(self):
        return self.knots[-1][1]

    def hold(self, seconds):
        self.knots.append((round(self.now_s + seconds, 3), self.now_deg))

    def move(self, to_deg, seconds):
        self.knots.append((round(self.now_s + seconds, 3), to_deg))

    def posture(self, angle_deg, hold_s, move_s=1.2):
        if angle_deg != self.now_deg:
            self.move(angle_deg, move_s)
        start_s = self.now_s
        self.hold(hold_s)
        self.postures.append((start_s, self.now_s, angle_deg))

    def repetition(self, top_deg, end_deg, up_s, hold_s, down_s):
        start_s, start_deg = self.knots[-1]
        self.move(top_deg, up_s)
        top_from_s = self.now_s
        self.hold(hold_s)
        top_to_s = self.now_s
        self.move(end_deg, down_s)
        self.repetitions.append((start_s, top_from_s, top_to_s, self.now_s, start_deg, top_deg, end_deg))

    def angle_deg(self, time_s):
        for (t0, a0), (t1, a1) in zip(self.knots, self.knots[1:]):
            if time_s < t1:
                u = (time_s - t0) / (t1 - t0)
                return a0 + (a1 - a0) * u * u * u * (10.0 + u * (6.0 * u - 15.0))
        return self.now_deg

    def extremes_deg(self):
        angles = [angle for _, angle in self.knots]
        return min(angles), max(angles)


def repetitions(tops_deg, ends_deg, seed, up_s=1.1, hold_s=0.8, down_s=1.5, pause_s=0.9):
    """Neutral posture held for 2 s, one repetition for each top, back to neutral and still for 1.5 s."""
    noise = Noise(seed)
    movement = Movement()
    movement.hold(2.0)
    for top_deg, end_deg in zip(tops_deg, ends_deg):
        stretch = 1.0 + 0.1 * (2.0 * noise.uniform() - 1.0)
        movement.repetition(top_deg, end_deg, up_s * stretch, hold_s, down_s * stretch)
        movement.hold(pause_s)
    if movement.now_deg != 0.0:
        movement.move(0.0, 0.7)
    movement.hold(1.5)
    return movement


def still_postures(angles_deg, hold_s, move_s):
    movement = Movement(angles_deg[0])
    for angle_deg in angles_deg:
        movement.posture(angle_deg, hold_s, move_s)
    return movement


class Sensor:
    """reading = neutral + per_deg * angle + noise, in the unit of the reading; folded into 0..wrap if that is set."""

    def __init__(self, neutral, per_deg, noise, wrap=None):
        self.neutral, self.per_deg, self.noise, self.wrap = neutral, per_deg, noise, wrap

    def reading(self, angle_deg, noise):
        value = self.neutral + self.per_deg * angle_deg + self.noise * noise.normal()
        return value if self.wrap is None else value % self.wrap


def flexor_mv(movement, time_s):
    """Amplitude (SD) of the flexor's electromyogram: most while raising, less while holding and lowering."""
    for start_s, top_from_s, top_to_s, end_s, *_ in movement.repetitions:
        if start_s - 0.06 <= time_s < top_from_s:
            return 0.42
        if top_from_s <= time_s < top_to_s:
            return 0.26
        if top_to_s <= time_s < end_s - 0.1:
            return 0.17
    return 0.006


def extensor_mv(movement, time_s):
    """The antagonist: a little co-contraction, most while lowering is braked."""
    for start_s, top_from_s, top_to_s, end_s, *_ in movement.repetitions:
        if start_s <= time_s < top_to_s:
            return 0.035
        if top_to_s <= time_s < end_s:
            return 0.055
    return 0.005


def sample(movement, sensor, rate_hz, seed):
    """Rows (time_s, reading, flexor_mv, extensor_mv) at an even rate."""
    noise = Noise(seed)
    rows = []
    for i in range(int(movement.now_s * rate_hz)):
        time_s = i / rate_hz
        rows.append((time_s, sensor.reading(movement.angle_deg(time_s), noise),
                     flexor_mv(movement, time_s) * noise.normal(), extensor_mv(movement, time_s) * noise.normal()))
    return rows


def text(value, decimals):
    printed = f"{value:.{decimals}f}"
    return printed[1:] if printed.startswith("-") and not printed.strip("-0.") else printed


def table(head, rows, decimals, delimiter=","):
    lines = list(head)
    for row in rows:
        lines.append(delimiter.join("" if v is None else text(v, d) for v, d in zip(row, decimals)))
    return "\n".join(lines) + "\n"


class MuscleNoise:
    """Noise with SD 1 and the spectrum of an electromyogram: white noise through two equal poles and a difference."""

    def __init__(self, seed):
        self.noise = Noise(seed)
        self.first, self.second = 0.0, 0.0

    def next(self, pole):
        """At 1000 Hz, pole 0.7 puts the median frequency at 121 Hz, pole 0.8 at 78 Hz (from the filter's response)."""
        rest = 1.0 - pole
        before = self.second
        self.first = pole * self.first + rest * self.noise.normal()
        self.second = pole * self.second + rest * self.first
        damping = rest / (1.0 + pole)
        return (self.second - before) / math.sqrt(2.0 * damping * damping * damping)


class Session:
    def __init__(self, folder):
        self.folder = folder
        self.truth = ["file,joint,side,task,repetitions,min_deg,max_deg,arc_deg,mean_top_deg,neutral_reading,"
                      "reading_per_deg,reading_unit,peculiarity"]
        self.repetitions = ["file,repetition,start_s,top_from_s,top_to_s,end_s,start_deg,top_deg,end_deg"]
        self.postures = ["file,posture,from_s,to_s,angle_deg"]
        self.activity = ["file,muscle,repetition,on_s,off_s,raising_mv,holding_mv,lowering_mv,rest_mv"]

    def write(self, name, content, encoding="utf-8"):
        (self.folder / name).write_bytes(content.encode(encoding))

    def add(self, name, content, joint, side, task, movement, sensor, unit, peculiarity="", encoding="utf-8"):
        self.write(name, content, encoding)
        low, high = movement.extremes_deg()
        tops = [r[5] for r in movement.repetitions]
        mean_top = text(sum(tops) / len(tops), 2) if tops else ""
        self.truth.append(f"{name},{joint},{side},{task},{len(tops)},{low:.1f},{high:.1f},{high - low:.1f},{mean_top},"
                          f"{sensor.neutral:g},{sensor.per_deg:g},{unit},{peculiarity}")
        for n, r in enumerate(movement.repetitions, 1):
            self.repetitions.append(f"{name},{n}," + ",".join(text(v, 3) for v in r[:4]) + ","
                                    + ",".join(text(v, 1) for v in r[4:]))
        for n, (start_s, end_s, angle_deg) in enumerate(movement.postures, 1):
            self.postures.append(f"{name},{n},{start_s:.3f},{end_s:.3f},{angle_deg:.1f}")

    def add_activity(self, name, flexor, extensor, movement):
        """The amplitudes (SD) that flexor_mv() and extensor_mv() give, and when each muscle is active."""
        for n, (start_s, top_from_s, top_to_s, end_s, *_) in enumerate(movement.repetitions, 1):
            times = (start_s + 0.01, top_from_s + 0.01, top_to_s + 0.01)
            for muscle, amplitude_mv, on_s, off_s, rest_mv in ((flexor, flexor_mv, start_s - 0.06, end_s - 0.1, 0.006),
                                                               (extensor, extensor_mv, start_s, end_s, 0.005)):
                mv = ",".join(f"{amplitude_mv(movement, time_s):g}" for time_s in times)
                self.activity.append(f"{name},{muscle},{n},{text(on_s, 3)},{text(off_s, 3)},{mv},{rest_mv:g}")

    def finish(self):
        self.write("truth.csv", "\n".join(self.truth) + "\n")
        self.write("truth_repetitions.csv", "\n".join(self.repetitions) + "\n")
        self.write("truth_postures.csv", "\n".join(self.postures) + "\n")
        self.write("truth_activity.csv", "\n".join(self.activity) + "\n")


RATE_HZ = 200
DECIMALS = (3, 2, 4, 4)
ELBOW_HEAD = "Time (s),Elbow angle (deg),Biceps (mV),Triceps (mV)"
VOLTS_HEAD = "Time (s),Goniometer (V)"
KNEE_HEAD = "Time (s),Knee angle (deg),Hamstrings (mV),Quadriceps (mV)"


def right_sensor(neutral_deg):
    """Reads near 180 with the limb straight and falls with flexion."""
    return Sensor(neutral_deg, -1.0, ANGLE_NOISE_DEG)


def left_sensor(neutral_deg):
    """The same sensor strapped on mirrored: the reading rises with flexion."""
    return Sensor(neutral_deg, 1.0, ANGLE_NOISE_DEG)


def add_elbows(session):
    def plain(name, side, movement, sensor, seed, peculiarity=""):
        rows = sample(movement, sensor, RATE_HZ, seed)
        session.add(name, table([ELBOW_HEAD], rows, DECIMALS), "elbow", side, "flexion", movement, sensor, "deg",
                    peculiarity)
        session.add_activity(name, "Biceps", "Triceps", movement)

    p01 = repetitions([142.0, 144.5, 143.0, 145.5, 143.5], [-3.0, -4.0, -3.5, -4.5, -3.5], seed=11)
    plain("P01_right_elbow.csv", "right", p01, right_sensor(176.2), 101)
    movement = repetitions([141.0, 143.0, 142.5, 140.5, 142.0], [-3.0, -2.5, -3.5, -3.0, -3.0], seed=12)
    plain("P01_left_elbow.csv", "left", movement, left_sensor(183.4), 102, "mounted mirrored")
    movement = repetitions([150.0, 149.0, 151.5, 150.5, 149.5], [-8.0, -7.5, -9.0, -8.5, -8.0], seed=13)
    plain("P02_right_elbow.csv", "right", movement, right_sensor(178.9), 103)
    movement = repetitions([131.0, 133.0, 130.5, 132.0, 131.5], [-1.0, -1.5, -1.0, -2.0, -1.5], seed=14)
    plain("P02_left_elbow.csv", "left", movement, left_sensor(181.7), 104, "mounted mirrored")
    volts = Sensor(0.645, 0.0125, 0.00375)
    content = table([VOLTS_HEAD], [row[:2] for row in sample(p01, volts, RATE_HZ, 105)], (3, 4))
    session.add("P01_right_elbow_volts.csv", content, "elbow", "right", "flexion", p01, volts, "V",
                "in volts: see calibration_elbow_volts.csv")


def add_exports_with_a_peculiarity(session):
    def export(name, side, movement, sensor, content, peculiarity, encoding="utf-8"):
        session.add(name, content, "elbow", side, "flexion", movement, sensor, "deg", peculiarity, encoding)
        session.add_activity(name, "Biceps", "Triceps", movement)

    movement = repetitions([138.0, 139.5, 137.0, 138.5, 138.0], [-1.0, -2.0, -1.5, -1.0, -1.5], seed=15)
    sensor = right_sensor(177.4)
    head = ["Time [s];Elbow angle [°];Biceps [mV];Triceps [mV]"]
    content = table(head, sample(movement, sensor, RATE_HZ, 106), DECIMALS, ";").replace(".", ",").replace("\n", "\r\n")
    export("P03_right_elbow.csv", "right", movement, sensor, content, "semicolons and decimal commas", "utf-8-sig")

    movement = repetitions([139.0, 138.0, 140.0, 137.5, 139.0], [-2.0, -1.5, -2.0, -2.5, -2.0], seed=16, pause_s=1.2)
    sensor = left_sensor(182.6)
    gap_from_s = movement.repetitions[2][3] + 0.4
    rows = [row for row in sample(movement, sensor, RATE_HZ, 107) if not gap_from_s <= row[0] < gap_from_s + 0.4]
    export("P03_left_elbow.csv", "left", movement, sensor, table([ELBOW_HEAD], rows, DECIMALS),
           f"mounted mirrored; 0.4 s missing at {text(gap_from_s, 2)} s")

    movement = repetitions([146.0, 147.5, 145.0, 146.5, 147.0], [-5.0, -5.5, -6.0, -5.0, -5.5], seed=17)
    sensor = right_sensor(175.8)
    head = ["Session: Lab 7 - movements of the elbow", "Place: Brindlemoor College - Port Callow", "Participant: P04",
            "Rate: 200 Hz", "", "Time,Elbow angle,Biceps,Triceps", "s,deg,mV,mV"]
    content = table(head, sample(movement, sensor, RATE_HZ, 108), DECIMALS)
    export("P04_right_elbow.csv", "right", movement, sensor, content, "lines above the table and a row of units")

    movement = repetitions([145.0, 146.0, 144.5, 147.0, 145.5], [-4.0, -5.0, -4.5, -4.0, -5.0], seed=18)
    sensor = Sensor(262.3, 1.0, ANGLE_NOISE_DEG, wrap=360.0)
    export("P04_left_elbow.csv", "left", movement, sensor,
           table([ELBOW_HEAD], sample(movement, sensor, RATE_HZ, 109), DECIMALS), "mounted mirrored; wraps at 360")

    movement = repetitions([135.0, 137.0, 136.0, 134.5, 136.5], [-2.0, -2.5, -2.0, -3.0, -2.5], seed=19)
    sensor = right_sensor(179.1)
    rows = [row if i % 4 == 0 else (row[0], None, row[2], row[3])
            for i, row in enumerate(sample(movement, sensor, RATE_HZ, 110))]
    content = table([ELBOW_HEAD.replace(",", "\t")], rows, DECIMALS, "\t")
    export("P06_right_elbow.csv", "right", movement, sensor, content,
           "tabs; angle at 50 Hz and electromyogram at 200 Hz")


def add_knee(session):
    movement = repetitions([118.0, 120.5, 119.0, 121.0], [0.0, 0.0, 0.0, 0.0], seed=20, up_s=1.3, down_s=1.7)
    sensor = right_sensor(178.3)
    content = table([KNEE_HEAD], sample(movement, sensor, RATE_HZ, 111), DECIMALS)
    session.add("P05_right_knee.csv", content, "knee", "right", "flexion", movement, sensor, "deg")
    session.add_activity("P05_right_knee.csv", "Hamstrings", "Quadriceps", movement)


def add_muscles(session):
    """Recordings for the muscles alone; they are in none of the tables of movements."""
    efforts = ((2.0, 5.0), (7.0, 10.0), (12.0, 15.0))  # greatest voluntary contractions against a strap
    noise = Noise(114)
    rows = []
    for i in range(17 * RATE_HZ):
        time_s = i / RATE_HZ
        is_on = any(start_s <= time_s < end_s for start_s, end_s in efforts)
        flexor, extensor = (0.7, 0.4) if is_on else (0.006, 0.005)
        rows.append((time_s, 86.2 + ANGLE_NOISE_DEG * noise.normal(), flexor * noise.normal(),
                     extensor * noise.normal()))
    session.write("P01_right_elbow_mvc.csv", table([ELBOW_HEAD], rows, DECIMALS))

    movement = Movement()
    movement.hold(2.0)
    movement.move(90.0, 1.2)
    movement.hold(8.0)
    movement.move(0.0, 1.4)
    movement.hold(1.2)
    sensor = right_sensor(179.1)
    noise, flexor, extensor = Noise(115), MuscleNoise(116), MuscleNoise(117)
    rows = []
    for i in range(int(movement.now_s * 1000)):
        time_s = i / 1000
        is_on = 2.0 - 0.06 <= time_s < 12.6 - 0.1
        tired = min(max((time_s - 3.2) / 8.0, 0.0), 1.0)
        rows.append((time_s, sensor.reading(movement.angle_deg(time_s), noise),
                     (0.3 + 0.1 * tired if is_on else 0.006) * flexor.next(0.7 + 0.1 * tired),
                     (0.03 if is_on else 0.005) * extensor.next(0.7)))
    session.write("P06_right_elbow_hold.csv", table([ELBOW_HEAD], rows, DECIMALS))


def add_postures(session):
    movement = still_postures([0.0, 31.5, 58.5, 91.0, 118.0], hold_s=3.0, move_s=1.4)
    sensor = right_sensor(177.0)
    rows = [row[:2] for row in sample(movement, sensor, 100, 112)]
    session.add("P05_right_elbow_static.csv", table(["Time (s),Elbow angle (deg)"], rows, (3, 2)), "elbow", "right",
                "postures", movement, sensor, "deg", "asked for: 0 30 60 90 120")

    known = still_postures([0.0, 30.0, 60.0, 90.0, 120.0, 90.0, 60.0, 30.0, 0.0], hold_s=3.0, move_s=1.0)
    volts = Sensor(0.645, 0.0125, 0.00375)
    rows = [row[:2] for row in sample(known, volts, 100, 113)]
    session.add("calibration_elbow_volts.csv", table([VOLTS_HEAD], rows, (3, 4)), "elbow", "right",
                "calibration", known, volts, "V", "on a protractor: 0 30 60 90 120 90 60 30 0")


ANSWERS = """\
P01,right,elbow,flexion,145
P01,right,elbow,extension,4
P01,right,elbow,range of motion,150
P01,left,elbow,flexion,-143
P01,left,elbow,range of motion,146
P02,right,elbow,flexion,29
P02,right,elbow,range of motion,160
P02,left,elbow,flexion,151
P02,left,elbow,range of motion,135
P03,right,elbow,flexion,2.43
P03,right,elbow,range of motion,71
P03,left,elbow,flexion,140
P04,right,elbow,flexion,153
P04,right,elbow,range of motion,155
P04,left,elbow,flexion,14.7
P05,right,knee,flexion,110
P06,right,elbow,flexion,137
P06,right,elbow,extention,3
P7,right,elbow,flexion,131
P06,right,elbow,range of motion,
"""


def add_answers(session):
    """What the students read themselves, with the mistakes that students make."""
    session.write("answers.csv", "participant,side,joint,quantity,value\n" + ANSWERS)


CLASS_HEAD = ("id,file,participant,side,joint,motion,condition,trial,rater,age_years,sex,status,code,reason,"
              "positive_direction,positive_deg,negative_direction,negative_deg,arc_deg")


def class_row(who, side, condition, trial, flexion_deg, hyperextension_deg):
    number, age_years, sex = who
    name = f"P{number:02d}_{side}_{condition}_{trial}"
    measured = ["failed", "no-movement", "the angle never moved", "", "", "", "", ""]
    if flexion_deg is not None:
        measured = ["done", "", "", "flexion", text(flexion_deg, 2), "extension", text(-hyperextension_deg, 2),
                    text(flexion_deg + hyperextension_deg, 2)]
    return ",".join([name, name + ".csv", f"P{number:02d}", side, "knee", "flexion-extension", condition, str(trial),
                     "", str(age_years), sex] + measured)


def add_class(session):
    """Results of a class before and after ten minutes of stretching, as a table of trials: twelve participants, both
    knees, two trials each. Stretching adds 4 degrees. One recording failed and one sensor had slipped."""
    noise = Noise(301)
    rows = [CLASS_HEAD]
    for number in range(1, 13):
        who = (number, 19 + int(9.0 * noise.uniform()), "F" if noise.uniform() < 0.5 else "M")
        usual_deg = 138.0 + 5.0 * noise.normal()
        for side in ("left", "right"):
            own_deg = usual_deg + 1.5 * noise.normal()
            hyperextension_deg = 3.0 + noise.normal()
            for condition, gain_deg in (("before", 0.0), ("after", 4.0 + noise.normal())):
                for trial in (1, 2):
                    flexion_deg = own_deg + gain_deg + 1.4 * noise.normal()
                    beyond_deg = hyperextension_deg + 0.8 * noise.normal()
                    if (number, side, condition, trial) == (8, "right", "before", 2):
                        flexion_deg = None
                    if (number, side, condition, trial) == (11, "left", "after", 1):
                        flexion_deg -= 42.0
                    rows.append(class_row(who, side, condition, trial, flexion_deg, beyond_deg))
    session.write("class_trials.csv", "\n".join(rows) + "\n")


def main(arguments):
    folder = Path(arguments[1]) if len(arguments) > 1 else Path(__file__).resolve().parent.parent / "data" / "demo"
    folder.mkdir(parents=True, exist_ok=True)
    session = Session(folder)
    add_elbows(session)
    add_exports_with_a_peculiarity(session)
    add_knee(session)
    add_postures(session)
    add_muscles(session)
    add_answers(session)
    add_class(session)
    session.finish()


if __name__ == "__main__":
    main(sys.argv)
