#!/usr/bin/env python3
"""Every message of `check`, as a user meets it. A folder is a case: the job, and what is said of it.

    tests/cases/run.py GALLIPOT            compares, and shows a diff where something else is said
    tests/cases/run.py GALLIPOT --update   writes expected.txt anew; read the difference
    tests/cases/run.py GALLIPOT NAME...    only these cases

The name of a case begins with the code of its message, then says what is wrong: bad-date-april-31.
NAME/job.yaml is the job, with its tables beside it, NAME/expected.txt the exit code and standard error. A code of the program
that no case shows is a fault too, but for those in not_of_a_job.txt (a code a line, then why).
"""
import concurrent.futures
import difflib
import os
import pathlib
import re
import subprocess
import sys
import tempfile

HERE = pathlib.Path(__file__).parent
SRC = HERE.parents[1] / "src"


def not_of_a_job():
    lines = (HERE / "not_of_a_job.txt").read_text().splitlines()
    return {line.split()[0] for line in lines if line and not line.startswith("#")}


def codes_of_the_program():
    text = "".join(file.read_text() for file in SRC.rglob("*.cpp"))
    return set(re.findall(r'\b(?:error|warning|warn)\(\s*"([a-z][a-z0-9]*(?:-[a-z0-9]+)*)",', text))


def codes_in(said):
    return set(re.findall(r"(?:error|warning): .*\[([a-z0-9-]+)\]$", said, re.M))


def check(gallipot, case):
    """In a folder of its own, since a secret is made beside the job."""
    with tempfile.TemporaryDirectory() as folder:
        for file in case.iterdir():
            if file.name != "expected.txt":
                (pathlib.Path(folder) / file.name).write_bytes(file.read_bytes())
        ran = subprocess.run([gallipot, "check", "job.yaml"], cwd=folder, capture_output=True,
                             env={**os.environ, "LC_ALL": "C.UTF-8", "TZ": "UTC"}, check=False)
    return f"exit {ran.returncode}\n" + ran.stderr.decode()


def main():
    gallipot = pathlib.Path(sys.argv[1]).resolve()
    names = [word for word in sys.argv[2:] if not word.startswith("--")]
    cases = [HERE / name for name in names] or sorted(job.parent for job in HERE.glob("*/job.yaml"))
    with concurrent.futures.ThreadPoolExecutor() as pool:
        results = dict(zip(cases, pool.map(lambda case: check(gallipot, case), cases)))
    shown = set().union(*map(codes_in, results.values()))
    known = codes_of_the_program() | shown
    faults = 0

    def fault(text):
        nonlocal faults
        faults += 1
        print(text)

    for case, said in results.items():
        expected = case / "expected.txt"
        if "--update" in sys.argv:
            expected.write_text(said)
        wanted = expected.read_text() if expected.exists() else ""
        if said != wanted:
            fault("".join(difflib.unified_diff(wanted.splitlines(True), said.splitlines(True),
                                               f"{case.name}/expected.txt", "now")))
        code = max((code for code in known if (case.name + "-").startswith(code + "-")),
                   key=len, default="")
        if code not in codes_in(said):
            fault(f"{case.name}: nothing it says has the code that its name begins with, '{code}'")
    if not names:
        unseen = codes_of_the_program() - shown
        for code in sorted(unseen - not_of_a_job()):
            fault(f"no case shows [{code}]: add tests/cases/{code}-WHAT/job.yaml")
        for code in sorted(not_of_a_job() - unseen):
            fault(f"not_of_a_job.txt names [{code}], which a case shows or nothing gives")
    print(f"{len(cases)} cases, {len(shown)} codes, {faults} faults")
    return faults > 0


if __name__ == "__main__":
    sys.exit(main())
