#!/usr/bin/env python3
"""Photos sent to the real program: over a slow link, on a full disk, out of the log again.

    photos_test.py PROGRAM SOURCE_FOLDER
"""
import http.client
import pathlib
import re
import signal
import sqlite3
import sys
import tempfile
import time
import urllib.error
import urllib.request

from durability_test import Mounted
from served import OPENER, Served

PROGRAM, SOURCE = sys.argv[1:3]
SEEDS = pathlib.Path(SOURCE) / "tests/fuzz/seeds/photo"
PHOTO = (SEEDS / "turned.jpg").read_bytes()
OTHER = (SEEDS / "progressive.jpg").read_bytes()
BOUNDARY = "----boundary7MA4YWxk"
TYPE = "multipart/form-data; boundary=" + BOUNDARY


def form(fields, photos):
    parts = [
        f'--{BOUNDARY}\r\nContent-Disposition: form-data; name="{name}"\r\n\r\n{value}\r\n'.encode()
        for name, value in fields.items()
    ]
    for number, photo in enumerate(photos):
        parts.append(
            f'--{BOUNDARY}\r\nContent-Disposition: form-data; name="photo"; filename="../{number}.jpg"\r\n'
            f"Content-Type: image/jpeg\r\n\r\n".encode() + photo + b"\r\n")
    return b"".join(parts) + f"--{BOUNDARY}--\r\n".encode()


def send(served, station, fields, photos, cookie=None):
    request = urllib.request.Request(
        served.base + served.paths[station], form(fields, photos),
        {"Cookie": served.cookie if cookie is None else cookie, "Content-Type": TYPE})
    try:
        with OPENER.open(request, timeout=60) as answer:
            return answer.status, answer.read().decode()
    except urllib.error.HTTPError as answer:
        return answer.code, answer.read().decode()


def fetch(served, path, cookie=None):
    request = urllib.request.Request(
        served.base + path, headers={"Cookie": served.cookie if cookie is None else cookie})
    try:
        with OPENER.open(request, timeout=20) as answer:
            return answer.status, answer.read()
    except urllib.error.HTTPError as answer:
        return answer.code, answer.read()


def folder_of(served):
    return served.folder / "hall.photos"


def a_slow_link(served):
    """Longer than any other request may take; and one that stands still is dropped all the same."""
    body = form({"token": "slow", "seen": 4}, [PHOTO + bytes(600_000)])
    begun = time.monotonic()
    connection = http.client.HTTPConnection("127.0.0.1", served.port, timeout=60)
    connection.putrequest("POST", served.paths["K1"])
    for name, value in (("Cookie", served.cookie), ("Content-Type", TYPE),
                        ("Content-Length", str(len(body)))):
        connection.putheader(name, value)
    connection.endheaders()
    for at in range(0, len(body), 4000):  # 40 kB a second
        connection.send(body[at:at + 4000])
        time.sleep(0.1)
    answer = connection.getresponse()
    seconds = time.monotonic() - begun
    assert answer.status == 303, answer.status
    assert seconds > 12, seconds
    connection.close()

    begun = time.monotonic()
    drip = http.client.HTTPConnection("127.0.0.1", served.port, timeout=60)
    drip.putrequest("POST", served.paths["K1"])
    for name, value in (("Cookie", served.cookie), ("Content-Type", TYPE),
                        ("Content-Length", str(len(body)))):
        drip.putheader(name, value)
    drip.endheaders()
    try:
        for at in range(0, 200):
            drip.send(body[at:at + 1])
            time.sleep(0.1)
        raise AssertionError("a request that drips was not dropped")
    except (BrokenPipeError, ConnectionResetError):
        pass
    assert time.monotonic() - begun < 13
    print(f"a slow link: {len(body):,} bytes in {seconds:.0f} s arrived; one that drips was dropped")


def out_of_the_log(served):
    fields = {"token": "two", "seen": 5}
    assert send(served, "K2", fields, [PHOTO, OTHER])[0] == 303
    assert send(served, "K2", fields, [PHOTO, OTHER])[0] == 303  # a second tap
    names = sorted(file.name for file in folder_of(served).iterdir())
    for file in folder_of(served).iterdir():
        assert b"Exif" not in file.read_bytes() and b"owner" not in file.read_bytes()
        assert fetch(served, f"/ALL/PHOTO/{file.stem}") == (200, file.read_bytes())
        assert fetch(served, f"/ALL/PHOTO/{file.stem}", cookie="")[0] == 403
        assert file.stat().st_mode & 0o777 == 0o600
    with tempfile.TemporaryDirectory() as elsewhere:
        elsewhere = pathlib.Path(elsewhere)
        out = elsewhere / "out"
        told = served.run("log", served.job, "--photos", out).stdout
        assert "3 photos written to" in told, told
        exported = sorted(file.name for file in out.iterdir())
        assert [re.sub(r"^\d{4}-\d\d-\d\d_\d{4}_", "", name) for name in exported] == [
            "K1_1-1.jpg", "K2_2-1.jpg", "K2_2-2.jpg"], exported
        # Again: nothing is written. A file of somebody else's ends it, and stays.
        assert "3 were there already" in served.run("log", served.job, "--photos", out).stdout
        (out / exported[0]).write_text("mine")
        (out / exported[1]).unlink()
        assert "another file of that name" in served.run("log", served.job, "--photos", out, expect=2).stderr
        assert (out / exported[0]).read_text() == "mine" and not (out / exported[1]).exists()
        served.run("log", served.job, "--photos", folder_of(served), expect=2)
        served.run("log", served.job, "--photos", elsewhere / "out" / exported[0], expect=2)
        assert sorted(file.name for file in folder_of(served).iterdir()) == names
        copy = elsewhere / "copy.sqlite"
        served.run("log", served.job, "--backup", copy)
        assert sorted(file.name for file in (elsewhere / "copy.sqlite.photos").iterdir()) == names
        with sqlite3.connect(copy) as database:
            named = " ".join(row[0] for row in database.execute("SELECT photos FROM entry")).split()
        database.close()
        assert sorted(name + ".jpg" for name in set(named)) == names
        # One that was deleted is named.
        (folder_of(served) / names[0]).unlink()
        again = served.run("log", served.job, "--photos", elsewhere / "less")
        assert "not among those of the log" in again.stderr, again.stderr
        assert names[0] in served.run("log", served.job, "--backup", elsewhere / "b.sqlite").stderr
    print("out of the log: as files and with a backup, each whole, over nobody's")


def killed(served):
    """What was confirmed is there, however the server ends."""
    for number in range(5):
        photo = OTHER + bytes(300_000 + number)
        assert send(served, "E1", {"token": f"k{number}", "seen": number}, [photo])[0] == 303
        served.kill(signal.SIGKILL)
        served.start()
        with sqlite3.connect(served.folder / "hall.visits.sqlite") as database:
            row = database.execute("SELECT photos FROM entry WHERE token = ?", (f"k{number}",)).fetchone()
        database.close()
        assert fetch(served, f"/ALL/PHOTO/{row[0]}")[0] == 200
    print("killed after each: every photo is there")


def full_disk():
    mounted = Mounted("1m")
    with mounted as folder:
        if not mounted.made:
            print("full disk: SKIPPED, this machine does not let us mount one")
            return
        with Served(PROGRAM, SOURCE, folder) as served:
            assert send(served, "K1", {"token": "a", "seen": 9}, [PHOTO])[0] == 303
            filler = folder / "filler"
            with open(filler, "wb", buffering=0) as file:
                try:
                    while True:
                        file.write(b"\0" * 4096)
                except OSError:
                    pass
            status, page = send(served, "K1", {"token": "b", "seen": 8, "note": "as typed"}, [OTHER])
            assert status == 503, status
            assert "Not saved." in page and "as typed" in page
            assert [visit["seen"] for visit in served.visits()] == [9]
            assert len(list(folder_of(served).iterdir())) == 1, "half a photo was left"
            # Nor does an export leave half of one.
            out = folder / "out"
            served.run("log", served.job, "--photos", out, expect=3)
            assert not out.exists() or not list(out.iterdir())
            filler.unlink()
            assert send(served, "K1", {"token": "b", "seen": 8}, [OTHER])[0] == 303
            assert len(list(folder_of(served).iterdir())) == 2
            served.kill(signal.SIGTERM)
    print("full disk: brought back with a clear word, no half photo")


def main():
    with Served(PROGRAM, SOURCE) as served:
        a_slow_link(served)
        out_of_the_log(served)
        killed(served)
        assert "a fault of ours" not in served.stderr(), served.stderr()
    full_disk()
    print("all well")


if __name__ == "__main__":
    main()
