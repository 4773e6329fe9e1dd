#!/usr/bin/env python3
"""Photos from a phone: real Chromium, with JavaScript (shrunk there) and without (sent as they are).

    photo_test.py PROGRAM SOURCE_FOLDER [FOLDER FOR PICTURES]
"""
import base64
import pathlib
import shutil
import sys
import tempfile

sys.path.insert(0, str(pathlib.Path(__file__).resolve().parent.parent))
from served import Served  # noqa: E402
from driver import Browser  # noqa: E402

PROGRAM, SOURCE = sys.argv[1:3]
PICTURES = pathlib.Path(sys.argv[3]) if len(sys.argv) > 3 else None
OWNER = b"M. Marchbank"  # nobody's name
PLACE = b"33 51 30.00 S"


def picture(browser, name):
    if PICTURES:
        PICTURES.mkdir(parents=True, exist_ok=True)
        browser.picture(PICTURES / f"{name}.png")


def drawn():
    """A JPEG of 4,000 by 3,000 pixels as a camera gives it that was held on its side: the scene's
    top (red) is at the left of the file."""
    with Browser() as browser:
        browser.open("data:text/html,<p>")
        data = browser.script("""
            const canvas = document.createElement("canvas");
            canvas.width = 4000; canvas.height = 3000;
            const pen = canvas.getContext("2d");
            pen.fillStyle = "#dc141e"; pen.fillRect(0, 0, 2000, 3000);
            pen.fillStyle = "#1428d2"; pen.fillRect(2000, 0, 2000, 3000);
            for (let i = 0; i < 60000; ++i) {
              pen.fillStyle = `rgba(0, 0, 0, ${Math.random() / 4})`;
              pen.fillRect(Math.random() * 4000, Math.random() * 3000, 20, 20);
            }
            return canvas.toDataURL("image/jpeg", 0.97);""")
    jpeg = base64.b64decode(data.split(",")[1])
    # Exif: orientation 6 (row 0 at the right, column 0 at the top), owner, latitude.
    entries = b"\x00\x03" + b"\x01\x12\x00\x03\x00\x00\x00\x01\x00\x06\x00\x00" \
        + b"\x01\x3b\x00\x02\x00\x00\x00\x0d\x00\x00\x00\x50" + b"\x88\x25\x00\x04\x00\x00\x00\x01\x00\x00\x00\x32" \
        + bytes(4)
    tiff = b"MM\x00\x2a\x00\x00\x00\x08" + entries
    tiff += b"\x00\x01\x00\x02\x00\x02\x00\x00\x00\x0e\x00\x00\x00\x64" + bytes(4)
    tiff = tiff.ljust(80, b"\0") + OWNER + b"\0"
    tiff = tiff.ljust(100, b"\0") + PLACE + b"\0"
    content = b"Exif\0\0" + tiff
    return jpeg[:2] + b"\xff\xe1" + (len(content) + 2).to_bytes(2, "big") + content + jpeg[2:]


def shown(browser):
    """Width, height and the colour near the top of the picture that is open."""
    return browser.script("""
        const image = document.images[0];
        const canvas = document.createElement("canvas");
        canvas.width = image.naturalWidth; canvas.height = image.naturalHeight;
        const pen = canvas.getContext("2d");
        pen.drawImage(image, 0, 0);
        const at = pen.getImageData(image.naturalWidth / 2, 40, 1, 1).data;
        return [image.naturalWidth, image.naturalHeight, at[0] > at[2] ? "red" : "blue"];""")


def take_photos(served, browser, file, javascript):
    browser.open(served.base + served.code)
    browser.open(served.base + served.paths["K1"])
    browser.one("[name=seen]").type("a few")
    browser.one("#photo").type(str(file))
    if javascript:
        browser.until(lambda: browser.script("return document.getElementById('photo').files[0].size") < 2_000_000,
                      "the photo shrunk on the phone")
    picture(browser, "photo-chosen")
    browser.send()
    # The count is wrong; the photo need not be chosen again.
    assert browser.one("[name=kept]").checked, browser.text
    picture(browser, "photo-kept")
    browser.call("POST", browser.one("[name=seen]").path + "/clear")
    browser.one("[name=seen]").type("4")
    browser.send()
    assert "/SAVED/" in browser.link, browser.text
    picture(browser, "photo-saved")
    kept = list((served.folder / "hall.photos").iterdir())
    assert len(kept) == 1, kept
    content = kept[0].read_bytes()
    for secret in (OWNER, PLACE, b"Exif"):
        assert secret not in content, secret
    for path in (served.paths["K1"], "/ALL", "/ALL?show=photos"):
        browser.open(served.base + path)
        if javascript:
            browser.script("document.querySelector('.photo').scrollIntoView()")
            browser.until(lambda: browser.script("return document.querySelector('.photo img').naturalWidth") == 240,
                          "a small photo")
        picture(browser, "photo-" + ("station" if "/S/" in path else "overview" if path == "/ALL" else "list"))
    browser.one(".photo").click()
    browser.arrives("/ALL/PHOTO/")
    if javascript:
        width, height, top = shown(browser)
        assert (width, height, top) == (1200, 1600, "red"), (width, height, top)
    # On the correction it can be left out.
    browser.open(served.base + served.paths["K1"])
    browser.all("a[href*=CORRECT]")[0].click()
    browser.arrives("/CORRECT/")
    browser.one("[name=kept]").click()
    browser.send()
    browser.open(served.base + served.paths["K1"])
    assert not browser.all(".photo"), "a photo that was left out is shown"
    return len(content)


def main():
    for program in ("chromium", "chromedriver"):
        if not shutil.which(program):
            print(f"SKIPPED: {program} is not here; Debian has it as chromium and chromium-driver")
            sys.exit(77)
    folder = pathlib.Path(tempfile.mkdtemp(prefix="gallipot-"))
    try:
        file = folder / "IMG_0001.jpg"
        file.write_bytes(drawn())
        assert OWNER in file.read_bytes()
        for javascript in (True, False):
            with Served(PROGRAM, SOURCE) as served, Browser(javascript) as browser:
                size = take_photos(served, browser, file, javascript)
                assert "a fault of ours" not in served.stderr(), served.stderr()
                broken = [one for one in browser.complaints() if "Content Security Policy" in one]
                assert not broken, broken
                print(("with" if javascript else "without"),
                      f"JavaScript: {file.stat().st_size:,} bytes on the phone, {size:,} kept")
    finally:
        shutil.rmtree(folder, ignore_errors=True)
    print("all well")


if __name__ == "__main__":
    main()
