"""check_schemas.py ROOT PROGRAM SCRATCH

Every JSON that the program writes is what its own schema says: the recorded output of golden cases, and what golden
cases and the commands shown in docs/commands print with --format json. So are calibrations, truths and presets of simulations, rows of class tables,
settings files and the demo manifest. A damaged result must be refused, or the check would be worth nothing."""
import csv
import copy
import json
import pathlib
import re
import shlex
import shutil
import subprocess
import sys

try:
    import jsonschema
except ImportError:
    print("skipped: python3-jsonschema is not installed")
    sys.exit(0)

root, program, scratch = (pathlib.Path(argument).resolve() for argument in sys.argv[1:4])
problems = []
checked = {}


def run(arguments, folder):
    return subprocess.run([program, *arguments], cwd=folder, capture_output=True, text=True, stdin=subprocess.DEVNULL)


def validator_of(name):
    schema = json.loads(run(["schema", name], root).stdout)
    jsonschema.Draft202012Validator.check_schema(schema)
    return jsonschema.Draft202012Validator(schema)


validators = {row["schema"]: validator_of(row["schema"])
              for row in json.loads(run(["schema", "--format", "json"], root).stdout)["result"]["schemas"]}


def check(name, document, where):
    checked.setdefault(name, []).append(document)
    for error in list(validators[name].iter_errors(document))[:3]:
        place = "/".join(str(part) for part in error.absolute_path)
        problems.append(f"{where}: {place}: {error.message[:200]}")


def check_report(text, where):
    try:
        document = json.loads(text)
    except ValueError:
        return
    name = str(document.get("schema", "")).removeprefix("jointrom-").removesuffix("/1")
    if name and name not in validators:
        problems.append(f"{where}: there is no schema '{name}'")
    elif name:
        check(name, document, where)


def as_json(arguments):
    """The same request for JSON on standard output."""
    kept, skip = [], False
    for argument in arguments:
        if not skip and argument not in ("--format", "--output"):
            kept.append(argument)
        skip = not skip and argument in ("--format", "--output")
    return [*kept, "--format", "json"]


shutil.rmtree(scratch, ignore_errors=True)
scratch.mkdir(parents=True)
for folder in ("data", "examples", "tests/golden"):
    shutil.copytree(root / folder, scratch / folder)

for recorded in sorted((root / "tests/golden").glob("*/*/stdout")):
    check_report(recorded.read_text(errors="replace"), recorded.relative_to(root))
for request in sorted((scratch / "tests/golden").glob("*/*/args")):
    status = request.parent / "status"
    if not status.exists() or status.read_text().strip() == "1":
        check_report(run(as_json(request.read_text().splitlines()), request.parent).stdout,
                     request.parent.relative_to(scratch))
for page in sorted((root / "docs/commands").glob("*.md")):
    shown = re.findall(r"^\$ (jointrom (?:[^\n]*\\\n)*[^\n]*)", page.read_text(), re.M)
    for number, line in enumerate(shown):
        words = shlex.split(re.split(r"[|>]", line.replace("\\\n", " "))[0], comments=True)
        if "--into" in words:
            words[words.index("--into") + 1] += str(number)
        check_report(run(as_json(words[1:]), scratch).stdout, f"{page.name}: {line}")

run(["batch", "data/demo", "--pattern", "{participant}_{side}_{joint}.csv", "--into", "class", "--ndjson"], scratch)
check_report((scratch / "class/settings.json").read_text(), "settings.json")
for table in ("trials", "repetitions", "phases", "activity", "findings"):
    name = "batch-" + table
    for line in (scratch / f"class/{table}.ndjson").read_text().splitlines():
        check(name, json.loads(line), f"{table}.ndjson")
for name, file in [*((f"batch-{t}", f"{t}.csv") for t in ("trials", "repetitions", "phases", "activity", "findings")),
                   ("batch-class-findings", "class_findings.csv")]:
    head = next(csv.reader((scratch / "class" / file).open()))
    if head != list(validators[name].schema["properties"]):
        problems.append(f"{file}: the columns are {head}")
elbow = "data/demo/P01_right_elbow.csv"
for name, arguments in [("angle-series", ["angles", elbow]),
                        ("load-series", ["load", elbow, "--body-mass-kg", "60", "--height-m", "1.7", "--series"])]:
    head = run([*arguments, "--format", "csv"], scratch).stdout.splitlines()[0].split(",")
    if head != list(validators[name].schema["properties"]):
        problems.append(f"{name}: the columns are {head}")
for saved in [*(root / "tests/golden").glob("calibrate/*/expected/*.json")]:
    check("calibration", json.loads(saved.read_text()), saved)
for truth in (root / "tests/golden").glob("simulate/*/expected/**/*.truth.json"):
    check("truth", json.loads(truth.read_text()), truth)
for preset in [root / "examples/simulate/session.json", root / "tests/golden/simulate/session/session.json",
               *(root / "examples/demo-session").glob("*.json")]:
    check("preset", json.loads(preset.read_text()), preset)
for sheet in (root / "tests/golden").glob("batch/manifest/*.csv"):
    for row in csv.DictReader(sheet.open(encoding="utf-8-sig")):
        check("manifest", {key: value for key, value in row.items() if value}, sheet)
with (root / "data/norms/norms.csv").open() as norms:
    for row in csv.DictReader(norms):
        check("norm-table", row, "norms.csv")
in_force = {key: value for key, value in checked["range"][0]["settings"].items()}
check("settings", in_force, "settings of a result")

# Each table that the sources make is known.
for source in (root / "src").glob("*/*.cpp"):
    for table in re.findall(r'ResultTable\s+\w+\(\s*"(\w+)"', source.read_text()):
        if not any(table in v.schema["properties"].get("result", {}).get("properties", {}) for v in validators.values()):
            problems.append(f"{source.name}: table '{table}' is in no schema; see src/report/table_list.cpp")

for damage in (lambda d: d["result"]["range"][0].pop("at_s"), lambda d: d["result"]["range"][0].update(more=1),
               lambda d: d["result"]["range"][0].update(count="five"), lambda d: d.pop("findings"),
               lambda d: d["result"]["range"][0]["extent_deg"].pop("u")):
    damaged = copy.deepcopy(checked["range"][0])
    damage(damaged)
    if validators["range"].is_valid(damaged):
        problems.append("a damaged result passes")

never = sorted(name for name in validators if name not in checked)
for name in set(never) - {"answers", "key", "angle-series", "load-series", "batch-class-findings"}:
    problems.append(f"nothing was checked against '{name}'")
print(f"{sum(map(len, checked.values()))} documents and rows checked against {len(checked)} schemas")
if problems:
    sys.exit("\n".join(problems[:40]))
