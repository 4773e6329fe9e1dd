"""Every relative link and anchor in the project's *.md resolves; addresses have the form of one.

  links.py SOURCE
"""
import os
import re
import subprocess
import sys
import unicodedata

source = os.path.realpath(sys.argv[1])
faults = []


def pages():
    for folder, folders, files in os.walk(source):
        folders[:] = [f for f in folders if not f.startswith(".") and not (folder == source and f in ("build", "out"))]
        for name in files:
            if name.endswith(".md"):
                yield os.path.join(folder, name)


def without_code(text):
    text = re.sub(r"^(```|~~~).*?^\1 *$", lambda m: "\n" * m.group().count("\n"), text, flags=re.S | re.M)
    return re.sub(r"(`+)(?!`).*?(?<!`)\1(?!`)", lambda m: "\n" * m.group().count("\n"), text, flags=re.S)


def anchors(text):
    """What GitHub and others make of headings: small letters, blanks as hyphens, no punctuation."""
    found, times = set(), {}
    text = re.sub(r"^(```|~~~).*?^\1 *$", "", text, flags=re.S | re.M)
    for heading in re.findall(r"^#{1,6} +(.+?) *#*$", text, re.M):
        heading = re.sub(r"\[([^\]]*)\]\([^)]*\)", r"\1", heading).lower()
        slug = "".join(c for c in heading if c in " -_" or unicodedata.category(c)[0] in "LNM").replace(" ", "-")
        number = times.get(slug, 0)
        times[slug] = number + 1
        found.add(f"{slug}-{number}" if number else slug)
    found.update(re.findall(r'<a (?:id|name)="([^"]+)"', text))
    return found


def check(page, line, target):
    where = f"{os.path.relpath(page, source)}:{line}: {target}"
    if re.match(r"[a-z]+:", target):
        if not re.fullmatch(r"https?://[a-z0-9-]+(\.[a-z0-9-]+)+(:\d+)?(/[!-~]*)?", target):
            faults.append(f"{where}: no address")
        return 0
    path, _, anchor = target.partition("#")
    file = os.path.normpath(os.path.join(os.path.dirname(page), path)) if path else page
    if not os.path.exists(file):
        faults.append(f"{where}: there is no such file")
    elif os.path.relpath(file, source).startswith(".."):
        faults.append(f"{where}: leads out of the project")
    elif anchor:
        if os.path.isdir(file):
            file = os.path.join(file, "README.md")
        if anchor not in anchors(open(file, encoding="utf-8").read()):
            faults.append(f"{where}: no heading has this anchor")
    return 1


links = count = 0
for page in pages():
    count += 1
    text = open(page, encoding="utf-8").read()
    if not re.match(r"# \S", text):
        faults.append(f"{os.path.relpath(page, source)}: does not begin with its title")
    plain = without_code(text)
    for link in re.finditer(r"\[[^\]\n]*\]\(<?([^)>\s]+)>?(?: \"[^\"]*\")?\)|^\[[^\]]+\]: *(\S+)", plain, re.M):
        links += check(page, plain.count("\n", 0, link.start()) + 1, link.group(1) or link.group(2))

# What git has and what stands here are the same pages, so that no page is left unread.
try:
    tracked = subprocess.run(["git", "-C", source, "ls-files", "*.md"], capture_output=True, text=True, check=False)
    named = tracked.stdout.split() if tracked.returncode == 0 else []
except FileNotFoundError:  # git is not there, nor needed to build
    named = []
for name in named:
    if os.path.exists(os.path.join(source, name)) and os.path.join(source, name) not in set(pages()):
        faults.append(f"{name}: is not looked at")
print(f"{count} pages, {links} links within the project")
print("\n".join(faults))
sys.exit(1 if faults or links < 20 else 0)
