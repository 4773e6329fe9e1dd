#!/usr/bin/env python3
"""The household sheet at the log is the file that `render` writes, and leads nowhere else.

    household_test.py PROGRAM SOURCE_FOLDER
"""
import gzip
import re
import sys
import urllib.error
import urllib.request

from served import OPENER, Served

PROGRAM, SOURCE = sys.argv[1:3]


def get(served, path, **headers):
    try:
        with OPENER.open(urllib.request.Request(served.base + path, headers=headers), timeout=20) as answer:
            body = answer.read()
            if answer.headers.get("Content-Encoding") == "gzip":
                body = gzip.decompress(body)
            return answer.status, body.decode()
    except urllib.error.HTTPError as answer:
        return answer.code, answer.read().decode()


with Served(PROGRAM, SOURCE) as served:
    papers = served.folder / "papers"
    served.run("render", served.job, "-o", papers, "--only", "household")
    written = {language: (papers / f"household-{language}.html").read_text()
               for language in ("en", "es", "de", "fil", "uk")}
    links = re.findall(r'href="(?!tel:)([^"]*)"', written["en"])
    assert len(links) == 1, links  # its own
    path = re.fullmatch(r"HTTP://192\.168\.1\.20:8017(/HOME/[0-9A-Z]{10})", links[0])[1]
    for language, page in written.items():
        assert f'<html lang="{language}' in page, page[:100]
        assert get(served, f"{path}?lang={language}") == (200, page), language
        assert get(served, path, **{"Accept-Language": language}) == (200, page), language
    assert get(served, path, **{"Accept-Encoding": "gzip"}) == (200, written["en"])
    key = path.split("/")[2]
    for other in served.paths.values():
        assert key not in other, other
        assert get(served, "/HOME/" + other.split("/")[3])[0] == 404, other
    assert get(served, "/HOME/" + served.code.split("/")[2])[0] == 404
    assert get(served, path + "/ALL")[0] == 404
    assert "a fault of ours" not in served.stderr(), served.stderr()

    # Without a log's address, or with a page of the user's own, there is no code.
    job = served.job.read_text()
    for other in ("", "log:\n  address: https://forms.example/f?at={station}\n"):
        served.job.write_text(job.replace("log:\n  address: http://192.168.1.20:8017\n", other))
        served.run("render", served.job, "-o", papers, "--only", "household")
        page = (papers / "household-en.html").read_text()
        assert "HOME/" not in page and 'class="code"' not in page, other
print("the same in five languages")
