"""The hall of the examples, served by the real program from a folder of its own."""
import json
import os
import pathlib
import re
import shutil
import signal
import subprocess
import tempfile
import urllib.error
import urllib.parse
import urllib.request


class Served:
    """`with Served(program, source) as served:`; `folder` is made and removed when none is given."""

    def __init__(self, program, source, folder=None):
        self.program = program
        self.own = folder is None
        self.folder = pathlib.Path(folder or tempfile.mkdtemp(prefix="gallipot-"))
        self.job = self.folder / "hall.yaml"
        shutil.copy(pathlib.Path(source) / "examples/hall.yaml", self.job)
        self.process = None
        self.cookie = ""
        self.port = 0
        self.told = open(self.folder / "told.txt", "ab")

    def __enter__(self):
        plan = json.loads(self.run("plan", self.job, "--json").stdout)
        # As printed on the labels, but for the host.
        self.paths = {
            station["id"]: urllib.parse.urlsplit(station["link"]).path
            for station in plan["stations"]
        }
        self.start()
        return self

    def __exit__(self, *unused):
        self.kill()
        self.told.close()
        if self.own:
            shutil.rmtree(self.folder, ignore_errors=True)

    def run(self, *arguments, expect=0):
        done = subprocess.run(
            [self.program, *map(str, arguments)], capture_output=True, text=True, check=False
        )
        assert done.returncode == expect, (arguments, done.returncode, done.stderr)
        return done

    def start(self):
        """At the same port as before, as after a power cut."""
        self.process = subprocess.Popen(
            [self.program, "serve", self.job, "--listen", f"127.0.0.1:{self.port}"],
            stdout=subprocess.PIPE, stderr=self.told, text=True,
            env={**os.environ, "TERM": "dumb"},
        )
        for line in self.process.stdout:
            if match := re.match(r"\s+http://127\.0\.0\.1:(\d+)$", line):
                self.port = int(match[1])
            if match := re.match(r"\s+HTTP://[^/]+(/ALL/\w+)$", line):
                self.code = match[1]  # the caretaker's
            if line.startswith("Stop with"):
                self.become_caretaker()
                return
        raise AssertionError("the server did not start: " + self.stderr())

    def stderr(self):
        return (self.folder / "told.txt").read_text(errors="replace")

    def kill(self, how=signal.SIGKILL):
        if self.process and self.process.poll() is None:
            self.process.send_signal(how)
        if self.process:
            code = self.process.wait(20)
            self.process.stdout.close()
            return code
        return None

    @property
    def base(self):
        return f"http://127.0.0.1:{self.port}"

    overview = "/ALL"

    def become_caretaker(self):
        """Opens the caretaker's code, as a phone does that scans it; once."""
        if self.cookie:
            return
        try:
            OPENER.open(self.base + self.code, timeout=10)
        except urllib.error.HTTPError as answer:
            assert answer.code == 303, answer.code
            given = [one for one in answer.headers.get_all("Set-Cookie") if one.startswith("caretaker")]
            self.cookie = given[0].split(";")[0]

    def post(self, station, fields, timeout=10):
        """(status, page) of a form sent to a station by the caretaker; the redirect is not
        followed."""
        request = urllib.request.Request(
            self.base + self.paths[station], urllib.parse.urlencode(fields, doseq=True).encode(),
            {"Cookie": self.cookie},
        )
        try:
            with OPENER.open(request, timeout=timeout) as answer:
                return answer.status, answer.read().decode()
        except urllib.error.HTTPError as answer:
            return answer.code, answer.read().decode()

    def visits(self):
        return json.loads(self.run("log", self.job, "--json").stdout)["visits"]


class Stay(urllib.request.HTTPRedirectHandler):
    def redirect_request(self, *unused):
        return None


OPENER = urllib.request.build_opener(Stay, urllib.request.ProxyHandler({}))
