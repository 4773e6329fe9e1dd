"""Time, memory and bytes of gallipot and of general-purpose peers, measured in one run: see run.sh."""

import argparse
import glob
import json
import os
import re
import statistics
import subprocess
import sys
import tempfile
import time

HERE = os.path.dirname(os.path.abspath(__file__))
TOP = os.path.dirname(os.path.dirname(HERE))
MM = 25.4 / 72
# What the labels of all three lie on; gallipot reads the same figures from templates/stocks.
STOCK = "a4-2x4"

JOB = """title: Long Row Stores
prepared: 2027-03-02
languages: [en]
paper: A4
labels: {stock}
help: {{ region: AU, contact: {{ name: Storekeeper, phone: (02) 5550 0142 }} }}
log: {{ address: "http://192.168.1.20:8017" }}
measures: [1 tbsp, 1 tsp, 1/2 tsp, 1/4 tsp, {{ jug: 5 L, marks: 100 mL }}, {{ scale: 10 kg, marks: 1 g }}]
mixes:
  syrup:
    title: Sweet liquid bait
    against: ants
    form: liquid
    basis: percent w/w
    ingredients: {{ borax: 1, sugar: 20, water: rest }}
    limits: {{ borax: 1.5 }}
    vessel: 10 L
    lasts: 30 d
containers:
  cup: {{ holds: 60 mL, fill: 45 mL, body: {{ diameter: 48 mm, height: 44 mm }}, openings: 4 side holes of 6 mm }}
stations:
"""


def write_job(path, stations, cups=1):
    count = f"count: {cups}, " if cups > 1 else ""
    with open(path, "w", encoding="utf-8") as file:
        file.write(JOB.format(stock=STOCK))
        for i in range(1, stations + 1):
            file.write(
                f"  - {{ id: B{i}, place: \"Bay {i}, under the rack\", mix: syrup, container: cup, "
                f"{count}placed: 2027-03-02 19:30, near: [children, food] }}\n"
            )


class Run:
    """One command: seconds by the clock, seconds of the processor, most memory in MiB.

    By way of time(1), since the memory of a process counts what its parent had when it was born."""

    def __init__(self, command, **options):
        with tempfile.NamedTemporaryFile("r") as figures:
            done = subprocess.run(
                ["/usr/bin/time", "-o", figures.name, "-f", "%e %U %S %M", *command],
                stdout=subprocess.DEVNULL, stderr=subprocess.PIPE, **options,
            )
            if done.returncode != 0:
                sys.exit(f"{' '.join(command)}\n{done.stderr.decode()}")
            clock, user, system, kilobytes = figures.read().split()
        self.processor = float(user) + float(system)
        self.memory = int(kilobytes) / 1024
        begin = time.perf_counter()
        # Seconds to more than time(1)'s two decimals, for what is short; the run above warmed up.
        if self.processor < 5:
            subprocess.run(command, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL, check=True, **options)
            self.seconds = time.perf_counter() - begin
        else:
            self.seconds = float(clock)


def best(command, times, **options):
    """The run with the median time of so many."""
    runs = sorted((Run(command, **options) for _ in range(times)), key=lambda run: run.seconds)
    return runs[len(runs) // 2]


def font_bytes(path):
    """Bytes of the font programs in a PDF: streams with a Length1, as PDF 32000-1 has it."""
    data = open(path, "rb").read()
    lengths = {int(n): int(v) for n, v in re.findall(rb"\n(\d+) 0 obj\s+(\d+)\s+endobj", data)}
    total = 0
    for head in re.findall(rb"obj\s*<<([^>]*?/Length1[^>]*?)>>\s*stream", data):
        indirect = re.search(rb"/Length (\d+) 0 R", head)
        total += lengths[int(indirect[1])] if indirect else int(re.search(rb"/Length (\d+)", head)[1])
    if total == 0:
        sys.exit(f"{path}: no embedded font found")
    return total


def bytes_a_label(paths, labels):
    return sum(os.path.getsize(path) - font_bytes(path) for path in paths) / labels


def first_label(path):
    """The lines that stand on the first label: the peers set the same."""
    text = subprocess.run(
        ["pdftotext", "-l", "1", "-layout", "-x", "0", "-y", "0", "-W", "298", "-H", "205", path, "-"],
        capture_output=True, text=True, check=True,
    ).stdout
    return [line.strip() for line in text.splitlines() if line.strip()]


def labels_table(gallipot, peers, count, work):
    job = os.path.join(work, "labels.yaml")
    write_job(job, count)
    out = os.path.join(work, "papers")
    render = [gallipot, "render", job, "-o", out, "--only", "labels"]
    Run(render)
    ours = best(render, 5)
    files = sorted(glob.glob(os.path.join(out, "labels*.pdf")))
    rows = [("gallipot", ours, bytes_a_label(files, count))]
    if peers:
        plan = json.loads(subprocess.run([gallipot, "plan", job, "--json"], capture_output=True, check=True).stdout)
        lines = first_label(files[0])
        content = {
            "page": {"width": 210, "height": 297},
            "label": {"columns": 2, "rows": 4, "left": 5, "top": 12, "width": 99, "height": 67.7, "across": 101, "down": 67.7},
            "signal": "WARNING",
            "lines": [line for line in lines[2:]],
            "fonts": {name: f"/usr/share/fonts/truetype/noto/NotoSans-{face}.ttf"
                      for name, face in (("regular", "Regular"), ("bold", "Bold"))},
            "labels": [{"id": s["id"], "code": s["link"]} for s in plan["stations"]],
        }
        print(f"Each label: a band, a code and {len(content['lines'])} lines of text.")
        path = os.path.join(work, "content.json")
        with open(path, "w", encoding="utf-8") as file:
            json.dump(content, file)
        for name, command in (
            ("pdfkit + qrcode (npm)", ["node", "pdfkit.js"]),
            ("ReportLab (Debian)", ["/usr/bin/python3", "reportlab_labels.py"]),
        ):
            pdf = os.path.join(work, command[1] + ".pdf")
            run = Run(command + [path, pdf], cwd=peers)
            size = os.path.getsize(pdf)
            rows.append((name, run, (size - peer_fonts(pdf)) / count))
    print(f"\n| {count:,} labels | time | against gallipot | memory | bytes a label |\n|---|---|---|---|---|")
    for name, run, size in rows:
        print(f"| {name} | {run.seconds:.2f} s | {run.seconds / ours.seconds:.1f} | {run.memory:.0f} MiB | {size:,.0f} |")
    print(f"\ngallipot took {ours.processor:.2f} s of the processor, in {len(files)} file(s).")
    return ours


def peer_fonts(path):
    data = open(path, "rb").read()
    found = re.findall(rb"/FontFile2 (\d+) 0 R", data)
    total = 0
    for number in set(found):
        head = re.search(rb"\n" + number + rb" 0 obj(.*?)stream", data, re.S)[1]
        total += int(re.search(rb"/Length (\d+)(?! 0 R)", head)[1])
    return total


def papers_table(gallipot, work):
    job = os.path.join(work, "hall.yaml")
    with open(os.path.join(TOP, "examples", "hall.yaml"), encoding="utf-8") as source:
        text = source.read()
    with open(job, "w", encoding="utf-8") as file:
        file.write(text)
    out = os.path.join(work, "hall")
    Run([gallipot, "render", job, "-o", out])
    print("\n| the hall, 7 stations, five languages | time | processor | memory |\n|---|---|---|---|")
    for name, command in (
        ("`render`, all papers", [gallipot, "render", job, "-o", out]),
        ("`render --language en`", [gallipot, "render", job, "-o", out, "--language", "en"]),
        ("`check`", [gallipot, "check", job]),
        ("`plan`", [gallipot, "plan", job]),
    ):
        run = best(command, 15)
        print(f"| {name} | {run.seconds * 1000:.0f} ms | {run.processor * 1000:.0f} ms | {run.memory:.0f} MiB |")


SIZES = (10, 100, 1000, 10_000, 100_000)


def scaling(gallipot, work):
    rows = []
    for stations in SIZES:
        job = os.path.join(work, f"job{stations}.yaml")
        write_job(job, stations)
        out = os.path.join(work, f"out{stations}")
        for name, command in (
            ("check", [gallipot, "check", job]),
            ("plan --json", [gallipot, "plan", job, "--json"]),
            ("render --only labels", [gallipot, "render", job, "-o", out, "--only", "labels"]),
            ("render", [gallipot, "render", job, "-o", out]),
        ):
            run = best(command, 3 if stations < 10_000 else 1)
            rows.append((name, stations, run.seconds, run.memory))
            print(f"{name:22} {stations:>7,} stations {run.seconds:9.3f} s {run.memory:7.0f} MiB", flush=True)
    path = os.path.join(work, "scaling.csv")
    with open(path, "w", encoding="utf-8") as file:
        file.write("command,stations,seconds,memory_mib\n")
        file.writelines(f"{','.join(map(str, row))}\n" for row in rows)
    subprocess.run(["Rscript", os.path.join(HERE, "scaling.R"), path, os.path.join(HERE, "scaling.png")], check=True)


def main():
    parser = argparse.ArgumentParser()
    parser.add_argument("gallipot")
    parser.add_argument("peers")
    parser.add_argument("--labels", type=int, default=10_000)
    parser.add_argument("--no-peers", action="store_true")
    parser.add_argument("--no-scaling", action="store_true")
    options = parser.parse_args()
    gallipot = os.path.abspath(options.gallipot)
    with tempfile.TemporaryDirectory() as work:
        ours = labels_table(gallipot, "" if options.no_peers else options.peers, options.labels, work)
        job = os.path.join(work, "many.yaml")
        write_job(job, options.labels, 10)
        many = best([gallipot, "render", job, "-o", os.path.join(work, "many"), "--only", "labels"], 3)
        print(f"{10 * options.labels:,} labels (ten at each station): {many.seconds:.1f} s, {many.seconds / ours.seconds:.1f} times as long, "
              f"{many.memory:.0f} MiB.")
        papers_table(gallipot, work)
        if not options.no_scaling:
            scaling(gallipot, work)


main()
