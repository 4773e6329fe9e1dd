#!/usr/bin/env python3
"""Runs what a page shows, and compares what it prints with what the page says that it prints.

    tests/docs/console.py PROGRAM PAGE            compares
    tests/docs/console.py PROGRAM PAGE --update   writes into the page what is printed; read the difference
    tests/docs/console.py PROGRAM PAGE --keep DIR   runs it in that empty folder, which stays: for pictures of the papers

A ```console block holds commands behind "$ " and what each prints, standard error last. They run in order, in one empty folder
with examples/ beside it, as a reader would type them. A line that is ... stands for any lines; `[exit N]` behind the output is
an exit code that is not 0. A block that follows <!-- file: NAME --> is written to that file first, one
that follows <!-- append: NAME --> to its end. A ```sh block runs too, where its lines
begin with gallipot; what it prints is not compared. `serve` is ended once it says where it is.
"""
import contextlib
import difflib
import os
import pathlib
import re
import shutil
import signal
import subprocess
import sys
import tempfile

PROGRAM = pathlib.Path(sys.argv[1]).resolve()
PAGE = pathlib.Path(sys.argv[2]).resolve()
UPDATE = "--update" in sys.argv
KEEP = sys.argv[sys.argv.index("--keep") + 1] if "--keep" in sys.argv else None
ROOT = pathlib.Path(__file__).resolve().parents[2]
BLOCK = re.compile(r"(?:<!-- (file|append): (\S+) -->\n)?^```(\w+)\n(.*?)^```$", re.S | re.M)
WORLD = {**os.environ, "LC_ALL": "C.UTF-8", "TZ": "UTC", "PATH": f"{PROGRAM.parent}:{os.environ['PATH']}"}
WORLD.pop("COLUMNS", None)


def serve(command, folder):
    """Until it has said where it is; then ended as by Ctrl-C."""
    command = re.sub(r"--listen \S+", "--listen 127.0.0.1:0", command)
    server = subprocess.Popen("exec " + command, shell=True, cwd=folder, env=WORLD, text=True,
                              stdout=subprocess.PIPE, stderr=subprocess.STDOUT)
    said = server.stdout.readline()
    server.send_signal(signal.SIGINT)
    rest, _ = server.communicate(timeout=30)
    return said + rest, server.returncode


def run(command, folder):
    if command.startswith("gallipot serve"):
        return serve(command, folder)
    done = subprocess.run(command, shell=True, executable="/bin/bash", cwd=folder, env=WORLD, text=True, timeout=300,
                          stdout=subprocess.PIPE, stderr=subprocess.PIPE, check=False)
    said = done.stdout + done.stderr
    return said, done.returncode


def fits(shown, said):
    """Whether what is shown is what was said, a line ... standing for any lines."""
    pattern = "".join(r"(?:.*\n)*" if line.strip() == "..." else re.escape(line) + "\n" for line in shown)
    return re.fullmatch(pattern, said) is not None


def split(block):
    """The commands of a console block, each with the lines that it prints."""
    commands = []
    for line in block.splitlines():
        if line.startswith("$ "):
            commands.append((line[2:], []))
        elif commands:
            commands[-1][1].append(line.rstrip())
    return commands


def main():
    text = PAGE.read_text()
    faults, ran, pieces, at = [], 0, [], 0
    with contextlib.nullcontext(KEEP) if KEEP else tempfile.TemporaryDirectory() as folder:
        shutil.copytree(ROOT / "examples", pathlib.Path(folder) / "examples", dirs_exist_ok=True, ignore=shutil.ignore_patterns("pictures"))
        for block in BLOCK.finditer(text):
            how, name, kind, body = block.groups()
            if name:
                with open(pathlib.Path(folder) / name, "w" if how == "file" else "a", encoding="utf-8") as file:
                    file.write(body)
            if kind == "sh":
                for line in body.splitlines():
                    if line.startswith("gallipot "):
                        said, code = run(line, folder)
                        ran += 1
                        if code:
                            faults.append(f"$ {line}\n{said}[exit {code}]")
            if kind != "console":
                continue
            new = ""
            for command, shown in split(body):
                said, code = run(command, folder)
                ran += 1
                # Whether a day of the examples has come yet depends on the reader's clock.
                said = "".join(line.rstrip() + "\n" for line in said.splitlines()
                               if "is still to come" not in line)
                if code:
                    said += f"[exit {code}]\n"
                good = fits(shown, said)
                if not good and not UPDATE:
                    faults.append(f"$ {command}\n" + "".join(difflib.unified_diff(
                        [line + "\n" for line in shown], said.splitlines(True), PAGE.name, "printed")))
                new += f"$ {command}\n" + ("".join(line + "\n" for line in shown) if good else said)
            pieces += [text[at:block.start(4)], new]
            at = block.end(4)
    if UPDATE:
        PAGE.write_text("".join(pieces) + text[at:])
    print(f"{PAGE.name}: {ran} commands run, {len(faults)} faults")
    print("\n".join(faults))
    return bool(faults) or ran == 0


if __name__ == "__main__":
    sys.exit(main())
