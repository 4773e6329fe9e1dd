#!/usr/bin/env python3
"""No output of any command replaces what is not its own to replace, and no input is waited for.

    outputs.py PROGRAM SOURCE_FOLDER [CASES]

Every command that writes a file is given, as the name of that file, everything that lies around a
job: the job itself, its secret, its log and what lies beside that, what is read in the run, under
other names too (links of both kinds), folders, pipes, sockets, devices, and files of other kinds.
Each ends with exit code 2, and afterwards everything is, byte for byte, what it was.
"""
import contextlib
import hashlib
import os
import pathlib
import shutil
import socket
import sqlite3
import stat
import subprocess
import sys

from failing import PROGRAM, SOURCE, folder_of_its_own, run

JOB = """\
title: Hall
prepared: 2027-03-02
languages: [en]
labels: a4-3x7
help: { region: AU }
log: { address: "http://192.168.1.20:8017" }
measures: [1 tbsp, 1 tsp, { jug: 500 mL, marks: 25 mL }, { scale: 2 kg, marks: 0.01 g }]
mixes:
  syrup:
    title: Sweet bait
    against: ants
    form: liquid
    basis: percent w/w
    ingredients: { borax: 1, sugar: 20, water: rest }
containers:
  cup: { holds: 60 mL, fill: 45 mL, body: { diameter: 62 mm, height: 60 mm }, openings: 4 side holes of 6 mm }
stations:
  - { id: K1, place: Kitchen, mix: syrup, container: cup, placed: 2027-03-02 19:30 }
"""


# The same with its stations in a table.
STATIONS = "id,place,mix,container,placed\nK1,Kitchen,syrup,cup,2027-03-02 19:30\n"
WITH_TABLE = JOB[:JOB.index("stations:")] + "stations: { from: stations.csv }\n"


READ_ON = """
import sqlite3, sys
log = sqlite3.connect(sys.argv[1])
log.execute("BEGIN")
log.execute("SELECT * FROM entry").fetchall()
print(flush=True)
sys.stdin.read()
"""


class Hall:
    """A job with all that may lie around it; the log is in use, so that its -wal and -shm are there."""

    def __init__(self, folder):
        self.folder = folder
        self.job = folder / "hall.yaml"
        self.job.write_text(WITH_TABLE)
        self.stations = folder / "stations.csv"
        self.stations.write_text(STATIONS)
        self.out = folder / "out"
        self.out.mkdir()
        self.csv = folder / "visits.csv"
        self.templates = folder / "own"
        for kind in ("stocks", "labels"):
            shutil.copytree(SOURCE / "templates" / kind, self.templates / kind)
        (self.templates / "text").mkdir()
        shutil.copy(SOURCE / "templates/text/en.yaml", self.templates / "text")
        self.fonts = folder / "fonts"
        self.fonts.mkdir()
        for font in pathlib.Path("/usr/share/fonts").rglob("NotoSans-*.ttf"):
            if font.name in ("NotoSans-Regular.ttf", "NotoSans-Bold.ttf"):
                shutil.copy(font, self.fonts)
        assert len(list(self.fonts.iterdir())) == 2
        self.env = {"GALLIPOT_FONTS": str(self.fonts)}
        run("plan", self.job)  # makes the secret
        run("visit", self.job, "K1", "--seen", "9", "--at", "2027-03-02 19:30")
        self.csv.write_text(run("log", self.job, "--csv").stdout)
        self.log = folder / "hall.visits.sqlite"
        # A process of its own: closing a file gives up all locks that a process has on it.
        self.user = subprocess.Popen([sys.executable, "-c", READ_ON, self.log], stdin=subprocess.PIPE,
                                     stdout=subprocess.PIPE)
        self.user.stdout.readline()
        assert pathlib.Path(f"{self.log}-wal").exists() and pathlib.Path(f"{self.log}-shm").exists()
        self.other_log = folder / "shed.visits.sqlite"
        (folder / "shed.yaml").write_text(JOB)
        run("visit", folder / "shed.yaml", "K1", "--seen", "4")

    def close(self):
        self.user.communicate()

    def files(self):
        """What must stay as it is, and no output may be named."""
        yield self.job
        yield self.folder / "hall.secret"
        yield self.log
        yield from (pathlib.Path(f"{self.log}{end}") for end in ("-wal", "-shm", "-journal"))
        yield self.csv
        yield self.stations
        yield self.other_log
        yield self.templates / "text/en.yaml"
        yield self.templates / "stocks/a4-3x7.yaml"
        yield next((self.templates / "labels").glob("*.yaml"))
        yield self.fonts / "NotoSans-Regular.ttf"

    def strange(self):
        """Things that are no file, and files of other kinds."""
        place = self.folder / "strange"
        place.mkdir()
        (place / "folder").mkdir()
        os.mkfifo(place / "pipe")
        with contextlib.closing(socket.socket(socket.AF_UNIX)) as made:
            made.bind(str(place / "socket"))
        (place / "nowhere").symlink_to("not-there")
        (place / "loop").symlink_to("loop")
        with contextlib.suppress(PermissionError):
            os.mknod(place / "device", 0o666 | stat.S_IFCHR, os.makedev(1, 3))
        (place / "empty").touch()
        (place / "letter.txt").write_text("Dear all,\n")
        (place / "almost.pdf").write_text("%PDF")
        (place / "picture.png").write_bytes(b"\x89PNG\r\n\x1a\n" + b"\0" * 40)
        with contextlib.closing(sqlite3.connect(place / "addresses.sqlite")) as other:
            other.execute("CREATE TABLE person (name)")
            other.commit()
        yield from sorted(place.iterdir())

    def renamed(self, files):
        """The same files under other names."""
        place = self.folder / "links"
        place.mkdir()
        for number, file in enumerate(files):
            if not file.exists():
                continue
            os.link(file, place / f"hard-{number}")
            (place / f"soft-{number}").symlink_to(file)
        yield from sorted(place.iterdir())
        (self.folder / "way").symlink_to(self.folder)
        yield self.folder / "way" / "hall.yaml"
        yield self.out / ".." / "hall.secret"


def state(folder):
    """Every name below: what it is, its number, its rights and its bytes. Of a log's -shm, which
    readers write to, and of a log that is opened, only that they are the same files."""
    found = {}
    for path in sorted(folder.rglob("*")):
        info = path.lstat()
        what = [stat.S_IFMT(info.st_mode), info.st_ino, info.st_mode]
        if stat.S_ISREG(info.st_mode) and not path.name.endswith("-shm"):
            what.append(hashlib.sha256(path.read_bytes()).hexdigest())
        if path.is_symlink():
            what.append(os.readlink(path))
        found[path.relative_to(folder)] = what
    return found


def outputs(hall):
    """Every command with an output, as a function of the output's name."""
    job, own = hall.job, ["--templates", hall.templates]
    yield "report -o", lambda to: ["report", job, "-o", to, *own]
    yield "report --calendar", lambda to: ["report", job, "--calendar", to, *own]
    yield "report -o, --calendar", lambda to: ["report", job, "-o", hall.out / "x.pdf", "--calendar", to]
    yield "log --backup", lambda to: ["log", job, "--backup", to]
    yield "new", lambda to: ["new", to]
    yield "languages --po", lambda to: ["languages", "--po", "en", "-o", to]


def tried(hall, name, arguments, before):
    done = run(*arguments, expect=2, says="gallipot: ", env=hall.env)
    after = state(hall.folder)
    changed = [str(key) for key in {*before, *after} if before.get(key) != after.get(key)]
    assert not changed, (name, changed)
    return done.stderr


def table_of_attacks():
    tries = 0
    with folder_of_its_own() as folder:
        hall = Hall(folder)
        files = list(hall.files())
        targets = files + list(hall.renamed(files)) + list(hall.strange())
        no_places = [f"{folder}/out/", f"{folder}/no/such.pdf", f"{folder}/letters/../x.pdf"]
        before = state(folder)
        for name, command in outputs(hall):
            for target in targets + no_places:
                told = tried(hall, f"{name} {target}", command(target), before)
                assert os.path.basename(target) in told, told
                tries += 1
        # The papers of `render` are named by it, and lie in a folder that the user names.
        for name in ("cards-en.pdf", "visits.ics", "gallipot-unfinished.txt"):
            for target in [target for target in targets if os.path.lexists(target)]:
                place = hall.out / name
                if target.is_symlink() or stat.S_ISREG(target.lstat().st_mode):
                    os.link(target, place, follow_symlinks=False)
                else:
                    target.rename(place)
                tried(hall, f"render over {target} as {name}",
                      ["render", hall.job, "-o", hall.out, "--only", "cards,visits", "--templates",
                       hall.templates],
                      state(folder))
                if os.path.lexists(target):
                    place.unlink()
                else:
                    place.rename(target)
                tries += 1
        for target in [target for target in targets if os.path.lexists(target) and not target.is_dir()]:
            tried(hall, f"render -o {target}", ["render", hall.job, "-o", target], before)
            tries += 1
        assert state(folder) == before
        hall.close()
    return tries


def names_that_are_not_there_yet():
    """A job's secret, log and what may lie beside that keep their names free."""
    tries = 0
    with folder_of_its_own() as folder:
        job = folder / "hall.yaml"
        job.write_text(JOB.replace('log: { address: "http://192.168.1.20:8017" }\n', ""))
        before = state(folder)
        log = "hall.visits.sqlite"
        for name in ("hall.secret", log, f"{log}-wal", f"{log}-shm", f"{log}-journal"):
            for option in ("-o", "--calendar"):
                run("report", job, option, folder / name, expect=2, says="give another name")
                tries += 1
            if name != log:
                run("new", folder / name, expect=2, says="give another name")
                tries += 1
            assert state(folder) == before
        # Papers may not take such a name either, nor that of the job.
        calendar = folder / "visits.ics"
        job.rename(calendar)
        before = state(folder)
        run("render", calendar, "-o", folder, expect=2, says="it is the job")
        assert state(folder) == before
    return tries + 1


def own_kind_is_replaced():
    with folder_of_its_own() as folder:
        hall = Hall(folder)
        for _ in range(2):
            run("report", hall.job, "-o", hall.out / "report.pdf", "--calendar", hall.out / "next.ics")
            run("log", hall.job, "--backup", hall.out / "copy.sqlite")
            run("render", hall.job, "-o", hall.out)
        # The caretaker's code opens every station: for its owner alone.
        for paper in hall.out.iterdir():
            private = paper.name.startswith("caretaker")
            assert (paper.stat().st_mode & 0o077 == 0) == private, paper
        # A copy that somebody is using, or that has something left beside it, is no copy any more.
        (hall.out / "copy.sqlite-journal").write_bytes(b"left by a program that ended")
        run("log", hall.job, "--backup", hall.out / "copy.sqlite", expect=2, says="copy.sqlite-journal")
        hall.close()
    return 7


def standard_output():
    """`-` is standard output where one file is written, and an error elsewhere."""
    with folder_of_its_own() as folder:
        hall = Hall(folder)
        before = state(folder)

        def printed(*arguments):
            return subprocess.run([PROGRAM, *map(str, arguments)], cwd=folder, check=True,
                                  capture_output=True).stdout

        assert printed("report", hall.job, "-o", "-").startswith(b"%PDF-")
        assert printed("report", hall.job, "--calendar", "-").startswith(b"BEGIN:VCALENDAR")
        assert b"mixes:" in printed("new", "-")
        run("report", hall.job, "-o", "-", "--calendar", "-", cwd=folder, expect=2, says="standard output")
        run("report", hall.job, "-o", folder / "x", "--calendar", folder / "x", expect=2,
            says="two outputs")
        run("report", hall.job, "-o", "-", "--json", cwd=folder, expect=2, says="standard output")
        run("log", hall.job, "--backup", "-", cwd=folder, expect=2, says="standard output")
        run("render", hall.job, "-o", "-", cwd=folder, expect=2, says="standard output")
        two = folder / "two.yaml"
        two.write_text(JOB.replace("[en]", "[en, es]"))
        shutil.copy(folder / "hall.secret", folder / "two.secret")
        run("report", two, "-o", "-", cwd=folder, expect=2, says="--language")
        two.unlink()
        (folder / "two.secret").unlink()
        assert state(folder) == before
        hall.close()
    return 9


def secret_with_others_rights():
    """Told with its file as the place, and nothing of the secret shown."""
    tries = 0
    with folder_of_its_own() as folder:
        job = folder / "hall.yaml"
        job.write_text(JOB)
        run("plan", job)
        secret = folder / "hall.secret"
        digits = secret.read_text().split()[-1]

        def warned(command):
            told = run(command, job, cwd=folder).stderr
            assert digits[:8] not in told, told
            return f"{secret}: warning: " in told and "[secret-not-private]" in told

        assert not warned("plan")
        for mode in (0o640, 0o604, 0o660, 0o622, 0o777):
            secret.chmod(mode)
            assert warned("plan") and warned("check") and warned("render"), oct(mode)
            tries += 3
        secret.chmod(0o600)
        if os.geteuid() == 0:
            os.chown(secret, 65534, 65534)
            assert warned("check")
            tries += 1
    return tries


def inputs_that_are_no_files():
    """A pipe that nobody writes to, a device that never ends, a folder: told at once."""
    tries = 0
    makers = {
        "a pipe": os.mkfifo,
        "a folder": os.mkdir,
        "a device": lambda path: os.symlink("/dev/zero", path),
        "a socket": lambda path: socket.socket(socket.AF_UNIX).bind(str(path)),
    }
    for what, make in makers.items():
        with folder_of_its_own() as folder:
            hall = Hall(folder)
            hall.close()

            def tried_with(path, expect, *commands, what=what, make=make, hall=hall):
                kept = path.with_name("kept")
                if path.exists():
                    path.rename(kept)
                make(path)
                for command in commands:
                    run(*command, expect=expect, says=f"{path.name}.*it is {what}", env=hall.env)
                if path.is_dir():
                    path.rmdir()
                else:
                    path.unlink()
                if kept.exists():
                    kept.rename(path)
                return len(commands)

            job, log = hall.job, hall.log
            read_log = (["log", job], ["log", job, "--json"], ["report", job],
                        ["visit", job, "K1", "--seen", "3"], ["log", job, "--import", hall.csv])
            tries += tried_with(job, 2, *([name, job] for name in ("check", "plan", "render", "report",
                                                                   "serve")))
            tries += tried_with(hall.stations, 1, *([name, job] for name in ("check", "plan", "render", "report",
                                                                             "serve")))
            tries += tried_with(hall.csv, 2, ["log", job, "--import", hall.csv])
            tries += tried_with(folder / "hall.secret", 3, ["check", job], ["render", job], ["plan", job])
            tries += tried_with(log, 3, *read_log)
            for end in ("-journal", "-wal", "-shm"):
                tries += tried_with(pathlib.Path(f"{log}{end}"), 3, *read_log)
            own = ["--templates", hall.templates]
            tries += tried_with(hall.templates / "text/en.yaml", 3, ["render", job, *own],
                                ["report", job, *own])
            tries += tried_with(hall.templates / "stocks/a4-3x7.yaml", 3, ["render", job, *own])
            tries += tried_with(hall.fonts / "NotoSans-Regular.ttf", 3, ["render", job])
    return tries


def names_in_messages():
    """No file's name, however it came about, drives the terminal or turns what is read around."""
    tries = 0
    with folder_of_its_own() as folder:
        hall = Hall(folder)
        hall.close()
        bad = "x\x1b[2J\r\n\u202eyaml.\x9b1m"
        named = folder / f"{bad}.yaml"
        broken = folder / f"{bad}-broken.yaml"
        named.write_text(JOB)
        broken.write_text("title: [")
        folder_named = folder / bad
        own = folder_named / "own"
        (own / "stocks").mkdir(parents=True)
        (own / "stocks/a4-3x7.yaml").write_text("nothing: right\n")
        (folder / f"{bad}.csv").write_text("station\nK9\n")
        for arguments in (
            ["check", named], ["check", broken], ["check", folder / f"{bad}-gone.yaml"],
            ["check", folder_named], ["check", f"{named}/x"], ["plan", named], ["render", named, "-o", folder_named],
            ["render", named, "-o", named], ["render", named, "--stock", bad], ["render", named, "--only", bad],
            ["render", named, "--language", bad], ["render", named, "--templates", own],
            ["render", named, "--templates", bad], ["render", named, "--offset", bad],
            ["visit", named, "K1", "--seen", bad], ["visit", named, bad, "--seen", "3"],
            ["visit", named, "K1", "--state", bad], ["visit", named, "K1", "--at", bad],
            ["visit", named, "K1", "--seen", "3", "--note", bad], ["log", named], ["log", named, "--all"],
            ["log", named, "--import", folder / f"{bad}.csv"], ["log", named, "--import", folder_named],
            ["log", named, "--backup", folder_named / "copy"], ["log", named, "--backup", folder_named],
            ["report", named], ["report", named, "-o", folder_named / "report.pdf"],
            ["report", named, "-o", broken], ["report", named, "--as-of", bad],
            ["report", named, "--calendar", folder_named / "next.ics"],
            ["serve", named, "--listen", bad], ["new", folder_named / f"{bad}.yaml"], ["new", broken],
            ["new", folder / "none" / bad], ["explain", bad], ["substances", bad], [bad],
            ["check", named, bad], ["check", named, f"--{bad}"],
        ):
            done = subprocess.run([PROGRAM, *map(str, arguments)], capture_output=True, check=False,
                                  env={**os.environ, **hall.env}, timeout=60)
            for told in (done.stdout.decode(), done.stderr.decode()):
                strange = [c for c in told if (ord(c) < 32 and c != "\n") or 0x7F <= ord(c) < 0xA0
                           or 0x202A <= ord(c) <= 0x202E or 0x2066 <= ord(c) <= 0x2069]
                assert not strange, (arguments, strange, told)
                # What stands after a line end in a name would pass for a line of ours.
                assert not any(line.startswith("\ufffdyaml") for line in told.splitlines()), (arguments, told)
            tries += 1
    return tries


CASES = (table_of_attacks, names_that_are_not_there_yet, own_kind_is_replaced, standard_output,
         secret_with_others_rights, inputs_that_are_no_files, names_in_messages)

if __name__ == "__main__":
    for case in CASES:
        if len(sys.argv) < 4 or case.__name__ in sys.argv[3:]:
            tried_so_often = case()
            print(f"{case.__name__}: held, {tried_so_often} tries", flush=True)
