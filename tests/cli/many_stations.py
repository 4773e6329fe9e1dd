#!/usr/bin/env python3
"""The report on sixty stations over ten weeks: eight pages at most, every station on them, the worst first, the same acts
once, and a summary of a few lines.

    many_stations.py GALLIPOT

The block, its people and its counts are made up.
"""
import datetime
import math
import pathlib
import random
import re
import subprocess
import sys
import tempfile

GALLIPOT = str(pathlib.Path(sys.argv[1]).resolve())
START = datetime.datetime(2026, 9, 1, 19, 0)
FLOORS = range(1, 6)
made = random.Random(5)

stations, kinds = [], {}
for floor in FLOORS:
    for number in range(1, 13):
        name = f"F{floor}-{number:02}"
        base = (f"id: {name}, floor: Floor {floor}, place: 'Spot {number} by the pipe', "
                f"at: [{(number - 1) % 6 * 2.5 + 1.2:.1f}, {1.2 if number <= 6 else 4.6}]")
        kinds[name] = "control" if number > 10 else "cockroaches" if number in (3, 7, 9) else "ants"
        if number > 10:
            extra = f"control: true, against: {'ants' if number == 12 else 'cockroaches'}"
        elif kinds[name] == "ants":
            extra = "mix: syrup, container: cup, placed: 2026-09-01 19:30"
        else:
            extra = "mix: dry, container: lid, placed: 2026-09-01 19:30"
        stations.append(f"  - {{ {base}, {extra} }}")
rooms = "\n".join(f"    - {{ name: Corridor {n}, floor: Floor {n}, outline: [[0, 0], [16, 0], [16, 6], [0, 6]] }}" for n in FLOORS)
JOB = f"""title: Elm Court
languages: [en, es, de, fil, uk]
prepared: 2026-09-01
by: Kim
premises: flats
asked: {{ whom: the council, on: 2026-08-20, answer: allowed }}
time_zone: UTC
help: {{ region: AU, contact: {{ name: Kim, phone: "0491 570 006" }} }}
labels: letter-2x5
accept: [little-bait, weak-support, without-unit]
measures: [1 tbsp, 1 tsp, 1/2 tsp, 1/4 tsp, {{ jug: 1 L, marks: 50 mL }}, {{ scale: 5 kg, marks: 1 g }}]
mixes:
  syrup:
    title: Sweet liquid bait
    against: ants
    form: liquid
    basis: percent w/w
    ingredients: {{ borax: 1, sugar: 25, water: rest }}
    lasts: 28 d
  dry:
    title: Dry bait
    against: cockroaches
    form: dry
    basis: percent w/w
    ingredients: {{ boric acid: 33, sugar: rest }}
    lasts: 90 d
containers:
  cup: {{ holds: 60 mL, fill: 45 mL, openings: 4 side holes of 6 mm }}
  lid: {{ holds: 20 mL, fill: 8 mL }}
floor_plan:
  rooms:
{rooms}
visits: {{ every: [7 d, 14 d, 21 d, 28 d] }}
stations:
""" + "\n".join(stations) + "\n"


def seen(mean):
    """A count with three times the variance of chance."""
    mean = made.gammavariate(mean / 2, 2) if mean > 0.02 else 0
    count, product, limit = 0, made.random(), math.exp(-min(mean, 300))
    while product > limit and count < 400:
        product *= made.random()
        count += 1
    return count


lines = ["station,time,by,seen,dead,level_percent,state,did,note,minutes,young,trap_nights,feeding"]
first = {name: math.exp(made.gauss(3, 0.6)) for name in kinds}
slope = {name: made.gauss({"ants": -0.075, "cockroaches": -0.02, "control": 0}[kind], 0.02) for name, kind in kinds.items()}
slope["F3-01"] = 0.03
for day in (-1, 2, 7, 14, 21, 28, 35, 42, 49, 56, 63, 70):
    for number, (name, kind) in enumerate(kinds.items()):
        time = START + datetime.timedelta(days=day, minutes=number)
        level = "" if kind == "control" or day < 1 else 100 - day % 28 * 3
        did = "refilled" if kind == "ants" and day in (28, 56) else ""
        state = "mouldy" if name in ("F1-09", "F2-03") and day == 70 else ""
        lines.append(f"{name},{time:%Y-%m-%d %H:%M},Kim,{seen(first[name] * math.exp(slope[name] * max(day, 0)))},,{level},{state},{did},,,,,")

faults = 0


def check(good, text):
    global faults
    if not good:
        faults += 1
        print("fault:", text)


with tempfile.TemporaryDirectory() as folder:
    work = pathlib.Path(folder)
    (work / "job.yaml").write_text(JOB)
    (work / "log.csv").write_text("\n".join(lines) + "\n")

    def run(*words):
        done = subprocess.run([GALLIPOT, *map(str, words)], capture_output=True, text=True, check=False)
        check(done.returncode == 0, f"{words}: exit {done.returncode}: {done.stderr[-500:]}")
        return done.stdout

    run("log", work / "job.yaml", "--import", work / "log.csv")
    run("report", work / "job.yaml", "--as-of", "2026-11-11", "-o", work / "r.pdf")
    pages = subprocess.run(["pdftotext", "-layout", work / "r.pdf", "-"], capture_output=True, text=True, check=True).stdout.split("\f")[:-1]
    check(len(pages) <= 8, f"{len(pages)} pages")
    for language in ("es", "de", "fil", "uk"):
        info = subprocess.run(["pdfinfo", work / f"r-{language}.pdf"], capture_output=True, text=True, check=True).stdout
        number = int(re.search(r"Pages:\s+(\d+)", info)[1])
        check(number <= 10, f"{language}: {number} pages")
    for name in kinds:
        check(sum(name in page for page in pages) >= 2, f"{name} is not told of")
    check("F3-01" in pages[0], "page one does not name a station that does badly")
    check("licensed" in pages[0] and "professional" in pages[0], "page one does not say whom to call")
    for line in re.findall(r"effect.*", " ".join(pages[0].split())):
        check("95 %" in line, f"an effect without its interval: {line[:80]}")
    summary = run("report", work / "job.yaml", "--as-of", "2026-11-11", "--summary")
    check(len(summary.split("\n")) < 60, f"the summary has {len(summary.splitlines())} lines")
    for word in ("Ants:", "Cockroaches:", "The whole building", "F3-01"):
        check(word in summary, f"the summary does not say {word}")
print(f"{faults} faults")
sys.exit(1 if faults else 0)
