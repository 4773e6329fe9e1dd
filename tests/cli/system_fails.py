#!/usr/bin/env python3
"""The system fails while the real program works: disks full and read-only, folders that vanish,
fonts that are missing or broken, signals, closed outputs, too little memory.

    system_fails.py PROGRAM SOURCE_FOLDER [ROUNDS OF EACH SIGNAL, 40 when left out [CASES]]

Of each: old papers are as they were or the new ones whole and all of them, nothing else is left
behind, exit 3 with a word that helps, or the end by that signal. Ends with 77 when file systems
cannot be mounted here (not root); all the rest has been tried then.
"""
import contextlib
import os
import pathlib
import random
import re
import resource
import shutil
import signal
import subprocess
import sys
import time

from failing import PROGRAM, SOURCE, Papers, contents, folder_of_its_own, run, tmpfs

ROUNDS = int(sys.argv[3]) if len(sys.argv) > 3 else 40
NOTE = "gallipot-unfinished.txt"
AS_NOBODY = {"user": 65534} if os.geteuid() == 0 else {}  # the superuser may write anything


def disk_full():
    with tmpfs("size=12m") as disk:
        if disk is None:
            return False
        out = disk / "papers"
        PAPERS.put_old(out)
        # From no room at all to enough: at each step all are old or all are new.
        seen = []
        need = sum(path.stat().st_size for path in (PAPERS.folder / "new").iterdir())
        for part in (0, 0.1, 0.4, 0.7, 0.9, 1.0, 1.1, 1.5):
            PAPERS.put_old(out)
            filler = disk / "filler"
            filler.touch()
            room = os.statvfs(disk).f_bavail * 4096 - int(need * part)
            with open(filler, "wb") as file:
                file.write(b"\0" * max(room, 0))
            full = part < 0.95
            if part in (1.0, 1.1):  # whether this is enough is the blocks' matter
                done = subprocess.run(PAPERS.command(out), capture_output=True, check=False)
                assert done.returncode in (0, 3), done
            else:
                PAPERS.render(out, expect=3 if full else 0,
                              says=r"cannot write '.*'.*free some space" if full else "")
                assert PAPERS.is_old_or_new(out) == ("old" if full else "new")
            seen.append(PAPERS.is_old_or_new(out))
            filler.unlink()
        assert {"old", "new"} == set(seen)
        # A job whose secret has no room: no papers with codes that no later run knows.
        job = disk / "hall.yaml"
        job.write_text((SOURCE / "examples/hall.yaml").read_text())
        with open(disk / "filler", "wb", buffering=0) as file, contextlib.suppress(OSError):
            while True:
                file.write(b"\0" * 65536)
        run("render", job, "-o", disk / "none", expect=3, says=r"hall\.secret'.*free some space")
        run("visit", job, "K1", "--seen", "3", expect=3, says="hall.visits.sqlite.*the disk is full")
        run("new", disk / "job.yaml", expect=3, says="free some space")
        assert not (disk / "none").exists() and not (disk / "job.yaml").exists()
        assert not (disk / "hall.secret").exists()
    with tmpfs("size=12m,nr_inodes=24") as disk:  # room, but for no more files
        out = disk / "papers"
        PAPERS.put_old(out)
        fill = 0
        with contextlib.suppress(OSError):
            while True:
                (disk / f"filler-{fill}").touch()
                fill += 1
        PAPERS.render(out, expect=3, says="free some space")
        assert PAPERS.is_old_or_new(out) == "old"
    return True


READ_ON = """
import sqlite3, sys, time
log = sqlite3.connect(sys.argv[1])
log.execute("BEGIN")
log.execute("SELECT * FROM entry").fetchall()
print(flush=True)
time.sleep(600)
"""


def leave_in_wal(job):
    """A visit that is not yet in the log itself, but beside it, where a killed program left it."""
    log = job.with_suffix(".visits.sqlite")
    reader = subprocess.Popen([sys.executable, "-c", READ_ON, log], stdout=subprocess.PIPE)
    reader.stdout.readline()
    run("visit", job, "K1", "--seen", "7", "--note", "beside the log")
    reader.kill()
    reader.wait()
    assert pathlib.Path(f"{log}-wal").stat().st_size > 0


def can_be_read(job, **who):
    """A log that cannot be written to can be read and copied, all of it."""
    for command in (["log", job], ["log", job, "--json"], ["log", job, "--csv"], ["report", job]):
        told = run(*command, **who).stdout
        assert command[0] == "report" or "beside the log" in told, told
    with folder_of_its_own() as elsewhere:
        elsewhere.chmod(0o777)
        run("log", job, "--backup", elsewhere / "copy.sqlite", **who)
        (elsewhere / "hall.yaml").write_text(job.read_text())
        (elsewhere / "copy.sqlite").rename(elsewhere / "hall.visits.sqlite")
        assert "beside the log" in run("log", elsewhere / "hall.yaml").stdout


def disk_read_only():
    with tmpfs("size=12m") as disk:
        if disk is None:
            return False
        job = disk / "hall.yaml"
        job.write_text((SOURCE / "examples/hall.yaml").read_text())
        run("render", job, "-o", disk / "papers", "--only", "cards,household")
        run("visit", job, "K1", "--seen", "3")
        before = contents(disk / "papers")
        leave_in_wal(job)
        subprocess.run(["mount", "-o", "remount,ro", disk], check=True)
        may_be_written = "disk that may be written to"
        run("render", job, "-o", disk / "papers", expect=3, says=may_be_written)
        run("render", job, "-o", disk / "more", expect=3, says=may_be_written)
        run("new", disk / "job.yaml", expect=3, says=may_be_written)
        run("visit", job, "K1", "--seen", "4", expect=3, says="hall.visits.sqlite.*written to")
        can_be_read(job)
        run("check", job)
        run("plan", job)
        with folder_of_its_own() as elsewhere:
            run("render", job, "-o", elsewhere / "papers")
        assert contents(disk / "papers") == before
    return True


def folder_read_only():
    with folder_of_its_own() as folder:
        folder.chmod(0o755)
        job = folder / "hall.yaml"
        job.write_text((SOURCE / "examples/hall.yaml").read_text())
        run("render", job, "-o", folder / "papers", "--only", "cards,household")
        run("visit", job, "K1", "--seen", "3")
        (folder / "hall.secret").chmod(0o644)
        before = contents(folder / "papers")
        leave_in_wal(job)
        for path in (folder, folder / "papers"):
            path.chmod(0o555)
        rights = "choose a folder you may write to, or change its rights"
        run("render", job, "-o", folder / "papers", expect=3, says=rights, **AS_NOBODY)
        run("render", job, "-o", folder / "more", expect=3, says=rights, **AS_NOBODY)
        run("new", folder / "job.yaml", expect=3, says=rights, **AS_NOBODY)
        run("visit", job, "K1", "--seen", "4", expect=3, says="hall.visits.sqlite.*written to",
            **AS_NOBODY)
        can_be_read(job, **AS_NOBODY)
        # A secret that may not be read is told, and no other put in its place.
        (folder / "hall.secret").chmod(0o000)
        run("render", job, "-o", "/tmp", expect=3, says=r"cannot read '.*hall\.secret'", **AS_NOBODY)
        folder.chmod(0o755)
        assert contents(folder / "papers") == before
        # Something is in the way.
        (folder / "file").write_text("mine")
        run("render", job, "-o", folder / "file", expect=2, says="a file is in the way")
        (folder / "papers").chmod(0o755)
        (folder / "papers/visits-en.pdf").mkdir()
        run("render", job, "-o", folder / "papers", expect=2, says="visits-en.pdf.*name of a file")
        (folder / "papers/visits-en.pdf").rmdir()
        assert contents(folder / "papers") == before and (folder / "file").read_text() == "mine"


def folder_vanishes():
    """Somebody takes the folder away, again and again, while the papers are made."""
    with folder_of_its_own() as folder:
        out = folder / "papers"
        failed = 0
        for _ in range(6):
            process = subprocess.Popen(PAPERS.command(out), stdout=subprocess.PIPE,
                                       stderr=subprocess.PIPE, text=True)
            while process.poll() is None:
                shutil.rmtree(out, ignore_errors=True)
            told = process.communicate()[1]
            assert process.returncode in (0, 3), (process.returncode, told)
            if process.returncode == 3:
                failed += 1
                assert "check the name and the folder" in told, told
        assert failed > 0, "it never noticed"
        PAPERS.render(out)
        assert PAPERS.is_old_or_new(out) == "new"


def fonts_missing():
    with folder_of_its_own() as folder:
        (folder / "bin").mkdir()
        program = folder / "bin/gallipot"
        shutil.copy(PROGRAM, program)
        run("check", PAPERS.job, program=program, expect=3, says="templates and fonts.*install")
        share = folder / "share/gallipot"
        (share / "fonts").mkdir(parents=True)
        (share / "templates").symlink_to(SOURCE / "templates")
        text = (SOURCE / "fonts/fonts.yaml").read_text()
        (share / "fonts/fonts.yaml").write_text(text.replace("/usr", str(folder)))
        says = "NotoSans-Regular.ttf is in none of these folders.*install the package"
        PAPERS.render(folder / "papers", program=program, expect=3, says=says)
        run("check", PAPERS.job, program=program, expect=3, says=says)
        assert not (folder / "papers").exists()


def fonts_broken():
    with folder_of_its_own() as folder:
        folders = re.findall(r"- (/\S+)", (SOURCE / "fonts/fonts.yaml").read_text())
        good = next(path for name in folders for path in pathlib.Path(name).glob("NotoSans-Regular.ttf"))
        font = folder / good.name
        out = folder / "papers"
        PAPERS.put_old(out)
        whole = good.read_bytes()
        chance = random.Random(9)
        cut = [whole[: int(len(whole) * part / 16)] for part in range(16)] + [whole[:-7], whole[:-40]]
        garbage = [chance.randbytes(200_000), b"\0" * 100_000, b"%PDF-1.4 no font\n" * 50]
        # Overwritten in the middle, as by a disk that failed.
        holes = []
        for size in (1, 16, 512, 4096, 65536):
            for _ in range(6):
                at = chance.randrange(0, len(whole) - size)
                holes.append(whole[:at] + chance.randbytes(size) + whole[at + size:])
        for broken in cut + garbage + holes:
            font.write_bytes(broken)
            PAPERS.render(out, env={"GALLIPOT_FONTS": str(folder)}, expect=3,
                          says=r"NotoSans-Regular\.ttf.*install the package")
            assert PAPERS.is_old_or_new(out) == "old"
        font.write_bytes(whole)
        PAPERS.render(out, env={"GALLIPOT_FONTS": str(folder)})
        assert PAPERS.is_old_or_new(out) == "new"


def locale_missing():
    with folder_of_its_own() as folder:
        strange = {"LC_ALL": "xx_YY.UTF-8", "LANG": "xx_YY", "LANGUAGE": "xx", "TZ": "Nowhere/None"}
        PAPERS.render(folder, env=strange)
        assert PAPERS.is_old_or_new(folder) == "new"
        run("check", PAPERS.job, env=strange)


def stopped(how):
    """In the middle of `render`, at random moments."""
    chance = random.Random(20270318 + how)
    seen = {"old": 0, "new": 0, "mixed and said so": 0}
    with folder_of_its_own() as folder:
        out = folder / "papers"
        for i in range(ROUNDS):
            shutil.rmtree(out, ignore_errors=True)
            PAPERS.put_old(out)
            # Its output goes nowhere, so that it cannot be the output that ends it.
            process = subprocess.Popen(PAPERS.command(out), stdout=subprocess.DEVNULL,
                                       stderr=subprocess.DEVNULL)
            if i % 2 == 0:
                time.sleep(chance.uniform(0, 1.2) * PAPERS.seconds)
            else:  # when files are about to be put in their places, or are
                while process.poll() is None and not (out / NOTE).exists():
                    pass
                time.sleep(chance.choice((0, 0, 0, 0.0005, 0.002)))
            process.send_signal(how)
            code = process.wait(60)
            assert code in (0, -how), f"{how.name}: exit {code}"
            found = contents(out)
            if how == signal.SIGKILL:
                # Between a name of its own and the place it is for is a moment.
                left = [name for name in found if name.startswith(".gallipot-")]
                assert len(left) <= 1, left
                for name in left:
                    found.pop(name)
            if found.pop(NOTE, None):
                assert how == signal.SIGKILL, "signals must wait while papers are put in place"
                assert found.keys() == PAPERS.old.keys()
                assert all(found[name] in (PAPERS.old[name], PAPERS.new[name]) for name in found)
                seen["mixed and said so"] += 1
                PAPERS.render(out)
                found = contents(out)
                assert NOTE not in found, "the note stays"
                continue
            assert found in (PAPERS.old, PAPERS.new), f"{how.name}: {sorted(found)}"
            seen["old" if found == PAPERS.old else "new"] += 1
        return f"{how.name}: " + ", ".join(f"{n} {what}" for what, n in seen.items())


def secret_whole_or_absent():
    """A first run that is killed: no half a secret, and the next run is as any other."""
    chance = random.Random(7)
    for _ in range(max(ROUNDS // 4, 4)):
        with folder_of_its_own() as folder:
            job = folder / "hall.yaml"
            job.write_text((SOURCE / "examples/hall.yaml").read_text())
            process = subprocess.Popen([PROGRAM, "plan", job], stdout=subprocess.DEVNULL,
                                       stderr=subprocess.DEVNULL)
            time.sleep(chance.uniform(0, 0.15))
            process.kill()
            process.wait(60)
            assert set(os.listdir(folder)) <= {"hall.yaml", "hall.secret"}
            run("plan", job)


def log_stopped():
    """An import is done or not begun; a backup that is stopped leaves nothing."""
    chance = random.Random(8)
    with folder_of_its_own() as folder:
        job = folder / "hall.yaml"
        job.write_text((SOURCE / "examples/hall.yaml").read_text())
        run("visit", job, "K1", "--seen", "1")
        heading = run("log", job, "--csv").stdout.splitlines()[0]
        columns = heading.split(",")
        many = folder / "many.csv"
        count = 20_000
        with open(many, "w") as file:
            file.write(heading + "\r\n")
            for i in range(count):
                row = {"station": "K1", "time": f"2027-03-{i % 28 + 1:02} 10:00", "seen": str(i % 90),
                       "note": f"line {i}"}
                file.write(",".join(row.get(column, "") for column in columns) + "\r\n")
        before = time.monotonic()
        whole = run("log", job, "--csv").stdout
        done = False
        while not done:
            process = subprocess.Popen([PROGRAM, "log", job, "--import", many],
                                       stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
            try:
                process.wait(chance.uniform(0.05, 2) + (time.monotonic() - before) / 4)
                done = process.returncode == 0
            except subprocess.TimeoutExpired:
                process.send_signal(chance.choice((signal.SIGKILL, signal.SIGTERM)))
                process.wait(60)
                now = run("log", job, "--csv").stdout
                assert now == whole or now.count("\n") == count + 2, "half an import"
        assert run("log", job, "--csv").stdout.count("\n") == count + 2
        copy = folder / "copies" / "copy.sqlite"
        copy.parent.mkdir()
        for how in (signal.SIGINT, signal.SIGTERM) * 6:
            copy.unlink(missing_ok=True)
            process = subprocess.Popen([PROGRAM, "log", job, "--backup", copy],
                                       stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
            while process.poll() is None and not list(copy.parent.iterdir()):
                pass
            time.sleep(chance.uniform(0, 0.03))
            process.send_signal(how)
            assert process.wait(60) in (0, -how)
            assert os.listdir(copy.parent) in ([], [copy.name]), os.listdir(copy.parent)


def outputs_closed():
    with folder_of_its_own() as folder, open("/dev/full", "w") as full:
        out = folder / "papers"
        says = "cannot write to standard output"

        def without(*numbers, **more):
            def close():
                for number in numbers:
                    os.close(number)
            return subprocess.run(preexec_fn=close, check=False, text=True, timeout=120, **more)

        def full_output(*arguments):
            done = subprocess.run([PROGRAM, *map(str, arguments)], stdout=full,
                                  stderr=subprocess.PIPE, text=True, check=False, timeout=120)
            assert done.returncode == 3 and says in done.stderr, done

        full_output("plan", PAPERS.job)
        full_output("render", PAPERS.job, "-o", out, *PAPERS.options)
        assert PAPERS.is_old_or_new(out) == "new"
        shutil.rmtree(out)
        done = without(1, args=PAPERS.command(out), stderr=subprocess.PIPE)
        assert done.returncode == 3 and says in done.stderr, done
        assert PAPERS.is_old_or_new(out) == "new"
        shutil.rmtree(out)
        assert without(0, 1, 2, args=PAPERS.command(out)).returncode == 3
        assert PAPERS.is_old_or_new(out) == "new"
        # What is printed must not land in the log, whose file would take the closed number.
        job = folder / "hall.yaml"
        job.write_text((SOURCE / "examples/hall.yaml").read_text())
        assert without(0, 1, 2, args=[PROGRAM, "visit", job, "K1", "--seen", "3"]).returncode == 3
        assert run("log", job).stdout.count("K1") == 1
        # A reader that goes away early is everyday life: head.
        for command in ("plan", "check"):
            subprocess.run(f"'{PROGRAM}' {command} '{PAPERS.job}' 2>/dev/null | head -c 1 >/dev/null",
                           shell=True, check=True)


def limits():
    """Too little memory, files that may not be that large: exit 3, and old papers as they were."""
    with folder_of_its_own() as folder:
        out = folder / "papers"
        PAPERS.put_old(out)

        def limited(what, most, *arguments):
            return subprocess.run(
                arguments, capture_output=True, text=True, check=False, timeout=300,
                # On one thread: on several ICU 72 may follow a pointer to nothing where another took the
                # last memory (DateFormatSymbols; three runs of a hundred near the limit).
                env={**os.environ, "GALLIPOT_THREADS": "1"},
                preexec_fn=lambda: resource.setrlimit(what, (most, most)))

        done = limited(resource.RLIMIT_FSIZE, 4096, *PAPERS.command(out))
        assert done.returncode == 3 and "ulimit -f" in done.stderr, done
        assert PAPERS.is_old_or_new(out) == "old"
        done = limited(resource.RLIMIT_NOFILE, 10, *PAPERS.command(out))
        assert done.returncode == 3 and "ulimit -n" in done.stderr, done
        assert PAPERS.is_old_or_new(out) == "old"
        megabyte = 1 << 20
        if limited(resource.RLIMIT_AS, 4096 * megabyte, PROGRAM, "--version").returncode != 0:
            print("  memory: not tried, this build (a sanitizer's) takes more than there is")
            return
        least = 8
        while limited(resource.RLIMIT_AS, least * megabyte, PROGRAM, "--version").returncode != 0:
            least += 1
        failed = 0
        most = least
        while True:
            done = limited(resource.RLIMIT_AS, most * megabyte, *PAPERS.command(out))
            if done.returncode == 0:
                break
            failed += 1
            assert done.returncode == 3, (most, done)
            assert "out of memory" in done.stderr, (most, done)
            assert PAPERS.is_old_or_new(out) == "old"
            most += 1
        assert failed > 3
        assert PAPERS.is_old_or_new(out) == "new"
        print(f"  memory: {failed} limits from {least} MB on told, {most} MB do")


if __name__ == "__main__":
    PAPERS = Papers("flat")
    only = sys.argv[4:]
    mounted = True
    for case in (disk_full, disk_read_only, folder_read_only, folder_vanishes, fonts_missing,
                 fonts_broken, locale_missing, secret_whole_or_absent, log_stopped, outputs_closed,
                 limits):
        if only and case.__name__ not in only:
            continue
        could = case()
        print(f"{case.__name__}: " + ("SKIPPED, no file system can be mounted here"
                                      if could is False else "held"), flush=True)
        mounted = mounted and could is not False
    for which in (signal.SIGINT, signal.SIGTERM, signal.SIGHUP, signal.SIGKILL):
        if not only or which.name in only:
            print(stopped(which), flush=True)
    shutil.rmtree(PAPERS.folder, ignore_errors=True)
    sys.exit(0 if mounted else 77)
