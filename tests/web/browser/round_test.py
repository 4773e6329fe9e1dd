#!/usr/bin/env python3
"""A round of sixty stations as a person walks it with a phone: taps, pages and seconds, and what is
left of it when the network, the tab and the browser go away in between.

    round_test.py PROGRAM SOURCE_FOLDER [FOLDER FOR PICTURES]
"""
import datetime
import pathlib
import shutil
import sys
import tempfile
import time

sys.path.insert(0, str(pathlib.Path(__file__).resolve().parent.parent))
from served import Served  # noqa: E402
from driver import Browser  # noqa: E402

PROGRAM = sys.argv[1]
PICTURES = pathlib.Path(sys.argv[3]) if len(sys.argv) > 3 else None
STATIONS = 60


def job():
    """A block of flats, set out a week ago."""
    placed = datetime.date.today() - datetime.timedelta(days=7)
    lines = [
        "title: A block of flats", f"prepared: {placed}", "by: Caretaker", "languages: [en]",
        "help: { region: AU }", 'log: { address: "http://127.0.0.1:8017" }',
        "measures: [ 1 tsp, { scale: 2 kg, marks: 1 g } ]", "mixes:",
        "  syrup: { title: Syrup, against: ants, form: liquid, basis: percent w/w,"
        " ingredients: { borax: 1, sugar: 20, water: rest } }",
        "containers:", "  cup: { holds: 60 mL, fill: 45 mL, openings: 4 side holes of 6 mm }",
        "stations:",
    ]
    lines += [f"  - {{ id: T{i}, place: Room {i}, mix: syrup, container: cup, placed: {placed} 19:30 }}"
              for i in range(1, STATIONS + 1)]
    return "\n".join(lines) + "\n"


class Taps:
    """Counts what a person does."""

    def __init__(self, browser):
        self.browser = browser
        self.taps = 0
        self.began = time.monotonic()

    def tap(self, element):
        self.taps += 1
        element.click()

    def tell(self, what, pages):
        seconds = time.monotonic() - self.began
        print(f"{what}: {self.taps} taps and {pages} pages for {STATIONS} stations,"
              f" {self.taps / STATIONS:.2f} taps a station; the browser took {seconds:.1f} s")


def on_the_round_page(served, browser):
    browser.open(served.base + "/ROUND")
    walk = Taps(browser)
    for choice in browser.all("[name$='.well']"):
        walk.tap(choice)
    assert browser.one("#progress").text.startswith(f"{STATIONS} of {STATIONS} filled in")
    walk.tap(browser.one(".save button"))
    browser.until(lambda: browser.all(".done"), "the answer")
    walk.tell("round page", 2)
    assert f"{STATIONS} of {STATIONS} saved" in browser.one(".saved").text
    visits = served.visits()
    assert len(visits) == STATIONS, len(visits)
    assert all(visit["level_percent"] == 100 for visit in visits)
    assert browser.script("return Object.values(localStorage).join()") == "{}", "kept for nothing"


def station_by_station(served, browser):
    """One label scanned, then on with what the pages offer."""
    browser.open(served.base + "/ROUND")
    first = browser.all(".stop :is(h2, h3) a")[0].get("property/href")
    browser.open(first)
    walk = Taps(browser)
    pages = 1
    for done in range(1, STATIONS + 1):
        walk.tap(browser.one(".well"))
        browser.arrives("/SAVED/")
        pages += 1
        if done == STATIONS:
            break
        walk.tap(browser.one(".next-station"))
        browser.until(lambda: browser.all(".well"), "the next station")
        pages += 1
    walk.tell("station by station", pages)
    assert len({visit["station"] for visit in served.visits()}) == STATIONS


def without_network(served, profile):
    """Filled in with the network gone, the tab dead and the phone switched off in between."""
    with Browser(profile=profile) as browser:
        browser.open(served.base + served.code)
        browser.open(served.base + "/ROUND")
        served.kill()
        rows = browser.all("[data-station]")
        for number, row in enumerate(rows[:12]):
            station = row.get("attribute/data-station")
            browser.one(f"#stop-{station} [name$='.seen']").type(str(number))
        browser.one("#stop-T1 summary").click()
        browser.one("#stop-T1 [name$='.note']").type("behind the <door>")
        if PICTURES:
            PICTURES.mkdir(parents=True, exist_ok=True)
            browser.picture(PICTURES / "round-filled.png")
        browser.one(".save button").click()  # there is no network: the browser says so
        assert not browser.all(".saved")
    served.start()
    with Browser(profile=profile) as browser:  # the same phone, switched on again
        browser.open(served.base + "/ROUND")
        assert browser.one("#progress").text.startswith(f"12 of {STATIONS} filled in"), browser.text
        assert browser.one("#stop-T1 [name$='.note']").value == "behind the <door>"
        served.kill()  # sent, and the answer never arrives
        browser.one(".save button").click()
        served.start()
        browser.open(served.base + "/ROUND")
        browser.one(".save button").click()
        browser.until(lambda: browser.all(".done"), "the answer")
        assert len(browser.all(".done")) == 12, browser.text
        # The page that was sent, once more: nothing is there twice.
        browser.reload()
        visits = served.visits()
        assert len(visits) == 12, len(visits)
        assert sorted(visit["seen"] for visit in visits) == list(range(12))
        assert browser.script("return Object.values(localStorage).join()") == "{}"


def without_script(served):
    with Browser(javascript=False) as browser:
        browser.open(served.base + served.code)
        browser.open(served.base + "/ROUND")
        browser.one("#stop-T1 [name$='.seen']").type("3")
        browser.one("#stop-T2 [name$='.seen']").type("a few")
        browser.send()
        assert f"1 of {STATIONS} saved" in browser.one(".saved").text, browser.text
        assert browser.one("#stop-T2 [name$='.seen']").value == "a few"
        assert [visit["seen"] for visit in served.visits()] == [3]


def main():
    for program in ("chromium", "chromedriver"):
        if not shutil.which(program):
            print(f"SKIPPED: {program} is not here; Debian has it as chromium and chromium-driver")
            sys.exit(77)
    source = pathlib.Path(tempfile.mkdtemp(prefix="gallipot-"))
    (source / "examples").mkdir()
    (source / "examples/hall.yaml").write_text(job())
    profile = tempfile.mkdtemp(prefix="gallipot-browser-")
    try:
        for walk in (on_the_round_page, station_by_station):
            with Served(PROGRAM, source) as served, Browser() as browser:
                browser.open(served.base + served.code)
                walk(served, browser)
                broken = [one for one in browser.complaints() if "Content Security Policy" in one]
                assert not broken, broken
        with Served(PROGRAM, source) as served:
            without_network(served, profile)
            print("network, tab and browser gone in between: all there once")
        with Served(PROGRAM, source) as served:
            without_script(served)
            print("without JavaScript")
    finally:
        shutil.rmtree(source, ignore_errors=True)
        shutil.rmtree(profile, ignore_errors=True)
    print("all well")


if __name__ == "__main__":
    main()
