#!/usr/bin/env python3
"""The mutation check: is every change of the computation noticed by a test?

    cmake --build BUILD --target test_reference test_mixing test_safety test_plan test_document
    tests/mutation/run.py BUILD                all of it, about an hour on one core
    tests/mutation/run.py BUILD --survivors    only what survived the last time
    tests/mutation/run.py BUILD --only src/domain/mixing/evaporation.cpp[:LINE]
    tests/mutation/run.py BUILD --list         what would be changed

One change at a time in src/domain/mixing, src/domain/safety and the reference values they use (sites.py says which
changes): the changed file is compiled without optimizing, linked before the archive that holds the
good one, and the tests run until one fails. BUILD is a Dev build and stays as it is; what is made lies
in BUILD/mutation. Exit 1 when a change survives that SURVIVORS.md does not list.
"""
import argparse
import concurrent.futures
import json
import os
import pathlib
import re
import shlex
import signal
import subprocess
import sys
import threading
import time

sys.path.insert(0, str(pathlib.Path(__file__).parent))
from sites import sites_of  # noqa: E402

TOP = pathlib.Path(__file__).resolve().parents[2]
# What is changed, and which tests should notice, the likeliest first.
FILES = {
    "src/domain/mixing/*.cpp": ["mixing", "plan", "document"],
    "src/domain/safety/*.cpp": ["safety", "plan", "document"],
    "src/domain/safety/classify.hpp": ["safety", "plan", "document"],
    "src/domain/reference/evaporation.hpp": ["reference", "mixing", "plan", "document"],
    "src/domain/reference/coverage.hpp": ["reference", "plan", "document"],
    "src/domain/reference/borates.cpp": ["reference", "mixing", "plan", "document"],
    "src/domain/reference/foods.cpp": ["reference", "mixing", "plan", "document"],
    "src/domain/reference/substances.cpp": ["reference", "mixing", "plan", "document"],
    "src/domain/reference/sucrose.cpp": ["reference", "mixing", "plan", "document"],
}
SECONDS_MORE = 10  # than ten times what a test takes: it hangs


def test_program(build, test):
    """Where the build puts a layer's tests: tests/domain/mixing/test_mixing."""
    return next(build.glob(f"tests/**/test_{test}"))


def commands(build, target):
    """What ninja would run last for a target: the link of a program, the compilation of an object."""
    lines = subprocess.run(["ninja", "-C", build, "-t", "commands", "-s", target], check=True,
                           capture_output=True, text=True).stdout.splitlines()
    return lines[-1]


class Checker:
    def __init__(self, build):
        self.build = build
        self.work = build / "mutation"
        self.work.mkdir(exist_ok=True)
        self.compile = {}
        for entry in json.loads((build / "compile_commands.json").read_text()):
            self.compile[pathlib.Path(entry["file"])] = shlex.split(entry["command"])
        self.links, self.seconds = {}, {}

    def link_line(self, test):
        if test not in self.links:
            line = commands(self.build, str(test_program(self.build, test).relative_to(self.build)))
            self.links[test] = shlex.split(re.sub(r"^: && | && :$", "", line))
        return self.links[test]

    def flags(self, source):
        """Of the compiler, without the launcher, outputs, warnings and levels of optimizing."""
        words = self.compile[source]
        start = next(i for i, word in enumerate(words) if re.search(r"(c\+\+|g\+\+)$", word))
        flags, skip = [words[start]], False
        for word in words[start + 1:]:
            if skip or word in ("-o", "-MT", "-MF", "-c"):
                skip = not skip and word != "-c"
                continue
            if word == str(source) or re.match(r"-(W|O|g|MD|fdiagnostics)", word):
                continue
            flags.append(word)
        return flags + ["-O0", "-w"]

    def users(self, header):
        """The sources that the tests link and that include it."""
        name = header.relative_to(TOP / "src").as_posix()
        return [path for folder in ("domain", "papers/document")
                for path in sorted((TOP / "src" / folder).rglob("*.cpp"))
                if f'"{name}"' in path.read_text()]

    def prepare(self, sources):
        """By source, a precompiled header of what all with its flags include: most of its time."""
        alike = {}
        for source in sources:
            alike.setdefault(tuple(self.flags(source)), []).append(source)
        headers = {}
        for i, (flags, group) in enumerate(alike.items()):
            header = self.work / f"includes-{i}.hpp"
            lines = {line for source in group
                     for line in re.findall(r"^#include .*$", source.read_text(), re.M)}
            header.write_text("\n".join(sorted(lines)) + "\n")
            subprocess.run([*flags, "-x", "c++-header", header, "-o", f"{header}.gch"],
                           check=True, cwd=self.build)
            headers.update((source, header) for source in group)
        return headers

    def baseline(self, test):
        before = time.monotonic()
        if self.run_test(test_program(self.build, test), 600) != "passed":
            sys.exit(f"test_{test} does not pass as it is")
        self.seconds[test] = time.monotonic() - before

    def run_test(self, program, seconds):
        process = subprocess.Popen([program, "--abort"], cwd=self.build, stdout=subprocess.DEVNULL,
                                   stderr=subprocess.DEVNULL, start_new_session=True)
        try:
            return "passed" if process.wait(seconds) == 0 else "failed"
        except subprocess.TimeoutExpired:
            os.killpg(process.pid, signal.SIGKILL)
            process.wait()
            return "hangs"

    def try_one(self, file, text, site, tests, header, slot):
        """killed by TEST, hangs, survived, or no program (it does not compile)."""
        folder = self.work / f"slot-{slot}"
        folder.mkdir(exist_ok=True)
        changed = text[:site.start] + site.after + text[site.end:]
        objects = []
        if file.suffix == ".hpp":
            overlay = folder / "overlay"
            name = overlay / file.relative_to(TOP / "src")
            name.parent.mkdir(parents=True, exist_ok=True)
            name.write_text(changed)
            sources = [(path, [f"-I{overlay}"], path) for path in self.users(file)]
        else:
            copy = folder / file.name
            copy.write_text(changed)
            sources = [(copy, ["-include", header], file)]
        done = True
        for i, (path, more, like) in enumerate(sources):
            flags = self.flags(like)
            out = folder / f"{i}.o"
            done = done and subprocess.run(
                [flags[0], *more, *flags[1:], "-c", path, "-o", out], cwd=self.build,
                stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL, check=False).returncode == 0
            objects.append((like.parent.name, str(out)))
        if file.suffix == ".hpp":
            name.unlink()
        if not done:
            return "no program"
        for test in tests:
            line = list(self.link_line(test))
            at = line.index("-o")
            program = folder / f"test_{test}"
            line[at + 1] = str(program)
            line[at:at] = [out for layer, out in objects
                           if any(word.endswith(f"/libgallipot_{layer}.a") for word in line)]
            subprocess.run(line, cwd=self.build, check=True)
            result = self.run_test(program, self.seconds[test] * 10 + SECONDS_MORE)
            program.unlink()
            if result != "passed":
                return "hangs" if result == "hangs" else f"killed by {test}"
        return "survived"


def listed_survivors():
    """The file and the change by its symbol, as SURVIVORS.md lists them."""
    text = (pathlib.Path(__file__).parent / "SURVIVORS.md").read_text()
    return set(re.findall(r"^- `(.+?)`: `(.+)`", text, re.M))


def main():
    arguments = argparse.ArgumentParser()
    arguments.add_argument("build", type=pathlib.Path)
    arguments.add_argument("--only", default="")
    arguments.add_argument("--survivors", action="store_true")
    arguments.add_argument("--list", action="store_true")
    arguments.add_argument("--tests", type=lambda text: text.split(","), help="only these")
    arguments.add_argument("-j", type=int, default=1)
    chosen = arguments.parse_args()
    checker = Checker(chosen.build.resolve())
    last = checker.work / "survivors.json"
    before = {tuple(key) for key in json.loads(last.read_text())} if chosen.survivors else None

    todo = []
    for pattern, tests in FILES.items():
        for file in sorted(TOP.glob(pattern)):
            name = file.relative_to(TOP).as_posix()
            only, _, line = chosen.only.partition(":")
            if only and name != only:
                continue
            text = file.read_text()
            for site in sites_of(text, strings="safety" in name):
                if line and site.line != int(line):
                    continue
                if before is None or (name, site.change) in before:
                    todo.append((file, name, text, site, chosen.tests or tests))
    if chosen.list:
        for _, name, _, site, _ in todo:
            print(f"{name}:{site.line}: {site.change}")
        print(len(todo), "changes")
        return 0

    for test in sorted({test for *_, tests in todo for test in tests}):
        checker.baseline(test)
    headers = checker.prepare(sorted({one[0] for one in todo if one[0].suffix == ".cpp"}))
    counts, survivors, lock = {}, [], threading.Lock()
    slots = list(range(chosen.j))

    def work(one):
        file, name, text, site, tests = one
        with lock:
            slot = slots.pop()
        result = checker.try_one(file, text, site, tests, headers.get(file), slot)
        with lock:
            slots.append(slot)
            counts[result] = counts.get(result, 0) + 1
            if result == "survived":
                survivors.append((name, site.change))
                print(f"{name}:{site.line}: {site.line_changed}\n    `{site.change}`", flush=True)
            done = sum(counts.values())
            if done % 50 == 0:
                print(f"# {done} of {len(todo)}: {counts}", flush=True)

    with concurrent.futures.ThreadPoolExecutor(chosen.j) as pool:
        list(pool.map(work, todo))
    if not chosen.only:
        last.write_text(json.dumps(survivors, indent=0))
    known = listed_survivors()
    unlisted = [one for one in survivors if one not in known]
    total = sum(counts.values()) - counts.get("no program", 0)
    print(f"{total} changes: {total - len(survivors)} noticed, {len(survivors)} not, of which "
          f"{len(unlisted)} are not in SURVIVORS.md ({counts})")
    return 1 if unlisted else 0


if __name__ == "__main__":
    sys.exit(main())
