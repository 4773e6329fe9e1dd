#!/usr/bin/env python3
"""The visit log as a person with a phone meets it: real Chromium, 390 pixels wide, with JavaScript
and without.

    browser_test.py PROGRAM SOURCE_FOLDER [FOLDER FOR PICTURES]
"""
import http.server
import pathlib
import shutil
import sys
import threading

sys.path.insert(0, str(pathlib.Path(__file__).resolve().parent.parent))
from served import Served  # noqa: E402
from driver import Browser  # noqa: E402

PROGRAM, SOURCE = sys.argv[1:3]
PICTURES = pathlib.Path(sys.argv[3]) if len(sys.argv) > 3 else None


def picture(browser, name):
    if PICTURES:
        PICTURES.mkdir(parents=True, exist_ok=True)
        browser.picture(PICTURES / f"{name}.png")


def unfold(browser, selector):
    """Opens what is folded away around it."""
    for fold in browser.all(f"details:has({selector})"):
        if not fold.get("property/open"):
            browser.one(f"details:has({selector}) > summary").click()


def fill(browser, **fields):
    if "dead" in fields:
        unfold(browser, "#dead")
    for name in ("seen", "dead", "note", "by"):
        if name in fields:
            browser.one(f"[name={name}]").type(fields[name])
    for ident in fields.get("press", []):
        unfold(browser, f"[id='{ident}']")
        browser.one(f"[id='{ident}']").click()  # the box lies over its label


def a_neighbour_tells_the_caretaker(served, browser):
    """As on any phone that has not scanned the caretaker's code."""
    browser.open(served.base + served.paths["K1"])
    assert not browser.all("[name=seen]"), "a neighbour is shown the form of a visit"
    picture(browser, "neighbour")
    browser.one("#told-spilt").click()
    browser.one("[name=words]").type("by the <b>door</b>")
    browser.send()
    assert browser.link.endswith("/TOLD"), browser.link
    browser.open(served.base + "/ALL")
    assert "Not possible" in browser.one("h1").text
    browser.open(served.base + served.code)
    assert browser.link.endswith("/ALL?new=1"), browser.link
    assert "by the <b>door</b>" in browser.one(".told").text
    picture(browser, "code")
    browser.all(".told button")[0].click()
    browser.until(lambda: not browser.all(".told ul button"), "the report looked at")
    assert not served.visits()


def what_was_typed_comes_back(served, browser):
    """Without the browser's page cache, which keeps whole pages as they were."""
    browser.open(served.base + served.paths["E1"])
    browser.one("[name=seen]").type("17")
    unfold(browser, "#dead")
    browser.one("[name=dead]").type("3")
    browser.one("[name=note]").type("typed")
    browser.open(served.base + "/ALL")
    browser.back()
    for name, value in (("seen", "17"), ("dead", "3"), ("note", "typed")):
        assert browser.one(f"[name={name}]").value == value, name


def scan_fill_save_look_back_reload(served, browser):
    browser.open(served.base + served.paths["K1"])
    assert "K1" in browser.one("h1").text
    fill(browser, seen="9", dead="2", note="Holes were dusty", by="Hall caretaker",
         press=["station-K1-2", "level-75", "state-clogged", "did-cleared"])
    picture(browser, "filled")
    browser.send()
    assert "/SAVED/1" in browser.link, browser.link
    saved = browser.one(".saved").text
    for part in ("K1-2", "9", "75", "clogged", "cleared it", "Holes were dusty", "Hall caretaker"):
        assert part in saved, (part, saved)
    picture(browser, "saved")
    browser.reload()
    assert "/SAVED/1" in browser.link, browser.link
    browser.back()
    assert browser.one("[name=seen]").value == "9", "what was typed is gone after going back"
    browser.reload()
    assert len(browser.all(".visits li")) <= 1
    browser.open(served.base + served.paths["K1"])
    assert len(browser.all(".visits li")) == 1
    assert browser.one("[name=by]").value == "Hall caretaker", "the name is not remembered"
    assert len(served.visits()) == 1
    assert served.visits()[0]["station"] == "K1-2"


def going_back_and_saving_again_is_asked_about(served, browser):
    browser.open(served.base + served.paths["K2"])
    fill(browser, seen="30")
    browser.send()
    assert "/SAVED/" in browser.link, browser.text
    browser.back()
    browser.send()  # the same once more: recorded once
    assert "/SAVED/" in browser.link, browser.text
    assert sum(visit["station"] == "K2" for visit in served.visits()) == 1
    browser.back()
    browser.one("[name=seen]").type("0")  # now 300
    browser.send()
    assert "saved before" in browser.one(".trouble").text
    assert browser.one("[name=seen]").value == "300"
    picture(browser, "asked")
    browser.all("#corrects input")[0].click()
    browser.send()
    assert "/SAVED/" in browser.link, browser.text
    assert [v["seen"] for v in served.visits() if v["station"] == "K2"] == [300]


def a_fault_brings_the_form_back(served, browser):
    browser.open(served.base + served.paths["E1"])
    fill(browser, seen="a few", note="typed with wet fingers", press=["level-0", "state-dry"])
    browser.send()
    assert "/SAVED/" not in browser.link
    picture(browser, "fault")
    assert browser.one("[name=seen]").value == "a few"
    assert browser.one("[name=note]").value == "typed with wet fingers"
    assert browser.one("#level-0").checked and browser.one("#state-dry").checked
    assert browser.one("[name=seen]").get("computedlabel")
    browser.one(".trouble a").click()
    browser.arrives("#seen")
    browser.call("POST", browser.one("[name=seen]").path + "/clear")
    fill(browser, seen="4")
    browser.send()
    assert "/SAVED/" in browser.link, browser.text
    assert [v["seen"] for v in served.visits() if v["station"] == "E1"] == [4]


def a_lost_connection_loses_nothing(served, browser):
    browser.open(served.base + served.paths["Y1"])
    fill(browser, seen="7", note="in the rain", press=["state-wet"])
    served.kill()
    browser.send()
    assert not browser.all(".saved")
    served.start()
    browser.reload()  # what the browser's own page offers: it sends the form again
    if "/SAVED/" not in browser.link:
        browser.back()
        assert browser.one("[name=note]").value == "in the rain", "typed and lost"
        assert browser.one("#state-wet").checked
        browser.send()
    assert "/SAVED/" in browser.link, browser.text
    assert [v["note"] for v in served.visits() if v["station"] == "Y1"] == ["in the rain"]

    # Going back instead.
    browser.open(served.base + served.paths["Y1"])
    fill(browser, note="in the rain again", press=["level-50"])
    served.kill()
    browser.send()
    served.start()
    browser.back()
    assert browser.one("[name=note]").value == "in the rain again", "typed and lost"
    assert browser.one("#level-50").checked
    browser.send()
    assert "/SAVED/" in browser.link, browser.text
    assert sum(v["station"] == "Y1" for v in served.visits()) == 2


def a_correction(served, browser):
    browser.open(served.base + served.paths["R1"])
    fill(browser, seen="80")
    browser.send()
    browser.one(".button[href*=CORRECT]").click()
    browser.arrives("/CORRECT/")
    seen = browser.one("[name=seen]")
    assert seen.value == "80"
    browser.call("POST", seen.path + "/clear")
    seen.type("8")
    picture(browser, "correction")
    browser.send()
    assert "/SAVED/" in browser.link, browser.text
    assert [v["seen"] for v in served.visits() if v["station"] == "R1"] == [8]


def first_aid_is_one_tap_away(served, browser):
    for path in (served.paths["K1"], served.overview, "/nowhere"):
        browser.open(served.base + path)
        browser.one(".band .aid").click()
        browser.arrives("#first-aid")
        aid = browser.one("#first-aid").text
        assert "13 11 26" in aid.replace("\u00a0", " ") and "000" in aid, aid
        assert browser.one(".band .call").get("attribute/href") == "tel:131126"


def everything_can_be_pressed_and_is_named(served, browser):
    browser.open(served.base + served.paths["K1"])
    for selector in ("input:not([type=hidden])", "textarea", "button:not(.enter)", "summary", ".band a",
                     ".button"):
        for element in browser.all(selector):
            if not element.get("displayed") and element.get("property/type") not in (
                "radio", "checkbox",
            ):
                continue  # inside what is folded away
            assert element.get("computedlabel"), selector
            size = element.get("rect")
            assert size["height"] >= 48 and size["width"] >= 48, (selector, size)
    for group in browser.all("fieldset"):
        assert group.get("computedrole") == "group" and group.get("computedlabel")


def fits_and_breaks_no_policy(served, browser):
    for language in ("en", "es", "de", "fil", "uk"):
        for name, path in (("station", served.paths["K1"]), ("overview", served.overview),
                           ("round", "/ROUND")):
            browser.open(f"{served.base}{path}?lang={language}")
            picture(browser, f"{name}-{language}")
            wide = browser.script("return document.documentElement.scrollWidth")
            assert wide <= 390, f"{name} in {language} is {wide} wide"
    browser.devtools(
        "Emulation.setEmulatedMedia",
        features=[{"name": "prefers-color-scheme", "value": "dark"}],
    )
    browser.open(served.base + served.paths["K1"])
    ground = browser.script("return getComputedStyle(document.body).backgroundColor")
    assert ground == "rgb(17, 17, 17)", ground
    picture(browser, "dark")
    broken = [one for one in browser.complaints() if "Content Security Policy" in one]
    assert not broken, broken


class Elsewhere(http.server.BaseHTTPRequestHandler):
    """A page of somebody else that sends a form to us."""

    target = ""

    def do_GET(self):
        page = (
            f'<form method="post" action="{self.target}"><input name="seen" value="666">'
            "<button>win a prize</button></form>"
        ).encode()
        self.send_response(200)
        self.send_header("Content-Type", "text/html")
        self.end_headers()
        self.wfile.write(page)

    def log_message(self, *unused):
        pass


def forms_of_other_sites_are_refused(served, browser):
    Elsewhere.target = served.base + served.paths["C1"]
    server = http.server.ThreadingHTTPServer(("127.0.0.1", 0), Elsewhere)
    threading.Thread(target=server.serve_forever, daemon=True).start()
    browser.open(f"http://localhost:{server.server_port}/")
    browser.send()
    assert "Not saved." in browser.text, browser.text
    server.shutdown()
    assert not any(v["station"] == "C1" for v in served.visits())


def two_taps_at_once(served, browser):
    browser.open(served.base + served.paths["C1"])
    fill(browser, seen="55")
    browser.script(
        "const f = document.forms[0]; f.requestSubmit(); f.requestSubmit(); setTimeout(() => f.submit(), 0)"
    )
    browser.arrives("/SAVED/")
    assert sum(v["station"] == "C1" for v in served.visits()) == 1


def main():
    for program in ("chromium", "chromedriver"):
        if not shutil.which(program):
            print(f"SKIPPED: {program} is not here; Debian has it as chromium and chromium-driver")
            sys.exit(77)
    for javascript in (True, False):
        with Served(PROGRAM, SOURCE) as served, Browser(javascript) as browser:
            steps = [
                a_neighbour_tells_the_caretaker,
                scan_fill_save_look_back_reload,
                going_back_and_saving_again_is_asked_about,
                a_fault_brings_the_form_back,
                a_lost_connection_loses_nothing,
                a_correction,
                first_aid_is_one_tap_away,
                everything_can_be_pressed_and_is_named,
                forms_of_other_sites_are_refused,
            ]
            if javascript:
                steps += [two_taps_at_once, fits_and_breaks_no_policy]
            for step in steps:
                step(served, browser)
                print(("with" if javascript else "without"), "JavaScript:",
                      step.__name__.replace("_", " "))
            assert "a fault of ours" not in served.stderr(), served.stderr()
        with Served(PROGRAM, SOURCE) as served, Browser(javascript, page_cache=False) as browser:
            browser.open(served.base + served.code)
            what_was_typed_comes_back(served, browser)
    print("all well")


if __name__ == "__main__":
    main()
