#!/usr/bin/env python3
"""Reads the calendars of the examples with Debian's python3-icalendar, a parser of another hand,
and compares what it finds with the plan's JSON. Its time zones come from Debian's tzdata."""
import datetime
import json
import pathlib
import shutil
import subprocess
import sys
import tempfile
import zoneinfo

import icalendar

gallipot, examples = sys.argv[1], pathlib.Path(sys.argv[2])


def check(good, what):
    if not good:
        sys.exit(what)


def run(*arguments):
    return subprocess.run([gallipot, *map(str, arguments)], check=True, capture_output=True).stdout


def read(folder, job, zone):
    text = job.read_text()
    if zone:
        text += f"time_zone: {zone}\n"
    file = folder / job.name
    file.write_text(text)
    run("render", file, "--only", "visits", "-o", folder)
    data = (folder / "visits.ics").read_bytes()
    check(all(len(line) <= 75 for line in data.split(b"\r\n")), "a line is longer than 75 octets")
    check(b"\n" not in data.replace(b"\r\n", b""), "a line does not end with CR LF")
    calendar = icalendar.Calendar.from_ical(data)
    check(not calendar.errors, f"{job.name}: {calendar.errors}")
    events = calendar.walk("VEVENT")
    for event in events:
        check(not event.errors, f"{job.name}: {event.errors}")
        check(all(key in event for key in ("UID", "DTSTAMP", "DTSTART", "SUMMARY")), "a property is missing")
        check(event.decoded("DTSTAMP").tzinfo is not None, "DTSTAMP is not in UTC")
    check(len({str(event["UID"]) for event in events}) == len(events), "a UID comes twice")

    # Before each walk of setting out there is one to count first, with every station placed on it.
    planned = json.loads(run("plan", file, "--json"))
    counts = [event for event in events if "-count-" in str(event["UID"])]
    placed = [(station["id"], station["placed"]) for station in planned["stations"] if station.get("placed")]
    listed = sum(len(str(event["DESCRIPTION"]).split("\n")) for event in counts)
    check(listed == len(placed) > 0, f"{listed} first counts listed, {len(placed)} stations placed")

    # Every visit of the plan is in one round, and every round is one event with its stations in order.
    events = [event for event in events if event not in counts]
    visits = [(station["id"], time) for station in planned["stations"] for time in station["visits"]]
    listed = sum(len(str(event["DESCRIPTION"]).split("\n")) for event in events)
    check(listed == len(visits) > 0, f"{listed} visits listed, {len(visits)} planned")
    rounds = planned["rounds"]
    in_rounds = sorted((stop["station"], stop["due"]) for one in rounds for stop in one["stops"])
    check(in_rounds == sorted(visits), "the rounds do not hold each visit once")
    check(len(rounds) == len(events) < len(visits), f"{len(rounds)} rounds, {len(events)} events")
    for one, event in zip(rounds, events):
        at = datetime.datetime.fromisoformat(one["time"])
        check(event.decoded("DTSTART").replace(tzinfo=None) == at, f"no event at {at}")
        check(str(at.date()) == one["on"], f"{at} is not on {one['on']}")
        listed = [line.split(",")[0] for line in str(event["DESCRIPTION"]).split("\n")]
        check(listed == [stop["station"] for stop in one["stops"]], f"{listed} at {at}")
        due = [datetime.datetime.fromisoformat(stop["due"]) for stop in one["stops"]]
        check(max(due) == at and min(due).date() == at.date(), f"the round at {at} is due at {due}")
    if not zone:
        check(all(event.decoded("DTSTART").tzinfo is None for event in events), "times do not float")
        return
    # The file's own zone rules against tzdata's.
    rules = calendar.walk("VTIMEZONE")
    check(len(rules) == 1 and str(rules[0]["TZID"]) == zone, "no time zone rules")
    ours, theirs = rules[0].to_tz(), zoneinfo.ZoneInfo(zone)
    for event in events:
        start = event.decoded("DTSTART").replace(tzinfo=None)
        mine = ours.localize(start) if hasattr(ours, "localize") else start.replace(tzinfo=ours)
        check(mine.utcoffset() == start.replace(tzinfo=theirs).utcoffset(),
              f"{start} in {zone}: {mine.utcoffset()}")


work = pathlib.Path(tempfile.mkdtemp())
try:
    for name in ("hall", "flat"):
        for zone in ("", "Australia/Sydney", "America/Chicago", "Europe/Kyiv", "Asia/Manila"):
            folder = work / (name + zone.replace("/", "-"))
            folder.mkdir()
            read(folder, examples / f"{name}.yaml", zone)
finally:
    shutil.rmtree(work)
print("the calendars are read back as planned")
