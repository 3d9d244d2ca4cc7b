#!/usr/bin/env python3
"""check_snippets.py DOCUMENT ROOT PROGRAM_FOLDER SCRATCH

Runs every ```sh, ```python and ```r block of DOCUMENT, one after another in a copy of the demo data, and compares what it prints
with the ```text block behind it. A block whose interpreter, or whose module named after the language, is not installed is passed
over, with that said. With ACCEPT=1 in the environment the document is rewritten; review that with git diff.
"""
import os
import pathlib
import re
import shutil
import subprocess
import sys

INTERPRETERS = {"sh": ["sh", "-c"], "python": ["python3", "-c"], "r": ["Rscript", "-e"]}
BLOCK = re.compile(r"```(sh|python|r)(?: (\w+))?\n(.*?)```\n```text\n(.*?)```\n", re.DOTALL)


def is_there(language, module):
    if shutil.which(INTERPRETERS[language][0]) is None:
        return False
    return module is None or subprocess.run(["python3", "-c", f"import {module}"], capture_output=True).returncode == 0


def main():
    document, root, programs, scratch = (pathlib.Path(argument).resolve() for argument in sys.argv[1:])
    shutil.rmtree(scratch, ignore_errors=True)
    shutil.copytree(root / "data", scratch / "data")
    environment = {**os.environ, "PATH": f"{programs}:{os.environ['PATH']}", "LC_ALL": "C.UTF-8"}
    wrong = 0

    def run(match):
        nonlocal wrong
        language, module, code, said = match.groups()
        if not is_there(language, module):
            print(f"passed over, {language} {module or ''} is not installed:\n{code}")
            return match.group(0)
        done = subprocess.run(INTERPRETERS[language] + [code], cwd=scratch, env=environment, capture_output=True, text=True)
        printed = done.stdout + done.stderr
        if done.returncode != 0 or printed != said:
            wrong += 1
            print(f"{code}status {done.returncode}, prints\n{printed}instead of\n{said}")
        return match.group(0)[: match.start(4) - match.start(0)] + printed + "```\n"

    rewritten = BLOCK.sub(run, document.read_text(encoding="utf-8"))
    if os.environ.get("ACCEPT") == "1":
        document.write_text(rewritten, encoding="utf-8")
        return 0
    return 1 if wrong else 0


sys.exit(main())
