"""What the cases of system_fails.py share: the program, folders of their own, and the papers of a job
in an old and a new issue.
"""
import contextlib
import hashlib
import os
import pathlib
import re
import shutil
import subprocess
import sys
import tempfile
import time

PROGRAM, SOURCE = pathlib.Path(sys.argv[1]).resolve(), pathlib.Path(sys.argv[2]).resolve()
# Under a sanitizer an abort would be told by this exit code, and not be taken for one of ours.
os.environ.setdefault("ASAN_OPTIONS", "exitcode=99")


def run(*arguments, expect=0, says="", program=PROGRAM, env=None, **more):
    done = subprocess.run(
        [program, *map(str, arguments)], capture_output=True, text=True, check=False, timeout=300,
        env={**os.environ, **(env or {})}, **more
    )
    told = f"{arguments}: exit {done.returncode}\n{done.stdout}{done.stderr}"
    assert done.returncode == expect, told
    assert re.search(says, done.stderr), f"no '{says}' in {told}"
    assert "fault of ours" not in done.stderr, told
    return done


@contextlib.contextmanager
def folder_of_its_own():
    folder = pathlib.Path(tempfile.mkdtemp(prefix="gallipot-"))
    try:
        yield folder
    finally:
        subprocess.run(["chmod", "-R", "u+w", folder], check=False)
        shutil.rmtree(folder, ignore_errors=True)


@contextlib.contextmanager
def tmpfs(options):
    """A small file system; None where it cannot be had."""
    with folder_of_its_own() as folder:
        mounted = subprocess.run(["mount", "-t", "tmpfs", "-o", options, "tmpfs", folder],
                                 capture_output=True, check=False).returncode == 0
        try:
            yield folder if mounted else None
        finally:
            if mounted:
                subprocess.run(["umount", "-l", folder], check=False)


def contents(folder):
    """Name to hash of every file, hidden ones too."""
    if not folder.is_dir():
        return {}
    return {path.name: hashlib.sha256(path.read_bytes()).hexdigest() for path in folder.iterdir()}


class Papers:
    """Two issues of a job, an old one and a new one, and what each renders to."""

    def __init__(self, example, *options):
        self.options = options
        self.folder = pathlib.Path(tempfile.mkdtemp(prefix="gallipot-"))
        self.job = self.folder / f"{example}.yaml"
        text = (SOURCE / "examples" / f"{example}.yaml").read_text()
        self.new_text = text
        self.old_text = re.sub(r"^title: .*$", "title: The old issue", text, flags=re.M)
        self.job.write_text(self.old_text)
        self.old = self.made("old")
        self.job.write_text(self.new_text)
        self.new = self.made("new")
        before = time.monotonic()
        self.render(self.folder / "timed")
        self.seconds = time.monotonic() - before
        assert self.old.keys() == self.new.keys() and len(self.old) > 1
        assert all(self.old[name] != self.new[name] for name in self.old if name.endswith(".pdf"))

    def made(self, name):
        run("render", self.job, "-o", self.folder / name, *self.options)
        for pdf in (self.folder / name).glob("*.pdf"):
            subprocess.run(["qpdf", "--check", pdf], check=True, capture_output=True)
        return contents(self.folder / name)

    def put_old(self, out):
        out.mkdir(exist_ok=True)
        for path in (self.folder / "old").iterdir():
            shutil.copy(path, out)

    def render(self, out, **more):
        return run("render", self.job, "-o", out, *self.options, **more)

    def command(self, out):
        return [PROGRAM, "render", self.job, "-o", out, *self.options]

    def is_old_or_new(self, out):
        found = contents(out)
        assert found in (self.old, self.new), f"{sorted(found)}: neither the old papers nor the new"
        return "old" if found == self.old else "new"
