#!/usr/bin/env python3
"""Translators' files by GNU gettext's own programs, which know nothing of ours.

    translators.py PROGRAM SOURCE_FOLDER

What `languages --po` writes passes msgfmt -c without a word; msgcat, which wraps and orders its
lines its own way, writes it anew, and `languages --import` makes the same texts of both.
"""
import pathlib
import shutil
import subprocess
import sys
import tempfile

PROGRAM, SOURCE = sys.argv[1:3]
sys.path.insert(0, str(pathlib.Path(SOURCE) / "tests/schema"))
import yaml_core  # noqa: E402


def run(*command, expect=0):
    done = subprocess.run([str(part) for part in command], capture_output=True, text=True, check=False, timeout=120)
    assert done.returncode == expect, (command, done.returncode, done.stderr)
    return done


def texts(node, path=""):
    if not isinstance(node, dict):
        return {path: node}
    found = {}
    for key, value in node.items():
        found.update(texts(value, f"{path}.{key}" if path else key))
    return found


if not shutil.which("msgfmt"):
    print("SKIPPED: msgfmt is not here; Debian has it as gettext")
    sys.exit(77)

folder = pathlib.Path(tempfile.mkdtemp(prefix="gallipot-po-"))
try:
    catalogs = pathlib.Path(SOURCE) / "templates/text"
    english = texts(yaml_core.read((catalogs / "en.yaml").read_text()))
    languages = [file.stem for file in sorted(catalogs.glob("*.yaml")) if not file.stem.endswith("-US")]
    for language in languages + ["xx"]:
        po = folder / f"{language}.po"
        assert run(PROGRAM, "languages", "--po", language, "-o", po).stdout == f"{po}\n"
        checked = run("msgfmt", "-c", "-v", "-o", "/dev/null", po)
        n = len(english)
        wanted = f"{n} translated messages." if language != "xx" else f"0 translated messages, {n} untranslated messages."
        assert checked.stderr.strip() == wanted, checked.stderr
        again = folder / f"{language}-again.po"
        run("msgcat", "--width=60", "--sort-output", "-o", again, po)
        assert again.read_text() != po.read_text()
        made = run(PROGRAM, "languages", "--import", po)
        assert run(PROGRAM, "languages", "--import", again).stdout == made.stdout, language
        if language == "xx":
            assert f"{n} texts are not translated yet" in made.stderr, made.stderr
            continue
        assert made.stderr == "", made.stderr
        assert texts(yaml_core.read(made.stdout)) == texts(yaml_core.read((catalogs / f"{language}.yaml").read_text()))

    # A fault: told with its place, and the file that was there before stays.
    broken, kept = folder / "broken.po", folder / "kept.yaml"
    kept.write_text("as it was\n")
    broken.write_text((folder / "es.po").read_text().replace('msgstr "{n} g"', 'msgstr "{n g"', 1))
    done = run(PROGRAM, "languages", "--import", broken, "-o", kept, expect=1)
    line = broken.read_text().splitlines().index('msgstr "{n g"') + 1
    assert f"{broken}:{line}:1: error: the message 'unit.gram' cannot be read" in done.stderr, done.stderr
    assert "nothing was written" in done.stderr and kept.read_text() == "as it was\n"
    run(PROGRAM, "languages", "--po", "../es", expect=2)
    run(PROGRAM, "languages", "--po", "es", "--import", broken, expect=2)
    run(PROGRAM, "languages", "--import", folder / "none.po", expect=2)
    print(f"{len(languages)} languages, {len(english)} texts each")
finally:
    shutil.rmtree(folder)
