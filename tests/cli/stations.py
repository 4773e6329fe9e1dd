#!/usr/bin/env python3
"""`render --stations` as a user has it: the labels printed are read back from the picture by zbar and
from the text by poppler, and must be those of the stations named, with the links of the whole job."""
import json
import pathlib
import re
import shutil
import subprocess
import sys
import tempfile

gallipot, source = sys.argv[1], pathlib.Path(sys.argv[2])
work = pathlib.Path(tempfile.mkdtemp())
faults = []


def check(good, what):
    if not good:
        faults.append(what)


def run(*arguments):
    return subprocess.run([gallipot, *map(str, arguments)], capture_output=True, text=True)


def render(*arguments):
    """What was written, by name."""
    folder = work / "out"
    shutil.rmtree(folder, ignore_errors=True)
    # In one language each container has one label.
    if "labels" in arguments:
        arguments += ("--language", "en")
    done = run("render", job, "-o", folder, *arguments)
    check(done.returncode == 0, f"{arguments}: exit {done.returncode}: {done.stderr}")
    return {path.name: path for path in folder.iterdir()} if folder.exists() else {}


def links(pdf):
    """What the codes on all pages say."""
    for old in work.glob("page*"):
        old.unlink()
    subprocess.run(["pdftoppm", "-r", "300", "-png", pdf, work / "page"], check=True)
    found = []
    for page in sorted(work.glob("page*.png")):
        done = subprocess.run(["zbarimg", "-q", "--raw", page], capture_output=True, text=True)
        found += done.stdout.split()
    return sorted(found)


def boxes(pdf, words):
    """(page, x, y) in points of each of these words in large bold type: the ids on labels."""
    text = subprocess.run(["pdftotext", "-bbox", pdf, "-"], check=True, capture_output=True, text=True).stdout
    found, page = [], 0
    for line in text.splitlines():
        page += "<page " in line
        word = re.search(r'xMin="([\d.]+)" yMin="([\d.]+)".*>([^<]+)</word>', line)
        if word and word[3] in words:
            found.append((word[3], page, float(word[1]), float(word[2])))
    return found


def pages(pdf):
    info = subprocess.run(["pdfinfo", pdf], check=True, capture_output=True, text=True).stdout
    return int(re.search(r"Pages: +(\d+)", info)[1])


job = work / "hall.yaml"
shutil.copy(source / "examples" / "hall.yaml", job)
run("render", job, "-o", work / "all", "--only", "labels,cards")
plan = json.loads(run("plan", job, "--json").stdout)
link_of = {container["id"]: container["link"] for container in plan["containers"] if container.get("link")}
all_ids = set(link_of)
check({"K1-1", "K1-2", "K2", "E1", "R1-1", "R1-2", "Y1"} == all_ids, f"the hall has {all_ids}")


def holds(pdf, ids, what):
    check(links(pdf) == sorted(link_of[one] for one in ids), f"{what}: the codes are {links(pdf)}")
    # A code differs by station; which container it is stands beside it.
    there = {word for word, *_ in boxes(pdf, all_ids)}
    check(there == set(ids), f"{what}: labels of {sorted(there)}, not of {ids}")


made = render("--stations", "K1,E1")
check(set(made) == {"labels.pdf"} | {f"cards-{tag}.pdf" for tag in ("en", "es", "de", "fil", "uk")},
      f"K1,E1 makes {sorted(made)}")
# In two languages each has two labels on this stock.
holds(made["labels.pdf"], ["K1-1", "K1-2", "E1"] * 2, "K1,E1")
holds(render("--stations", "K1,E1", "--only", "labels")["labels.pdf"], ["K1-1", "K1-2", "E1"], "K1,E1 in one")
made = render("--stations", "K1,E1")

# The card is that of the whole job, word for word.
one = subprocess.run(["pdftotext", "-layout", made["cards-en.pdf"], "-"], capture_output=True, text=True).stdout
whole = subprocess.run(["pdftotext", "-layout", work / "all" / "cards-en.pdf", "-"], capture_output=True, text=True).stdout
check(one.split("\f")[0] == whole.split("\f")[0], "the card is not the one of the whole job")
check(pages(made["cards-en.pdf"]) < pages(work / "all" / "cards-en.pdf"), "cards of other mixes are made too")

holds(render("--stations", "k1-2", "--only", "labels")["labels.pdf"], ["K1-2"], "one container")
holds(render("--stations", "K1-2, K1,K1", "--only", "labels")["labels.pdf"], ["K1-1", "K1-2"], "twice named")
holds(render("--stations", "R1", "--stations", "Y1", "--only", "labels")["labels.pdf"], ["R1-1", "R1-2", "Y1"], "two options")
made = render("--stations", "K2,R1-1", "--only", "cards", "--language", "de")
check(set(made) == {"cards-de.pdf"}, f"only cards, in one language: {sorted(made)}")

# On a part-used sheet, each twice, on another stock.
made = render("--stations", "K1,E1", "--only", "labels", "--stock", "a4-2x4", "--start-at", "4")
check(pages(made["labels.pdf"]) == 1, "three labels from the fourth place on do not go on one sheet")
# Two across, 67.7 mm apart down from 12.9 mm: the stock's own name and file.
places = {word: 2 * int((y - 36.6) / 191.9) + (x > 297.6) + 1 for word, page, x, y in boxes(made["labels.pdf"], all_ids)}
check(places == {"K1-1": 4, "K1-2": 5, "E1": 6}, f"from the fourth place on: {places}")
made = render("--stations", "E1", "--only", "labels", "--copies", "3")
check(links(made["labels.pdf"]) == [link_of["E1"]] * 3, "three copies of one label")

# Vessels are asked for.
marks = [container["id"] for container in plan["containers"] if container["kind"] != "cup"]
check(len(marks) > 3, f"vessels: {marks}")
alone = pages(render("--stations", "K1,E1", "--only", "labels")["labels.pdf"])
made = render("--stations", "K1,E1", "--only", "labels", "--with-vessels")
text = "".join(subprocess.run(["pdftotext", path, "-"], capture_output=True, text=True).stdout
               for name, path in made.items() if name.startswith("labels"))
bare = subprocess.run(["pdftotext", render("--stations", "K1,E1", "--only", "labels")["labels.pdf"], "-"],
                      capture_output=True, text=True).stdout
check(len(text) > len(bare), "--with-vessels adds nothing")
made = render("--stations", "S1")
check("labels.pdf" not in made and "cards-en.pdf" in made, f"a sprayed surface: {sorted(made)}")

for arguments, exit_code, said in [
        (["--stations", "K9"], 2, "--stations: the job has no station 'K9'; it has K1, K2, E1, R1, Y1, S1 and C1"),
        (["--stations", "K1,Q77777,E3-04"], 2, "--stations: the job has no station 'Q77777'; it has K1, "),
        (["--stations", "K1,Q77777,E3-04"], 2, "--stations: the job has no station 'E3-04'; "),
        (["--stations", "K1-3"], 2, "station K1 has 2 containers, K1-1 to K1-2, and no 'K1-3'"),
        (["--stations", "E1-2"], 2, "station E1 has one container: name it E1"),
        (["--stations", "C1"], 2, "C1 is a control: nothing is set out there"),
        (["--stations", "S1", "--only", "labels"], 2, "--with-vessels prints that of its sprayer"),
        (["--stations", "K1", "--only", "labels,household"], 2, "'household' is a sheet of the whole job"),
        (["--with-vessels"], 2, "--stations"),
        (["--stations", "K1", "--only", "labels", "--start-at", "9"], 1, "it has positions 1 to 8")]:
    shutil.rmtree(work / "out", ignore_errors=True)
    done = run("render", job, "-o", work / "out", *arguments)
    check(done.returncode == exit_code, f"{arguments}: exit {done.returncode}")
    check(said in done.stderr, f"{arguments}: {done.stderr}")
    check(not (work / "out").exists(), f"{arguments} wrote something")

# A near word.
job.write_text(job.read_text().replace("id: E1,", "id: F2-05,"))
done = run("render", job, "-o", work / "out", "--stations", "F2-5", "--with-vessels")
check(done.returncode == 2 and "no station 'F2-5'; did you mean 'F2-05'?" in done.stderr, done.stderr)

shutil.rmtree(work)
for fault in faults:
    print(fault)
print(f"{len(faults)} faults")
sys.exit(1 if faults else 0)
