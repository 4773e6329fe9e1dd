#!/usr/bin/env python3
"""Five first uses, played as somebody would type them, and compared with tests/golden/first-uses.txt.

  first_uses.py PROGRAM [--update]     --update writes the golden anew; read it as a first-time user would
"""
import difflib
import os
import pathlib
import re
import subprocess
import sys
import tempfile

PROGRAM = pathlib.Path(sys.argv[1]).resolve()
ROOT = pathlib.Path(__file__).resolve().parents[2]
GOLDEN = ROOT / "tests" / "golden" / "first-uses.txt"
WORLD = {**os.environ, "LC_ALL": "C.UTF-8", "TZ": "UTC", "PATH": f"{PROGRAM.parent}:{os.environ['PATH']}"}
WORLD.pop("COLUMNS", None)

USES = {
    "A wrong command": ["gallipot", "gallipot chekc job.yaml", "gallipot job.yaml", "gallipot help chekc", "gallipot help check",
                        "gallipot check job.yaml --no 2027-03-20", "gallipot check"],
    "A wrong file": ["gallipot new job.yaml", "gallipot check jop.yaml", "gallipot check .", "gallipot new job.yaml",
                     "gallipot render job.yaml --only labels", "gallipot check papers/labels.pdf", "gallipot render job.yaml -o job.yaml"],
    "Three errors": ["gallipot new job.yaml >/dev/null",
                     "sed -i 's/count: 3 /count: 0 /; s/id: D1/id: D 1/; s/    fill: 60 mL/    fil: 60 mL/' job.yaml",
                     "gallipot check job.yaml", "gallipot explain out-of-bounds", "gallipot explain fill",
                     "sed -i 's/count: 0 /count: 3 /; s/id: D 1/id: D-1/; s/    fil: 60 mL/    fill: 60 mL/' job.yaml",
                     "gallipot check job.yaml >/dev/null && echo good"],
    "The first paper": ["gallipot new job.yaml", "gallipot check job.yaml", "gallipot plan job.yaml | head -8",
                        "gallipot render job.yaml", "gallipot render job.yaml --only labels --show text | head -20",
                        "gallipot render job.yaml --only labels --stock a4-4x10"],
    "The first visit": ["gallipot new job.yaml >/dev/null", "gallipot visit job.yaml K2 --seen 3",
                        "gallipot visit job.yaml K1 --seen many --by Kim",
                        "gallipot visit job.yaml K1 --seen 26 --by Kim --at '2027-03-02 17:00'",
                        "gallipot visit job.yaml K1 --seen 9 --level half --state clogged --did cleared --by Kim --at '2027-03-09 17:00'",
                        "gallipot log job.yaml", "gallipot report job.yaml --as-of 2027-03-09",
                        "gallipot serve job.yaml --listen nowhere.invalid:8017", "ls"],
}


def play(commands, folder):
    text = ""
    for command in commands:
        done = subprocess.run(command, shell=True, executable="/bin/bash", cwd=folder, env=WORLD, text=True, timeout=120,
                              stdout=subprocess.PIPE, stderr=subprocess.STDOUT, check=False)
        said = done.stdout.replace(str(ROOT), "SOURCE")
        # Whether a day of the example has come yet depends on today.
        said = "".join(line.rstrip() + "\n" for line in said.splitlines() if "is still to come" not in line)
        text += f"$ {command}\n{said}"
        if done.returncode:
            text += f"[exit {done.returncode}]\n"
    return text


def main():
    text = ""
    for number, (title, commands) in enumerate(USES.items(), 1):
        with tempfile.TemporaryDirectory() as folder:
            text += f"{'' if number == 1 else chr(10)}=== {number}. {title}\n\n{play(commands, folder)}"
    if "--update" in sys.argv:
        GOLDEN.write_text(text)
    wanted = GOLDEN.read_text() if GOLDEN.exists() else ""
    print("".join(difflib.unified_diff(wanted.splitlines(True), text.splitlines(True), "first-uses.txt", "now")))
    print(f"{len(text.split())} words")
    # Nobody is left alone: whatever fails says what to do, and nothing is our own fault.
    alone = re.search(r"fault of ours|Aborted|terminate called", text)
    return text != wanted or alone is not None


if __name__ == "__main__":
    sys.exit(main())
