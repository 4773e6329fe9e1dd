"""A small client of the WebDriver protocol (W3C WebDriver Level 2), and Chromium behind it."""
import base64
import json
import os
import pathlib
import shutil
import socket
import subprocess
import tempfile
import time
import urllib.error
import urllib.request

ELEMENT = "element-6066-11e4-a52e-4f735466cecf"  # the protocol's own name for an element
DIRECT = urllib.request.build_opener(urllib.request.ProxyHandler({}))


class WebDriverError(Exception):
    pass


class Browser:
    """Chromium without a screen, 390 pixels wide like a phone, with an empty profile of its own."""

    def __init__(self, javascript=True, language="en", page_cache=True, profile=None):
        self.own_profile = profile is None
        self.profile = profile or tempfile.mkdtemp(prefix="gallipot-browser-")
        with socket.socket() as free:
            free.bind(("127.0.0.1", 0))
            port = free.getsockname()[1]
        self.driver = subprocess.Popen(
            ["chromedriver", f"--port={port}"],
            stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL,
            env={**os.environ, "LANGUAGE": language},
        )
        self.base = f"http://127.0.0.1:{port}"
        self.session = ""
        self.javascript = javascript
        options = {
            "args": [
                "--headless", "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run",
                "--disable-background-networking", "--disable-component-update", "--disable-sync",
                "--no-proxy-server", f"--user-data-dir={self.profile}", f"--lang={language}",
                "--disable-dev-shm-usage",
            ] + ([] if page_cache else ["--disable-features=BackForwardCache"]),
            "prefs": {"intl.accept_languages": language},
            "mobileEmulation": {
                "deviceMetrics": {"width": 390, "height": 844, "pixelRatio": 2, "touch": True}
            },
        }
        for _ in range(100):
            try:
                self.call("GET", "/status")
                break
            except (OSError, WebDriverError):
                time.sleep(0.1)
        self.session = "/session/" + self.call(
            "POST", "/session",
            {"capabilities": {"alwaysMatch": {
                "browserName": "chrome", "goog:chromeOptions": options,
                "goog:loggingPrefs": {"browser": "ALL"}}}},
        )["sessionId"]
        if not javascript:
            self.devtools("Emulation.setScriptExecutionDisabled", value=True)
        self.open("data:text/html,<p>off</p><script>document.body.innerText='on'</script>")
        assert self.text == ("on" if javascript else "off"), self.text

    def __enter__(self):
        return self

    def __exit__(self, *unused):
        try:
            self.call("DELETE", "")
        except (OSError, WebDriverError):
            pass
        self.driver.terminate()
        self.driver.wait(10)
        if self.own_profile:
            shutil.rmtree(self.profile, ignore_errors=True)

    def call(self, method, path, body=None):
        data = json.dumps(body or {}).encode() if method == "POST" else None
        request = urllib.request.Request(
            self.base + self.session + path, data, {"Content-Type": "application/json"},
            method=method,
        )
        try:
            with DIRECT.open(request, timeout=60) as answer:
                return json.load(answer)["value"]
        except urllib.error.HTTPError as error:
            raise WebDriverError(json.load(error)["value"]["message"]) from None

    def open(self, link):
        try:
            self.call("POST", "/url", {"url": link})
        except WebDriverError as error:
            if "ERR_CONNECTION" not in str(error):
                raise

    def back(self):
        self.call("POST", "/back")

    def reload(self):
        try:
            self.call("POST", "/refresh")
        except WebDriverError as error:
            if "ERR_CONNECTION" not in str(error):
                raise

    @property
    def link(self):
        return self.call("GET", "/url")

    def arrives(self, part):
        """Waits until the address holds `part`."""
        self.until(lambda: part in self.link, part)

    def send(self):
        """Presses the button that saves, or the page's one, and waits for what comes of it. The click alone does not
        always wait: a form may lead back to the address it stands at."""
        before = self.all("html")[0].path
        (self.all(".save button") or [self.one("button")])[0].click()
        self.until(lambda: self.all("html")[0].path != before, "a new page")

    def until(self, there, what):
        for _ in range(600):
            try:
                if there():
                    return
            except (WebDriverError, IndexError):
                pass  # between two pages
            time.sleep(0.05)
        raise AssertionError(f"at {self.link}, not {what}")

    def all(self, selector):
        found = self.call("POST", "/elements", {"using": "css selector", "value": selector})
        return [Element(self, one[ELEMENT]) for one in found]

    def one(self, selector):
        found = self.all(selector)
        assert len(found) == 1, f"{len(found)} of {selector} at {self.link}"
        return found[0]

    @property
    def text(self):
        return self.one("body").text

    def script(self, text):
        return self.call("POST", "/execute/sync", {"script": text, "args": []})

    def devtools(self, command, **parameters):
        return self.call(
            "POST", "/goog/cdp/execute", {"cmd": command, "params": parameters}
        )

    def complaints(self):
        """What the browser wrote to its console: broken policy, broken page."""
        return [
            entry["message"] for entry in self.call("POST", "/se/log", {"type": "browser"})
            if entry["level"] in ("SEVERE", "WARNING")
        ]

    def picture(self, path):
        """The whole page, not only what fits on the screen."""
        shot = self.devtools("Page.captureScreenshot", captureBeyondViewport=True)
        pathlib.Path(path).write_bytes(base64.b64decode(shot["data"]))


class Element:
    def __init__(self, browser, reference):
        self.browser = browser
        self.path = f"/element/{reference}"

    def click(self):
        """A tap; without JavaScript the key that does the same, for chromedriver scrolls to what it
        taps by a script of its own."""
        try:
            if self.browser.javascript:
                # As a person scrolls: away from the bar that stays in view.
                self.browser.call("POST", "/execute/sync", {
                    "script": "arguments[0].scrollIntoView({block: 'center'})",
                    "args": [{ELEMENT: self.path.removeprefix("/element/")}]})
                self.browser.call("POST", self.path + "/click")
            else:
                box = self.get("property/type") in ("radio", "checkbox")
                self.type(" " if box else "\ue007")
        except WebDriverError as error:
            if "ERR_CONNECTION" not in str(error):
                raise

    def type(self, text):
        self.browser.call("POST", self.path + "/value", {"text": text})

    def get(self, what):
        return self.browser.call("GET", self.path + "/" + what)

    @property
    def text(self):
        return self.get("text")

    @property
    def value(self):
        return self.get("property/value")

    @property
    def checked(self):
        return self.get("selected")
