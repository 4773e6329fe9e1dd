#!/usr/bin/env python3
"""A block of 60 stations on five floors over ten weeks: cups go missing, are moved and replaced, a mix is made anew, and
stronger, stations come and one is taken up. Each week report, round, labels and take-down sheet must say the same, at the
end the phone too; and none of it may alter the figures of the trial.

    tests/story/story.py GALLIPOT            compares with week-by-week.txt
    tests/story/story.py GALLIPOT --update   writes it anew; read the difference

The block and its people are made up.
"""
import datetime
import json
import os
import pathlib
import re
import subprocess
import sys
import tempfile
import time
import urllib.request

HERE = pathlib.Path(__file__).parent
GALLIPOT = str(pathlib.Path(sys.argv[1]).resolve())
START = datetime.date(2026, 9, 1)
faults = []


def fault(text):
    faults.append(text)
    print("fault:", text)


def run(*words, good=(0,)):
    ran = subprocess.run([GALLIPOT, *words], capture_output=True, text=True, check=False,
                         env={**os.environ, "LC_ALL": "C.UTF-8", "TZ": "UTC"})
    if ran.returncode not in good:
        fault(f"{' '.join(words)}: exit {ran.returncode}: {ran.stderr[-400:]}")
    return ran.stdout


class Block:
    """The job file as its caretaker edits it."""

    def __init__(self, folder):
        self.file = str(pathlib.Path(folder) / "block.yaml")
        self.borax = 1
        self.lines = {}
        for floor in range(1, 6):
            for number in range(1, 13):
                self.add(f"F{floor}-{number:02}", floor, number, START)

    def add(self, name, floor, number, placed):
        count = ", count: 2" if number == 1 else ""
        self.lines[name] = (f"id: {name}, unit: Flat {floor}{(number + 2) // 3:02}, floor: Floor {floor}, "
                            f"place: 'Kitchen, spot {number}', mix: syrup, container: cup{count}, "
                            f"placed: {placed} 19:30, at: [{number}, 3]")

    def write(self):
        stations = "\n".join(f"  - {{ {line} }}" for line in self.lines.values())
        rooms = "\n".join(f"    - {{ name: Corridor, floor: Floor {n}, outline: [[0, 0], [16, 0], [16, 6], [0, 6]] }}"
                          for n in range(1, 6))
        pathlib.Path(self.file).write_text(f"""title: Elm Court
prepared: {START}
by: Kim
premises: flats
asked: {{ whom: the council, on: 2026-08-20, answer: allowed }}
time_zone: UTC
help: {{ region: AU, contact: {{ name: Kim, phone: "0491 570 006" }} }}
log: {{ address: "http://127.0.0.1:{PORT}" }}
labels: letter-2x5
accept: [little-bait]
measures: [1 tbsp, 1 tsp, 1/2 tsp, 1/4 tsp, {{ jug: 1 L, marks: 50 mL }}, {{ scale: 5 kg, marks: 1 g }}]
mixes:
  syrup:
    title: Sweet liquid bait
    against: ants
    form: liquid
    basis: percent w/w
    ingredients: {{ borax: {self.borax}, sugar: 25, water: rest }}
    lasts: 28 d
containers: {{ cup: {{ holds: 60 mL, fill: 45 mL, openings: 4 side holes of 6 mm }} }}
visits: {{ within: 2 d, every: [7 d, 14 d, 21 d, 28 d, 35 d, 42 d, 49 d, 56 d, 63 d, 70 d] }}
stations:
{stations}
  - {{ id: C1, place: Cellar, control: true, against: ants, floor: Floor 1, at: [15, 5] }}
floor_plan:
  rooms:
{rooms}
""")

    def day(self, week):
        return START + datetime.timedelta(days=7 * week)

    def visit(self, week, station, *more):
        run("visit", self.file, station, "--by", "Kim", "--at", f"{self.day(week)} {self.clock(week)}", *more)

    minutes = {}

    def clock(self, week):
        """Each entry of a day a minute after the one before."""
        at = self.minutes.get(week, 10 * 60)
        self.minutes[week] = at + 1
        return f"{at // 60:02}:{at % 60:02}"

    def counts(self, week):
        """A fall by a fifth a week where there is bait, none at the control. Levels fall by an eighth."""
        lines = ["station,time,by,seen,dead,level_percent,state,did,note"]
        gone = run("report", self.file, "--as-of", str(self.day(week)), "--json")
        for each in json.loads(gone)["stations"]:
            if each["outcome"] == "taken up":
                continue
            name = each["id"]
            seen = 20 if name == "C1" else round(24 * 0.8 ** week)
            level = "" if name == "C1" else str(max(90 - 12 * (week % 4), 0))
            lines.append(f"{name},{self.day(week)} {self.clock(week)},Kim,{seen},,{level},,,")
        table = pathlib.Path(self.file).with_name("week.csv")
        table.write_text("\n".join(lines) + "\n")
        run("log", self.file, "--import", str(table))


def containers(report):
    return {cup["id"]: cup for station in report["stations"] for cup in station["containers"]}


def text_of(pdf):
    return subprocess.run(["pdftotext", "-layout", pdf, "-"], capture_output=True, text=True, check=True).stdout


def compare(block, week, told):
    """What the papers of the week say, held against each other."""
    day = str(block.day(week))
    report = json.loads(run("report", block.file, "--as-of", day, "--json"))
    round_ = json.loads(run("round", block.file, "--on", day, "--json"))
    cups = containers(report)
    # The round is the report's next visits.
    due = [walk for walk in report["next_visits"] if walk["on"] <= day]
    wanted = [(stop["id"], sorted({step["do"] for step in stop["next"]})) for walk in due[:1] for stop in walk["stations"]]
    got = [(stop["station"], sorted({what for cup in stop["containers"] for what in cup["do"]}))
           for stop in round_["stops"]]
    if wanted != got:
        fault(f"week {week}: the round {got[:3]} is not the report's {wanted[:3]}")
    for stop in round_["stops"]:
        for cup in stop["containers"]:
            if cup["id"] in cups and cup["state"] != cups[cup["id"]]["state"]:
                fault(f"week {week}: {cup['id']} is {cup['state']} in the round, {cups[cup['id']]['state']} in the report")
    # Every missing cup is on the round, whoever was there meanwhile.
    missing = sorted(name for name, cup in cups.items() if "missing" in cup["state"])
    on_round = sorted(cup["id"] for stop in round_["stops"] for cup in stop["containers"] if "missing" in cup["state"])
    if missing != on_round:
        fault(f"week {week}: missing {missing}, on the round {on_round}")
    # Its papers name exactly the labels that it says, and the take-down sheet what is missing.
    folder = pathlib.Path(block.file).parent / f"week{week}"
    run("round", block.file, "--on", day, "-o", str(folder))
    if round_["labels"]:
        printed = set(re.findall(r"\b[FN]\d-?\d*(?:-\d)?\b", text_of(str(folder / "labels.pdf"))))
        if not set(round_["labels"]) <= printed:
            fault(f"week {week}: labels {sorted(printed)} instead of {round_['labels']}")
    sheet = text_of(str(folder / "round.pdf"))
    for name in missing:
        if name not in sheet:
            fault(f"week {week}: the round sheet does not name {name}")
    taken_up = sum(station["outcome"] == "taken up" for station in report["stations"])
    older = sum(bool(cup["holds"]) and cup["holds"]["older_recipe"] for cup in cups.values())
    all_ = report["all"]
    told.append(f"Week {week}, {day}: {len(round_['stops'])} stations to see, {len(round_['labels'])} fresh labels, "
                f"{sum(make['needed_mL'] for make in round_['make']):.0f} mL to make")
    told.append(f"  missing: {', '.join(missing) or 'none'}; taken up: {taken_up}; in {older} cups another recipe than now")
    told.append(f"  seen: {all_['first_seen']} at first, {all_['last_seen']} now")
    return report


def figures(report):
    return {name: report["all"][name] for name in ("counts", "first_seen", "last_seen", "half_days", "half_days_low",
                                                   "half_days_high", "henderson_tilton_percent")}


def phone(block):
    """The pages of today, against the report of today."""
    server = subprocess.Popen([GALLIPOT, "serve", block.file, "--listen", f"127.0.0.1:{PORT}"], stdout=subprocess.DEVNULL,
                              stderr=subprocess.DEVNULL, env={**os.environ, "TZ": "UTC"})
    try:
        report = json.loads(run("report", block.file, "--json"))
        plan = json.loads(run("plan", block.file, "--json"))
        links = {station["id"]: station["link"] for station in plan["stations"]}
        for name in ("F1-01", "F2-05", "F4-07", "N1"):
            for _ in range(50):
                try:
                    page = urllib.request.urlopen(links[name], timeout=5).read().decode()
                    break
                except OSError:
                    time.sleep(0.1)
            cups = containers(report)
            for cup, said in cups.items():
                if cup != name and not cup.startswith(name + "-"):
                    continue
                for state in said["state"]:
                    if state not in page:
                        fault(f"the phone does not say that {cup} is {state}")
    finally:
        server.terminate()
        server.wait()


def story(folder):
    told = []
    block = Block(folder)
    block.write()
    block.minutes = {}
    for station in ["C1", *block.lines]:
        run("visit", block.file, station, "--seen", "20" if station == "C1" else "24", "--at", f"{START} 18:00")
    for week in range(1, 11):
        day = block.day(week)
        block.counts(week)
        if week == 1:
            block.visit(week, "F2-05", "--state", "missing")
            block.visit(week, "F1-01-2", "--state", "missing")
        if week == 2:
            block.visit(week, "F2-05", "--did", "replaced")
            block.lines["F3-03"] += f", changes: [{{ on: {day} 12:00, place: 'Bath, under the sink', at: [3, 5] }}]"
        if week == 3:
            block.visit(week, "F4-01-1", "--state", "missing")
            block.lines["F5-09"] += f", changes: [{{ on: {day}, place: 'Hall, by the door' }}]"
        if week == 4:  # made anew, and all of them filled
            for station in list(block.lines):
                block.visit(week, station, "--did", "replaced")
        if week == 5:
            block.borax = 1.5
            for number in range(1, 5):
                block.add(f"N{number}", number, 12 + number, day)
        if week == 6:
            block.lines["F5-12"] += f", until: {day}"
        if week == 7:
            block.visit(week, "F1-01-2", "--did", "placed", "--note", "found behind the fridge")
        if week == 8:  # made anew by the stronger recipe
            for station in [name for name in block.lines if name != "F5-12"]:
                block.visit(week, station, "--did", "replaced")
        block.write()
        report = compare(block, week, told)
    # As if nothing had been moved or renamed: the trial's figures are the same.
    plain = figures(report)
    for name in ("F3-03", "F5-09"):
        block.lines[name] = re.sub(r", changes: \[.*?\]\]?.*$", "", block.lines[name])
    block.lines["F2-05"] = block.lines["F2-05"].replace("id: F2-05", "id: B7, was: [F2-05]")
    block.write()
    other = figures(json.loads(run("report", block.file, "--as-of", str(block.day(10)), "--json")))
    if other != plain:
        fault(f"moving and renaming alter the trial: {plain} and {other}")
    block.lines["F2-05"] = block.lines["F2-05"].replace("id: B7, was: [F2-05]", "id: F2-05")
    block.write()
    phone(block)
    return "\n".join(told) + "\n"


PORT = 20000 + os.getpid() % 20000
with tempfile.TemporaryDirectory() as work:
    said = story(work)
expected = HERE / "week-by-week.txt"
if "--update" in sys.argv:
    expected.write_text(said)
elif said != expected.read_text():
    print(said)
    fault("another story than in week-by-week.txt")
print(f"{len(faults)} faults")
sys.exit(bool(faults))
