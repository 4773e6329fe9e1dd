#!/usr/bin/env python3
"""Every call to the file system fails once, one after the other, while a command works.

    faults.py PROGRAM SOURCE_FOLDER SHIM [all]

For each command the calls are counted first; then it runs again for each of them, and that call
fails: the disk is full (ENOSPC, and stays so), it breaks (EIO, once and from then on), a signal
comes in between (EINTR), or half is written. After each run: exit 0, and all is new; or exit 3 with
a word, and old files are as they were, new ones whole, nothing unfinished is left. Without "all"
only the full disk is tried.
"""
import errno
import os
import pathlib
import shutil
import sqlite3
import subprocess
import sys

sys.path.insert(0, str(pathlib.Path(__file__).resolve().parent.parent / "cli"))
from failing import PROGRAM, SOURCE, contents, folder_of_its_own

SHIM = pathlib.Path(sys.argv[3]).resolve()
NOTE = "gallipot-unfinished.txt"
ONCE, FROM_THEN_ON, HALF = 0, 1, -1
FAULTS = [(errno.ENOSPC, FROM_THEN_ON)]
if "all" in sys.argv[4:]:
    FAULTS += [(errno.EIO, ONCE), (errno.EIO, FROM_THEN_ON), (errno.EINTR, ONCE), (HALF, ONCE), (HALF, FROM_THEN_ON),
               (errno.EDQUOT, ONCE), (errno.EROFS, FROM_THEN_ON), (errno.EACCES, ONCE)]


class Run:
    """What one run of the program did."""

    def __init__(self, folder, arguments, at=0, error=0, lasts=ONCE):
        report = folder.parent / "calls"
        report.unlink(missing_ok=True)
        env = {**os.environ, "LD_PRELOAD": str(SHIM), "FAULT_UNDER": str(folder), "FAULT_AT": str(at),
               "FAULT_ERROR": str(error), "FAULT_LASTS": str(lasts), "FAULT_REPORT": str(report),
               "GALLIPOT_THREADS": "1"}
        done = subprocess.run([PROGRAM, *map(str, arguments)], env=env, capture_output=True, check=False,
                              text=True, timeout=120)
        self.code, self.told = done.returncode, done.stdout + done.stderr
        calls, self.failed = report.read_text().split()
        self.calls = int(calls)


class Case:
    """A command in a folder that is put in the same state before each run."""

    def __init__(self, name, arguments, prepare, check):
        self.name, self.arguments, self.prepare, self.check = name, arguments, prepare, check

    def try_all(self, home):
        folder = home / "case"
        states = 0
        failed = {}

        def once(**fault):
            shutil.rmtree(folder, ignore_errors=True)
            shutil.copytree(self.prepare, folder)
            done = Run(folder, self.arguments(folder), **fault)
            assert done.code in (0, 3), (self.name, fault, done.code, done.told)
            assert done.code == 0 or "gallipot: " in done.told, (self.name, fault, done.told)
            assert "fault of ours" not in done.told, (self.name, fault, done.told)
            left = [path.name for path in folder.rglob(".gallipot-*")]
            # Only where taking it away was what failed.
            assert not left or done.failed == "unlink", (self.name, fault, done.failed, left)
            try:
                self.check(folder, done)
            except AssertionError as wrong:
                raise AssertionError(self.name, fault, done.failed, done.code, done.told) from wrong
            return done

        calls = once().calls
        assert calls > 3, (self.name, calls)
        for error, lasts in FAULTS:
            for at in range(1, calls + 1):
                done = once(at=at, error=error, lasts=lasts)
                assert done.failed != "-" or done.calls < at, (self.name, at, done.calls)
                failed[done.failed] = failed.get(done.failed, 0) + 1
                states += 1
        told = ", ".join(f"{number} {what}" for what, number in sorted(failed.items()))
        print(f"{self.name}: {calls} calls, {states} runs with one failing ({told})", flush=True)
        return states


def plain(*arguments):
    subprocess.run([PROGRAM, *map(str, arguments)], check=True, capture_output=True)


def old_or_new(old, new):
    """All files old or all new; or some of each, each whole, and it is said."""
    def check(folder, done):
        found = contents(folder / "out")
        for name in [name for name in found if name.startswith(".gallipot-")]:
            found.pop(name)
        note = found.pop(NOTE, None)
        if done.code == 0:
            assert found == new, "exit 0, but not all is new"
            assert note is None or done.failed == "unlink", "the note stays"
        elif found not in (old, new):
            assert all(found.get(name) in (old.get(name), new[name]) for name in new), "half a file"
            assert found.keys() <= old.keys() | new.keys(), "something is left"
            assert note is not None or len(new) == 1, "old and new without a note"
            assert "are new: run it again" in done.told, "it is not said"
    return check


def of_papers(home, example, arguments, name):
    """Over old papers, and into a folder where there are none."""
    text = (SOURCE / f"examples/{example}.yaml").read_text()

    def made(kind, job_text):
        folder = home / f"{name}-{kind}"
        folder.mkdir()
        (folder / "job.yaml").write_text(text)
        plain("plan", folder / "job.yaml")  # makes the secret
        plain("visit", folder / "job.yaml", "K1", "--seen", "4", "--at", "2027-03-02 19:30")
        (folder / "job.yaml").write_text(job_text)
        (folder / "out").mkdir()
        plain(*arguments(folder))
        return folder

    before = made("old", text.replace("Weir Street Hall", "Old Street Hall", 1))
    after = made("new", text)
    shutil.copy(after / "job.yaml", before / "job.yaml")
    shutil.copy(before / "job.secret", after / "job.secret")
    plain(*arguments(after))
    old, new = contents(before / "out"), contents(after / "out")
    assert old != new and old.keys() == new.keys()
    empty = home / f"{name}-none"
    shutil.copytree(before, empty, ignore=shutil.ignore_patterns("*.pdf", "*.ics"))
    return [Case(f"{name} over old papers", arguments, before, old_or_new(old, new)),
            Case(f"{name} for the first time", arguments, empty, old_or_new({}, new))]


def of_new(home):
    folder = home / "new"
    (folder / "out").mkdir(parents=True)
    plain("new", folder / "out/job.yaml")
    whole = contents(folder / "out")
    (folder / "out/job.yaml").unlink()
    return [Case("new", lambda there: ["new", there / "out/job.yaml"], folder, old_or_new({}, whole))]


def of_secret(home):
    """The first run of a job makes its secret."""
    folder = home / "secret"
    folder.mkdir()
    shutil.copy(SOURCE / "examples/hall.yaml", folder / "hall.yaml")

    def check(there, done):
        secret = there / "hall.secret"
        assert done.code == 3 or secret.exists()
        if secret.exists():
            plain("render", there / "hall.yaml", "-o", there / "papers", "--only", "visits")
        assert {path.name for path in there.iterdir()} <= {"hall.yaml", "hall.secret", "papers"}

    return [Case("a first run", lambda there: ["render", there / "hall.yaml", "-o", there / "papers",
                                               "--only", "visits"], folder, check)]


def entries(log):
    """Read from a copy, so that reading changes nothing of the case."""
    with folder_of_its_own() as folder:
        for path in log.parent.glob(f"{log.name}*"):
            shutil.copy(path, folder)
        database = sqlite3.connect(folder / log.name)
        assert database.execute("PRAGMA integrity_check").fetchone() == ("ok",)
        rows = database.execute("SELECT * FROM entry ORDER BY number").fetchall()
        database.close()
        return rows


def of_backup(home):
    folder = home / "backup"
    (folder / "out").mkdir(parents=True)
    shutil.copy(SOURCE / "examples/hall.yaml", folder / "hall.yaml")
    for seen in range(3):
        plain("visit", folder / "hall.yaml", "K1", "--seen", seen, "--at", f"2027-03-0{seen + 3} 10:00")
        if seen == 1:
            plain("log", folder / "hall.yaml", "--backup", folder / "out/copy.sqlite")
    log = folder / "hall.visits.sqlite"
    kept, old = entries(log), entries(folder / "out/copy.sqlite")
    old_bytes = contents(folder / "out")["copy.sqlite"]
    assert len(kept) == len(old) + 1

    def check(there, done):
        assert entries(there / log.name) == kept, "the log is not what it was"
        copy = there / "out/copy.sqlite"
        if contents(there / "out")["copy.sqlite"] != old_bytes:
            assert entries(copy) == kept, "the copy is neither the old one nor whole"
        else:
            assert done.code == 3, "exit 0, but no new copy"
        left = [path.name for path in (there / "out").iterdir()
                if path != copy and not path.name.startswith(".gallipot-")]
        assert left == [], left

    return [Case("log --backup", lambda there: ["log", there / "hall.yaml", "--backup",
                                                there / "out/copy.sqlite"], folder, check)]


def of_job(home):
    cases = of_papers(home, "hall", lambda there: ["render", there / "job.yaml", "-o", there / "out",
                                                   "--only", "cards,visits,caretaker", "--language",
                                                   "en"], "render")
    cases += of_papers(home, "hall", lambda there: ["report", there / "job.yaml", "-o",
                                                    there / "out/report.pdf", "--calendar",
                                                    there / "out/next.ics", "--as-of", "2027-03-10",
                                                    "--language", "en"],
                       "report -o")
    return cases


if __name__ == "__main__":
    states = 0
    with folder_of_its_own() as home_folder:
        for case in of_job(home_folder) + of_new(home_folder) + of_secret(home_folder) + of_backup(home_folder):
            states += case.try_all(home_folder)
    print(f"{states} states checked")
