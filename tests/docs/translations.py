#!/usr/bin/env python3
"""Messages of `check` in other languages: the catalogs of templates/messages, and what the program prints with them.

    tests/docs/translations.py GALLIPOT            checks
    tests/docs/translations.py GALLIPOT --update   writes the goldens anew; read the difference as a user would

Each catalog may hold only patterns that the sources have (message_patterns.py), and in each the same places. Those it lacks stand
in tests/golden/messages/missing.txt with their number, which is to fall. tests/golden/messages/LANGUAGE.txt is what some cases
of tests/cases print. At the end every case is printed in a language made up, in which each pattern stands between brackets: what
comes without them is a message whose pattern nothing finds, so that no catalog could hold it.
"""
import concurrent.futures
import difflib
import os
import pathlib
import re
import subprocess
import sys
import tempfile

import message_patterns

ROOT = pathlib.Path(__file__).resolve().parents[2]
CATALOGS = ROOT / "templates" / "messages"
CASES = ROOT / "tests" / "cases"
GOLDEN = ROOT / "tests" / "golden" / "messages"
SHOWN = ["bad-choice-misspelt-form", "bad-date-april-31", "bad-total-21-percent", "batch-too-small", "decimal-comma",
         "dose-in-reach", "far-from-usual", "few-baits-rooms", "measure-off-scale-needed", "missing-unit-volume",
         "mixed-languages-many-texts", "no-published-support-bees", "unknown-key-titel", "yaml-syntax-open-brace"]
# What of other papers does not fit is told by the layout, in English alone.
IN_ENGLISH = {"does-not-fit"}


def places(pattern):
    bare = pattern.replace("{{", "").replace("}}", "")
    numbers, following = set(), 0
    for number in re.findall(r"\{(\d*)\}", bare):
        numbers.add(int(number) if number else following)
        following += 0 if number else 1
    mixed = re.search(r"\{\}", bare) and re.search(r"\{\d+\}", bare)
    return None if mixed else numbers


def read(file):
    """A catalog, of which only one form is written: "pattern": "translation", a line each."""
    def unescaped(text):
        return text.replace('\\"', '"').replace("\\\\", "\\")
    found = {}
    for number, line in enumerate(file.read_text().splitlines(), 1):
        if not line or line.startswith("#"):
            continue
        pair = re.fullmatch(r'"((?:[^"\\]|\\.)*)": "((?:[^"\\]|\\.)+)"', line)
        if pair is None:
            raise SystemExit(f'{file.name}:{number}: expected "pattern": "translation"')
        found[unescaped(pair.group(1))] = unescaped(pair.group(2))
    return found


def check(gallipot, case, environment, *options):
    with tempfile.TemporaryDirectory() as folder:
        for file in case.iterdir():
            if file.name != "expected.txt":
                (pathlib.Path(folder) / file.name).write_bytes(file.read_bytes())
        ran = subprocess.run([gallipot, "check", "job.yaml", *options], cwd=folder, capture_output=True, check=False,
                             env={**os.environ, "TZ": "UTC", **environment})
    return ran.stderr.decode()


def outside(text):
    """What stands outside all brackets, words in quotes left out: they are the user's."""
    depth, left = 0, ""
    for letter in re.sub(r"'[^']*'", "", text):
        depth += {"⟦": 1, "⟧": -1}.get(letter, 0)
        left += letter if depth == 0 else ""
    return left


def without_pattern(gallipot, case, folder):
    """Messages and fixes of a case whose pattern is in no list."""
    said = check(gallipot, case, {"LC_ALL": "qaa"}, "--templates", folder)
    faults = []
    for line in said.splitlines():
        message = re.match(r"(?:[^ ].*:)?\d*:?(?:\d+:)? ?⟦(?:error|warning):⟧ (.*) \[([a-z0-9-]+)\]$", line)
        fix = re.match(r"  ⟦fix:⟧ (.*)$", line)
        if message:
            code = message.group(2)
        text = message.group(1) if message else fix.group(1) if fix else None
        if text is not None and code not in IN_ENGLISH and re.search("[A-Za-z]", outside(text)):
            faults.append(f"{case.name}: [{code}] {text}")
    if said and "⟦" not in said:
        faults.append(f"{case.name}: nothing is translated")
    return faults


def main():
    gallipot = str(pathlib.Path(sys.argv[1]).resolve())
    faults = []
    patterns = message_patterns.patterns()
    outputs = {}
    missing = []
    for file in sorted(CATALOGS.glob("*.yaml")):
        translated = read(file)
        for pattern, translation in translated.items():
            if pattern not in patterns:
                faults.append(f'{file.name}: nothing says "{pattern}"; take it out')
            # Without places braces stand for themselves.
            elif re.search(r"\{\d*\}", pattern) and places(pattern) != places(translation):
                faults.append(f'{file.name}: other places than in "{pattern}"')
        lacking = [pattern for pattern in patterns if pattern not in translated]
        missing.append(f"{file.stem}: {len(lacking)} of {len(patterns)}\n" + "".join(f"  {each}\n" for each in lacking))
        outputs[file.stem + ".txt"] = "\n".join(
            f"$ gallipot check {name}\n" + check(gallipot, CASES / name, {"LC_ALL": file.stem + ".UTF-8"}) for name in SHOWN)
    outputs["missing.txt"] = "\n".join(missing)
    for name, text in outputs.items():
        golden = GOLDEN / name
        if "--update" in sys.argv:
            GOLDEN.mkdir(exist_ok=True)
            golden.write_text(text)
        wanted = golden.read_text() if golden.exists() else ""
        if text != wanted:
            faults.append("".join(difflib.unified_diff(wanted.splitlines(True), text.splitlines(True), f"messages/{name}", "now")))
    with tempfile.TemporaryDirectory() as folder, concurrent.futures.ThreadPoolExecutor() as pool:
        made_up = pathlib.Path(folder) / "messages" / "qaa.yaml"
        made_up.parent.mkdir()

        def quoted(text):
            return '"' + text.replace("\\", "\\\\").replace('"', '\\"') + '"'
        made_up.write_text("".join(f"{quoted(each)}: {quoted('⟦' + each + '⟧')}\n" for each in patterns))
        cases = sorted(job.parent for job in CASES.glob("*/job.yaml"))
        for found in pool.map(lambda case: without_pattern(gallipot, case, folder), cases):
            faults += found
    for fault in faults:
        print(fault)
    print(f"{len(outputs) - 1} languages, {len(patterns)} patterns, {len(cases)} cases, {len(faults)} faults")
    return len(faults) > 0


if __name__ == "__main__":
    sys.exit(main())
