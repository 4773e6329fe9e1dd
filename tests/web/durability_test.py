#!/usr/bin/env python3
"""What was confirmed is kept: through SIGKILL, SIGTERM, a full disk and a disk that is read-only.

    durability_test.py PROGRAM SOURCE_FOLDER [ROUNDS OF KILLING, 20 when left out]
"""
import collections
import contextlib
import http.client
import os
import pathlib
import random
import re
import signal
import sqlite3
import subprocess
import sys
import tempfile
import threading
import time

from served import Served

CLIENTS = 8
PROGRAM, SOURCE = sys.argv[1:3]
ROUNDS = int(sys.argv[3]) if len(sys.argv) > 3 else 20


def client(served, number, station, stop, confirmed):
    """Sends one form after another; what was not confirmed is sent again, as a person would."""
    count = 0
    while not stop.is_set():
        token = f"{number}-{count}"
        try:
            status, _ = served.post(
                station, {"token": token, "seen": count % 50, "note": token}, timeout=5
            )
        except (OSError, http.client.HTTPException):  # killed before or amid its answer
            time.sleep(0.01)
            continue
        if status == 303:
            confirmed.append(token)
            count += 1
        else:  # too many at once; it is not lost, it comes again
            assert status == 429, status
            time.sleep(0.05)


def killed_at_random():
    chance = random.Random(20270318)
    with Served(PROGRAM, SOURCE) as served:
        stop = threading.Event()
        confirmed = [[] for _ in range(CLIENTS)]
        stations = list(served.paths)
        threads = [
            threading.Thread(
                target=client,
                args=(served, i, stations[i % len(stations)], stop, confirmed[i]),
                daemon=True,
            )
            for i in range(CLIENTS)
        ]
        for thread in threads:
            thread.start()
        for _ in range(ROUNDS):
            time.sleep(chance.uniform(0.05, 0.6))
            served.kill()
            served.start()
        backed_up(served, confirmed)
        stop.set()
        for thread in threads:
            thread.join()
        code = served.kill(signal.SIGTERM)
        assert code == 0, f"SIGTERM ended it with {code}"
        kept = collections.Counter(visit["note"] for visit in served.visits())
        all_confirmed = [token for tokens in confirmed for token in tokens]
        assert len(all_confirmed) > ROUNDS, "too little happened to show anything"
        lost = [token for token in all_confirmed if kept[token] == 0]
        twice = [token for token, times in kept.items() if times > 1]
        assert not lost, f"confirmed and lost: {lost}"
        assert not twice, f"recorded twice: {twice}"
        print(f"{ROUNDS} kills, {len(all_confirmed)} confirmed visits, none lost, none twice")


def backed_up(served, confirmed):
    """A copy made while visits come in is whole: all that was confirmed before, and sound."""
    before = [token for tokens in confirmed for token in list(tokens)]
    copy = served.folder / "copy.sqlite"
    served.run("log", served.job, "--backup", copy)
    with contextlib.closing(sqlite3.connect(copy)) as database:
        assert database.execute("PRAGMA integrity_check").fetchone() == ("ok",)
        there = {note for (note,) in database.execute("SELECT note FROM entry")}
    missing = set(before) - there
    assert not missing, f"not in the backup: {missing}"


class Mounted:
    """A file system of its own, so small that it can be filled."""

    def __init__(self, size):
        self.folder = tempfile.mkdtemp(prefix="gallipot-")
        self.made = (
            subprocess.run(
                ["mount", "-t", "tmpfs", "-o", f"size={size}", "tmpfs", self.folder],
                capture_output=True, check=False,
            ).returncode
            == 0
        )

    def __enter__(self):
        return pathlib.Path(self.folder)

    def __exit__(self, *unused):
        if self.made:
            subprocess.run(["umount", "-l", self.folder], check=False)
        pathlib.Path(self.folder).rmdir()

    def read_only(self, yes):
        subprocess.run(
            ["mount", "-o", "remount," + ("ro" if yes else "rw"), self.folder], check=True
        )


def full_disk():
    mounted = Mounted("1m")
    with mounted as folder:
        if not mounted.made:
            print("full disk: SKIPPED, this machine does not let us mount one")
            return False
        with Served(PROGRAM, SOURCE, folder) as served:
            assert served.post("K1", {"token": "a", "seen": 9, "note": "before"})[0] == 303
            filler = folder / "filler"
            with open(filler, "wb", buffering=0) as file:
                try:
                    while True:
                        file.write(b"\0" * 4096)
                except OSError:
                    pass
            refused = 0
            confirmed = ["before"]
            for i in range(40):
                form = {"token": f"full-{i}", "seen": 9, "note": f"full {i} " + "x" * 900}
                status, page = served.post("K1", form)
                if status == 303:  # there was a little room left
                    confirmed.append(form["note"])
                    continue
                assert status == 503, status
                assert "Not saved." in page and form["note"] in page, "what was typed is not there"
                assert re.search(f'name="token" value="full-{i}"', page)
                refused += 1
                last = form
            assert refused > 0, "the disk never was full"
            # The command line says so too, with exit code 3.
            told = served.run("visit", served.job, "K2", "--seen", "1", expect=3).stderr
            assert "the disk is full" in told, told
            assert "the disk is full" in served.stderr()
            filler.unlink()
            assert served.post("K1", last)[0] == 303
            confirmed.append(last["note"])
            kept = collections.Counter(visit["note"] for visit in served.visits())
            assert kept == collections.Counter(confirmed), (kept, confirmed)
            served.kill(signal.SIGTERM)
        print(f"full disk: {refused} forms brought back with a clear word, nothing lost")
        return True


def read_only_disk():
    mounted = Mounted("4m")
    with mounted as folder:
        if not mounted.made:
            print("read-only disk: SKIPPED, this machine does not let us mount one")
            return False
        with Served(PROGRAM, SOURCE, folder) as served:
            assert served.post("K1", {"token": "a", "seen": 9})[0] == 303
            served.kill(signal.SIGTERM)
            served.told.flush()
            served.told.close()
            mounted.read_only(True)
            for arguments in (
                ["serve", served.job, "--listen", "127.0.0.1:0"],
                ["visit", served.job, "K1", "--seen", "1"],
            ):
                told = served.run(*arguments, expect=3).stderr
                assert "hall.visits.sqlite" in told and "may be written to" in told, told
            # To be read and copied it need not be written to.
            assert [visit["seen"] for visit in served.visits()] == [9]
            with tempfile.TemporaryDirectory() as elsewhere:
                copy = pathlib.Path(elsewhere) / "copy.sqlite"
                served.run("log", served.job, "--backup", copy)
                with contextlib.closing(sqlite3.connect(copy)) as database:
                    assert database.execute("SELECT seen FROM entry").fetchall() == [(9,)]
            served.run("report", served.job)
            mounted.read_only(False)
            assert [visit["seen"] for visit in served.visits()] == [9]
        print("read-only disk: a clear word, nothing lost")
        return True


def read_only_file():
    """The log may be read and not written: while serving, and from the command line."""
    with Served(PROGRAM, SOURCE) as served:
        assert served.post("K1", {"token": "a", "seen": 9})[0] == 303
        served.kill(signal.SIGTERM)
        log = served.folder / "hall.visits.sqlite"
        log.chmod(0o444)
        served.folder.chmod(0o555)
        # The superuser may write anything: as nobody, then.
        user = {"user": 65534} if os.geteuid() == 0 else {}
        (served.folder / "hall.secret").chmod(0o444)
        for arguments in (["serve", served.job, "--listen", "127.0.0.1:0"],
                          ["visit", served.job, "K1", "--seen", "1"]):
            done = subprocess.run([PROGRAM, *map(str, arguments)], capture_output=True, text=True,
                                  check=False, timeout=60, **user)
            assert done.returncode == 3, (done.returncode, done.stderr)
            assert "hall.visits.sqlite" in done.stderr and "written to" in done.stderr, done.stderr
        served.folder.chmod(0o755)
        log.chmod(0o644)
        assert [visit["seen"] for visit in served.visits()] == [9]
    print("read-only log: a clear word, nothing lost")


def taken_away():
    """The log and the secret are deleted, replaced and overwritten under the running server."""
    with Served(PROGRAM, SOURCE) as served:
        log = served.folder / "hall.visits.sqlite"
        form = {"token": "lost", "seen": 23, "note": "beside the bin"}
        assert served.post("K1", {"token": "a", "seen": 9, "note": "first"})[0] == 303
        good = log.read_bytes()

        def refused(what):
            status, page = served.post("K1", form)
            assert status == 503, (what, status)
            assert "Not saved." in page and "beside the bin" in page, (what, page)

        def write_over(content):  # the same file, as `cp` and `dd` do it
            with open(log, "r+b") as file:
                file.write(content)

        log.unlink()
        refused("deleted")
        assert not log.exists()
        log.write_bytes(good)
        away = log.rename(served.folder / "away")
        refused("renamed")
        away.rename(log)
        write_over(os.urandom(len(good)))
        refused("overwritten")
        write_over(good)
        assert served.post("K1", form)[0] == 303
        assert [visit["note"] for visit in served.visits()] == ["first", "beside the bin"]
        assert "is gone from its place" in served.stderr()

        # A new secret: the old code opens nothing within a second or two.
        (served.folder / "hall.secret").unlink()
        served.run("render", served.job, "--only", "labels", "-o", served.folder / "papers")
        time.sleep(1.1)
        assert served.post("K1", {"token": "b", "seen": 1})[0] == 404
        assert "has been replaced" in served.stderr()
    print("taken away: nothing confirmed that is not kept, and it goes on when all is well")


if __name__ == "__main__":
    taken_away()
    killed_at_random()
    read_only_file()
    full_disk()
    read_only_disk()
