#!/usr/bin/env python3
"""One word for one thing, on the command line, in messages, help and pages.

  words_test.py PROGRAM

Names of options, keys, CSV columns and JSON fields stay what they are: they stand in `code` or behind -- and count for nothing. The words, and what each
means: templates/help/words.yaml.
"""
import pathlib
import re
import subprocess
import sys

PROGRAM = sys.argv[1]
ROOT = pathlib.Path(__file__).resolve().parents[2]
faults = []

# What is not said, and what is said instead.
NOT_SAID = [
    (r"\bcontrol stations?\b|\bcontrols\b|\ba control\b|\bno control\b", "unbaited station"),
    (r"\blabel stocks?\b|\bstock of labels\b", "label sheet"),
    (r"\blive pests\b|\bpests seen alive\b", "alive"),
    (r"\bkeeps? no longer\b", "past its replace-by date"),
    (r"\b[Ss]omething to see to\b|\b[Tt]o see to\b", "needs attention"),
    (r"\b[Gg]one of it\b", "used"),
    (r"\bno fall in time\b", "not falling"),
    (r'"Half in"', "Halves in"),
    (r'"Left out"', "If omitted"),
    (r"\bwill not do\b", "is not understood, must be"),
    (r"\bmakes? no sense here\b|\bthan makes sense here\b", "must be .. to .., not .."),
]
# Where a word is right all the same: other things of that name.
RIGHT = [r"poison control", r"Control of Pesticides", r"Pest Control", r"pest control", r"Control Products", r"Control Technology",
         r"Structural Pest Control", r"control character"]


def words_of(text):
    text = re.sub(r"`[^`\n]*`", "``", text)
    text = re.sub(r"--[a-z-]+", "--", text)
    for right in RIGHT:
        text = re.sub(right, "", text)
    return text


def look(where, text, lines=True):
    for number, line in enumerate(words_of(text).splitlines(), 1):
        for pattern, instead in NOT_SAID:
            found = re.search(pattern, line)
            if found:
                faults.append(f"{where}{f':{number}' if lines else ''}: '{found.group()}'; say {instead}: {line.strip()[:120]}")


def printed(*arguments):
    return subprocess.run([PROGRAM, *arguments], capture_output=True, text=True, check=True).stdout


listed = re.findall(r"^  ([a-z]+) +\S", printed("--help").split("Examples:")[0].split("Commands:")[1], re.M)
assert len(listed) >= 16, listed
look("--help", printed("--help"), False)
for command in listed:
    look(f"{command} --help", printed(command, "--help"), False)
look("explain", printed("explain"), False)
# The page of words may name the other words, behind `also`.
look("templates/help", "".join(file.read_text() for file in sorted((ROOT / "templates/help").glob("*.yaml"))
                               if file.name != "words.yaml"), False)
look("tests/golden/messages.txt", (ROOT / "tests/golden/messages.txt").read_text())
for page in ("README.md", "src/GUIDE.md", "src/TUTORIAL.md"):
    # What programs print of the catalogs is looked at there.
    text = re.sub(r"^```.*?^```$", lambda block: "\n" * block.group().count("\n"), (ROOT / page).read_text(), flags=re.S | re.M)
    look(page, text)
catalog = (ROOT / "templates/text/en.yaml").read_text()
look("templates/text/en.yaml", "\n".join(re.sub(r"^\s*[\w-]+:", "", line) if not line.lstrip().startswith("#") else ""
                                          for line in catalog.splitlines()))

print(f"{len(NOT_SAID)} words looked for")
print("\n".join(faults))
sys.exit(bool(faults))
