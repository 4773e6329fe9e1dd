#!/usr/bin/env python3
"""Every code that the program can give has a page, src/cli/MESSAGES.md is what the program prints, and no page or help
uses another word for a thing than the one of templates/help/words.yaml.

  messages_test.py PROGRAM [--update]
"""
import pathlib
import re
import subprocess
import sys

import message_texts

PROGRAM = sys.argv[1]
ROOT = pathlib.Path(__file__).resolve().parents[2]
PAGE = ROOT / "src" / "cli" / "MESSAGES.md"
faults = []

printed = subprocess.run([PROGRAM, "__pages"], capture_output=True, text=True, check=True).stdout
if "--update" in sys.argv:
    PAGE.write_text(printed)
if not PAGE.exists() or PAGE.read_text() != printed:
    faults.append("src/cli/MESSAGES.md is not what gallipot __pages prints: messages_test.py PROGRAM --update")

# Codes: of calls in the source, of what the cases show, and of what units and codes of labels report.
codes = set(message_texts.collect()) - {"panels", "place", "words"}  # of a design: (key, code)
for expected in (ROOT / "tests" / "cases").glob("*/expected.txt"):
    codes |= set(re.findall(r"(?:error|warning): .*\[([a-z0-9-]+)\]$", expected.read_text(), re.M))
codes |= {"code-" + name for name in re.findall(r'return \{"([a-z-]+)",', (ROOT / "src/papers/qr/checks.cpp").read_text())}
for folder in ("base/units", "papers/templates"):
    for file in (ROOT / "src" / folder).glob("*.cpp"):
        codes |= set(re.findall(r'(?:error\([^"()]*(?:"[a-z]+")?,?\s*|Problem\{)"([a-z]+(?:-[a-z]+)+)"', file.read_text()))
pages = set(re.findall(r"^([a-z0-9-]+): \{means: \"[^\"]+\", why: \"[^\"]+\", do: \"[^\"]+\"\}$",
                       (ROOT / "templates/help/messages.yaml").read_text(), re.M))
for code in sorted(codes - pages):
    faults.append(f"templates/help/messages.yaml has no page (means, why, do) for [{code}]")
source = "".join(file.read_text() for file in (ROOT / "src").rglob("*.cpp"))
for code in sorted(page for page in pages - codes if f'"{page}"' not in source):
    faults.append(f"templates/help/messages.yaml has a page for [{code}], which nothing gives")

print(f"{len(pages)} pages of messages, {len(codes)} codes")
print("\n".join(faults))
sys.exit(bool(faults))
