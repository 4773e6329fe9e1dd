#!/usr/bin/env python3
"""Every page of the log, in every state and language, looked over by axe-core in real Chromium.

    axe_test.py PROGRAM SOURCE_FOLDER FOLDER_WITH_AXE [WORDS: only pages whose name holds them]

axe-core comes from npm into FOLDER_WITH_AXE, once; without network the test is skipped.
"""
import pathlib
import re
import shutil
import subprocess
import sys
import tempfile

sys.path.insert(0, str(pathlib.Path(__file__).resolve().parent.parent))
from served import Served  # noqa: E402
from driver import Browser  # noqa: E402

PROGRAM, SOURCE, AXE = sys.argv[1:4]
ONLY = sys.argv[4] if len(sys.argv) > 4 else ""
VERSION = "4.14.1"
PHOTO = pathlib.Path(SOURCE).resolve() / "tests/fuzz/seeds/photo/turned.jpg"
LANGUAGES = ("en", "es", "de", "fil", "uk", "ar")


def axe():
    file = pathlib.Path(AXE) / "node_modules/axe-core/axe.min.js"
    if not file.exists() and shutil.which("npm"):
        pathlib.Path(AXE).mkdir(parents=True, exist_ok=True)
        subprocess.run(
            ["npm", "install", "--silent", "--no-audit", "--no-fund", "--no-save", f"axe-core@{VERSION}"],
            cwd=AXE, check=False, timeout=300)
    return file.read_text() if file.exists() else ""


def skip(why):
    print("SKIPPED:", why)
    sys.exit(77)


class Looker:
    def __init__(self, browser, script, language):
        self.browser, self.script, self.language = browser, script, language
        self.pages = 0
        self.found = []

    def look(self, name):
        if ONLY not in name:
            return
        browser = self.browser
        assert browser.script("return document.documentElement.lang").startswith(self.language), name
        # From right to left in Arabic, and nowhere wider than the phone.
        assert browser.script("return document.dir") == ("rtl" if self.language == "ar" else ""), name
        assert browser.script("return document.documentElement.scrollWidth <= window.innerWidth"), (self.language, name)
        browser.script(self.script + "; window.axe = axe;")
        answer = browser.call("POST", "/execute/async", {"script": """
            const done = arguments[arguments.length - 1];
            axe.run(document, {resultTypes: ["violations"]}).then(
              (all) => done(all.violations.map((one) => one.id + ": " + one.help + " " +
                one.nodes.slice(0, 3).map((node) => node.html.slice(0, 160)).join(" | "))),
              (error) => done(["axe failed: " + error]));""", "args": []})
        self.pages += 1
        for one in answer:
            self.found.append(f"{self.language} {name}: {one}")


def walk(served, browser, looker):
    language = looker.language

    def open_page(name, path):
        browser.open(f"{served.base}{path}{'&' if '?' in path else '?'}lang={language}")
        looker.look(name)

    def type_into(selector, text):
        browser.script(f"document.querySelectorAll(\"details\").forEach((one) => {{ one.open = true; }});")
        field = browser.all(selector)[0]
        browser.call("POST", field.path + "/clear")
        field.type(text)

    # Who scans the household sheet.
    served.run("render", served.job, "-o", pathlib.Path(served.folder) / "papers", "--only", "household")
    sheet = (pathlib.Path(served.folder) / "papers" / f"household-{language}.html").read_text()
    open_page("household sheet", re.search(r"/HOME/[0-9A-Z]+", sheet)[0])

    # A neighbour.
    for station in ("K1", "C1", "S1"):
        open_page(f"neighbour {station}", served.paths[station])
    open_page("not the caretaker's: round", "/ROUND")
    open_page("not the caretaker's: overview", "/ALL")
    open_page("wrong key", "/S/K1/0000000000")
    open_page("neighbour again", served.paths["K1"])
    browser.send()
    looker.look("neighbour: nothing said")
    type_into("[name=words]", "by the door")
    browser.send()
    looker.look("neighbour: told")

    # The caretaker.
    browser.open(served.base + served.code + f"?lang={language}")
    looker.look("code scanned")
    open_page("overview with a report", "/ALL")
    open_page("station with a report", served.paths["K1"])
    for filtered in ("due", "flagged", "photos", "told"):
        open_page(f"overview: {filtered}", f"/ALL?show={filtered}")
    browser.open(f"{served.base}/ALL?lang={language}")
    browser.all(".told button")[0].click()
    browser.until(lambda: not browser.all(".told ul button"), "the report looked at")
    open_page("overview: told before", "/ALL?show=told")
    for station in ("K1", "K2", "C1", "S1", "R1"):
        open_page(f"station {station} before any visit", served.paths[station])
    type_into("[name=seen]", "a few")
    browser.send()
    looker.look("station: a fault")
    type_into("[name=seen]", "4")
    type_into("[name=time]", "01011999\t0101AM")
    browser.send()
    looker.look("station: a time that cannot be")

    open_page("station with photos, before", served.paths["K1"])
    type_into("[name=seen]", "many")
    browser.one("#photo").type(str(PHOTO))
    browser.send()
    looker.look("station: a fault, photos kept")
    type_into("[name=seen]", "9")
    (pathlib.Path(served.folder) / "no.jpg").write_text("no photo")
    browser.one("#photo").type(str(pathlib.Path(served.folder) / "no.jpg"))
    browser.send()
    looker.look("station: a photo that is none")
    browser.send()
    assert "/SAVED/" in browser.link, browser.link
    looker.look("saved with a photo")
    browser.one("a.button[href*=CORRECT]").click()
    browser.arrives("/CORRECT/")
    looker.look("correction")
    type_into("[name=seen]", "900")
    browser.send()
    looker.look("correction: ten times the last" if "/SAVED/" not in browser.link else "corrected")
    open_page("station with photos", served.paths["K1"])
    open_page("overview with photos", "/ALL")
    open_page("photos", "/ALL?show=photos")
    photo = next((pathlib.Path(served.folder) / "hall.photos").iterdir())
    content = photo.read_bytes()
    photo.unlink()
    open_page("station with a photo that is gone", served.paths["K1"])
    photo.write_bytes(content)
    browser.one("a[href*='CORRECT']").click()
    browser.arrives("/CORRECT/")
    browser.one("[name=withdraw]").click()
    browser.send()
    looker.look("taken out")

    open_page("round", "/ROUND")
    browser.script("document.querySelectorAll('details').forEach((one) => { one.open = true; })")
    looker.look("round, unfolded")
    rows = browser.all("[name$='.seen']")
    rows[0].type("3")
    rows[1].type("a few")
    browser.send()
    looker.look("round: some saved, one faulty")
    # Another form under the same token.
    browser.open(f"{served.base}{served.paths['E1']}?lang={language}")
    type_into("[name=seen]", "30")
    browser.send()
    browser.back()
    type_into("[name=seen]", "29")
    browser.send()
    looker.look("station: the form was saved before")
    served.kill()
    log = pathlib.Path(served.folder) / "hall.visits.sqlite"
    served.start()
    good = log.read_bytes()
    open_page("station while the log is well", served.paths["Y1"])
    type_into("[name=seen]", "7")
    log.write_bytes(b"no log " * 1000)
    browser.send()
    looker.look("station: not saved")
    log.write_bytes(good)


def main():
    for program in ("chromium", "chromedriver"):
        if not shutil.which(program):
            skip(f"{program} is not here; Debian has it as chromium and chromium-driver")
    script = axe()
    if not script:
        skip("axe-core could not be had from npm")
    source = pathlib.Path(tempfile.mkdtemp(prefix="gallipot-"))
    (source / "examples").mkdir()
    hall = (pathlib.Path(SOURCE) / "examples/hall.yaml").read_text()
    before = next(line for line in hall.splitlines() if line.startswith("languages:"))
    (source / "examples/hall.yaml").write_text(
        hall.replace(before, f"languages: [{', '.join(LANGUAGES)}]"))
    found = []
    try:
        for language in LANGUAGES:
            with Served(PROGRAM, source) as served, Browser(language=language) as browser:
                looker = Looker(browser, script, language)
                walk(served, browser, looker)
                assert "a fault of ours" not in served.stderr(), served.stderr()
                broken = [one for one in browser.complaints() if "Content Security Policy" in one]
                assert not broken, broken
            print(f"{language}: {looker.pages} pages, {len(looker.found)} violations")
            found += looker.found
    finally:
        shutil.rmtree(source, ignore_errors=True)
    for one in found:
        print(one)
    sys.exit(1 if found else 0)


if __name__ == "__main__":
    main()
