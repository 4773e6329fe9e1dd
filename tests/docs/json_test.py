#!/usr/bin/env python3
"""What `plan --json` and `report --json` really print fits src/cli/schemas, and src/cli/JSON.md tells of every field.

  json_test.py PROGRAM [--update]     --update writes JSON.md anew from the schemas

Every example, every starter and every good job of tests/cases is planned; the hall and a flat are reported on several days.
"""
import json
import os
import pathlib
import shutil
import subprocess
import sys
import tempfile

PROGRAM = pathlib.Path(sys.argv[1]).resolve()
ROOT = pathlib.Path(__file__).resolve().parents[2]
SCHEMAS = ROOT / "src" / "cli" / "schemas"
PAGE = ROOT / "src" / "cli" / "JSON.md"
WORLD = {**os.environ, "LC_ALL": "C.UTF-8", "TZ": "UTC", "NODE_PATH": "/usr/share/nodejs"}
faults = []

BEGINNING = """# What --json prints

`gallipot plan JOB --json` and `gallipot report JOB --json`, field by field. The [schemas](schemas) are JSON Schema, draft 7; this page is
made of them (`tests/docs/json_test.py PROGRAM --update`), and ctest's `docs_json` holds the real output of every example
against them. Names end in their unit. Numbers are rounded to 12 digits. `null` is what is not known or does not apply. A field that
is not always there is marked so. Names do not change; new ones may come.

`round`, `log`, `explain`, `pests`, `substances` and `stocks` take `--json` too; they have no schema.
"""


def types(schema):
    kinds = schema.get("type", "any")
    return kinds if isinstance(kinds, str) else " or ".join(kinds)


def rows(schema, path, out):
    required = set(schema.get("required", ()))
    for name, field in schema.get("properties", {}).items():
        here = f"{path}{name}"
        sometimes = "" if name in required else " (not always there)"
        out.append(f"| `{here}` | {types(field)} | {field.get('description', '')}{sometimes} |")
        below(field, here, out)


def below(field, here, out):
    if "items" in field:
        below_item(field["items"], here + "[].", out)
    elif isinstance(field.get("additionalProperties"), dict):
        below_item(field["additionalProperties"], here + ".NAME.", out)
    else:
        rows(field, here + ".", out)


def below_item(field, prefix, out):
    if field.get("properties"):
        rows(field, prefix, out)
    elif "items" in field or isinstance(field.get("additionalProperties"), dict):
        below(field, prefix.rstrip("."), out)


def page():
    text = BEGINNING
    for name in ("plan", "report"):
        schema = json.loads((SCHEMAS / f"{name}.schema.json").read_text())
        out = []
        rows(schema, "", out)
        text += f"\n## {name} --json\n\n| Field | Type | What it is |\n|---|---|---|\n" + "\n".join(out) + "\n"
        missing = [row for row in out if "|  |" in row or "|  (not" in row]
        faults.extend(f"{name}.schema.json describes nothing: {row}" for row in missing)
    return text


def printed(folder, *command):
    done = subprocess.run([PROGRAM, *command], cwd=folder, capture_output=True, text=True, env=WORLD, check=False)
    return done.stdout if done.returncode == 0 else None


def outputs(folder):
    plans, reports = {}, {}
    for file in [*ROOT.glob("examples/*.yaml"), *ROOT.glob("templates/jobs/*.yaml"), ROOT / "examples/hall-visits.csv"]:
        shutil.copy(file, folder)
    for case in sorted(ROOT.glob("tests/cases/*/job.yaml")):
        shutil.copy(case, folder / f"case-{case.parent.name}.yaml")
        for table in case.parent.glob("*.csv"):
            shutil.copy(table, folder)
    for job in sorted(folder.glob("*.yaml")):
        said = printed(folder, "plan", job.name, "--json")
        if said:
            plans[job.name] = said
    printed(folder, "log", "hall.yaml", "--import", "hall-visits.csv")
    printed(folder, "visit", "flat.yaml", "K1", "--seen", "9", "--level", "50", "--at", "2027-05-14 19:00")
    for job, day in (("hall", "2027-03-04"), ("hall", "2027-04-02"), ("hall", "2027-06-02"), ("flat", "2027-05-20"),
                     ("workshop", "2027-04-12"), ("syrup", "2027-05-20")):
        reports[f"{job} {day}"] = printed(folder, "report", f"{job}.yaml", "--as-of", day, "--json") or ""
    return plans, reports


def validate(name, documents):
    lines = "\n".join(json.dumps(json.loads(text)) for text in documents.values())
    ran = subprocess.run(["node", ROOT / "tests/schema/validate.js", SCHEMAS / f"{name}.schema.json"], input=lines,
                         capture_output=True, text=True, env=WORLD, check=False)
    if ran.returncode:
        faults.append(ran.stderr[-2000:])
    for which, verdict in zip(documents, ran.stdout.splitlines()):
        if json.loads(verdict):
            faults.append(f"{name} --json of {which}: {verdict[:400]}")


def main():
    text = page()
    if "--update" in sys.argv:
        PAGE.write_text(text)
    if not PAGE.exists() or PAGE.read_text() != text:
        faults.append("src/cli/JSON.md is not made of src/cli/schemas: json_test.py PROGRAM --update")
    with tempfile.TemporaryDirectory() as folder:
        plans, reports = outputs(pathlib.Path(folder))
    validate("plan", plans)
    validate("report", reports)
    # A schema that lets everything by would hold nothing: a field too many must be refused.
    before = len(faults)
    validate("plan", {"one too many": json.dumps({**json.loads(plans["hall.yaml"]), "extra": 1})})
    if len(faults) == before:
        faults.append("the schema of plan --json lets a field by that it does not know")
    else:
        del faults[before:]
    print(f"{len(plans)} plans and {len(reports)} reports")
    print("\n".join(faults))
    return bool(faults) or len(plans) < 40


if __name__ == "__main__":
    sys.exit(main())
