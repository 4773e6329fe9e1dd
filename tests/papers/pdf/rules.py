#!/usr/bin/env python3
"""rules.py [--table | --broken] FILE.pdf ...: whether PDF files keep the rules of PDF/UA-1 and PDF/A-2a that a
program can check. Each rule is a function named below; what it asks for stands in its first line.
The files are read by qpdf, which is not what wrote them into pages, and their pages' operators here.

Rules of PDF/UA are numbered as in the Matterhorn Protocol 1.02 (PDF Association), those of PDF/A by
the clause of ISO 19005-2:2011; both from memory, for neither was at hand. With --broken each rule is
tried on the file with one thing in it made wrong, which it must find."""

import json
import re
import subprocess
import sys
import xml.etree.ElementTree as xml

STANDARD = set("Document Part Sect Div P H1 H2 H3 H4 H5 H6 L LI Lbl LBody Table TR TH TD THead TBody "
               "Figure Link Span Caption".split())


class File:
    def __init__(self, path):
        self.path = path
        made = subprocess.run(["qpdf", "--json=2", "--json-stream-data=inline",
                               "--decode-level=generalized", path], capture_output=True, check=True)
        whole = json.loads(made.stdout)["qpdf"]
        self.header = whole[0]
        self.objects = whole[1]
        self.trailer = self.objects["trailer"]["value"]
        self.bytes = open(path, "rb").read()
        self.catalog = self.get(self.trailer["/Root"])
        self.pages = list(self.walk_pages(self.catalog["/Pages"]))
        self.marks = [self.read_marks(page) for page in self.pages]
        self.elements = []
        self.tree(self.catalog.get("/StructTreeRoot"), None)

    def object(self, reference):
        return self.objects["obj:" + reference]

    def get(self, value):
        """What a reference refers to: a value, or the dictionary of a stream."""
        while isinstance(value, str) and re.fullmatch(r"\d+ \d+ R", value):
            there = self.object(value)
            value = there["value"] if "value" in there else there["stream"]["dict"]
        return value

    def data(self, reference):
        import base64
        return base64.b64decode(self.object(reference)["stream"]["data"])

    def walk_pages(self, reference):
        node = self.get(reference)
        if node["/Type"] == "/Page":
            yield dict(node, **{"reference": reference})
            return
        for kid in node["/Kids"]:
            yield from self.walk_pages(kid)

    def read_marks(self, page):
        """(marks, strays): the MCIDs of a page in order, and what is outside every mark or wrongly
        nested in one."""
        contents = page["/Contents"]
        if not isinstance(contents, list):
            contents = [contents]
        text = b"\n".join(self.data(one) for one in contents).decode("latin-1")
        marks, strays, stack = [], [], []
        operands = []
        for token in tokens(text):
            if not re.fullmatch(r"[A-Za-z*'\"]+\d?", token):
                operands.append(token)
                continue
            inside = [kind for kind in stack if kind != "span"]
            if token in ("BDC", "BMC"):
                name = operands[0]
                properties = " ".join(operands[1:])
                found = re.search(r"/MCID (\d+)", properties)
                if name == "/Artifact":
                    if inside:
                        strays.append("an artifact within a mark")
                    stack.append("artifact")
                elif found:
                    if inside:
                        strays.append("a mark within a mark")
                    marks.append((int(found.group(1)), name))
                    stack.append("tagged")
                else:
                    stack.append("span")
            elif token == "EMC":
                stack.pop()
            elif token in ("Tj", "TJ", "'", '"', "f", "f*", "S", "s", "B", "Do", "F", "b", "sh") and not inside:
                strays.append("unmarked " + token)
            operands = []
        if stack:
            strays.append("marks that are not ended")
        return marks, strays

    def tree(self, value, parent):
        node = self.get(value)
        if not isinstance(node, dict):
            return None
        element = {"node": node, "type": node.get("/S"), "parent": parent, "kids": [], "content": []}
        if parent is not None:
            parent["kids"].append(element)
            self.elements.append(element)
        kids = node.get("/K", [])
        for kid in kids if isinstance(kids, list) else [kids]:
            there = self.get(kid)
            if isinstance(there, int):
                element["content"].append((node.get("/Pg"), there))
            elif there.get("/Type") == "/MCR":
                element["content"].append((there.get("/Pg", node.get("/Pg")), there["/MCID"]))
            elif there.get("/Type") == "/OBJR":
                element["content"].append(("annotation", there["/Obj"]))
            else:
                self.tree(kid, element)
        return element

    def annotations(self):
        for page in self.pages:
            for reference in self.get(page.get("/Annots", [])):
                yield page, reference, self.get(reference)

    def fonts(self):
        for key, there in self.objects.items():
            value = there.get("value")
            if isinstance(value, dict) and value.get("/Type") == "/Font":
                yield key, value

    def of_type(self, *types):
        return [one for one in self.elements if one["type"] in types]

    def xmp(self):
        reference = self.catalog.get("/Metadata")
        return self.data(reference).decode() if reference else ""

    def property(self, name):
        found = re.search(r"<%s>(.*?)</%s>" % (name, name), self.xmp(), re.S)
        return found.group(1) if found else None


def tokens(text):
    pattern = re.compile(r"\s+|<<|>>|<[0-9A-Fa-f\s]*>|\((?:\\.|[^\\()])*\)|[\[\]]|/[^\s<>\[\]()/]*|[^\s<>\[\]()/]+")
    at = 0
    while at < len(text):
        found = pattern.match(text, at)
        if not found:
            raise ValueError("operators that make no sense at " + text[at:at + 40])
        at = found.end()
        if not found.group().isspace():
            yield found.group()


def string(value):
    return value[2:] if isinstance(value, str) and value[:2] in ("u:", "b:") else ""


RULES = []


def rule(function):
    RULES.append(function)
    return function


# --- PDF/UA-1 ---------------------------------------------------------------------------------------

@rule
def ua_01_003_to_005_marked(f):
    """All content is marked, as real content or as an artifact, and neither lies in the other."""
    for marks, strays in f.marks:
        yield from strays


@rule
def ua_01_007_no_suspects(f):
    """Nothing says that the tags may be wrong."""
    if f.catalog.get("/MarkInfo", {}).get("/Suspects"):
        yield "suspects"


@rule
def ua_02_standard_types(f):
    """Only the standard's own structure types, and no map to them."""
    if "/RoleMap" in f.get(f.catalog["/StructTreeRoot"]):
        yield "a role map"
    for one in f.elements:
        if one["type"].lstrip("/") not in STANDARD:
            yield "type " + one["type"]


@rule
def ua_06_metadata(f):
    """Metadata in XMP that claims PDF/UA-1 and has a title."""
    if f.property("pdfuaid:part") != "1":
        yield "no claim"
    if not re.search(r"<dc:title>.*<rdf:li[^>]*>.+</rdf:li>", f.xmp(), re.S):
        yield "no title"


@rule
def ua_07_title_shown(f):
    """Windows show the title and not the file's name."""
    if f.get(f.catalog.get("/ViewerPreferences", {})).get("/DisplayDocTitle") is not True:
        yield "not shown"


@rule
def ua_09_nesting(f):
    """Rows lie in tables, cells in rows, items in lists, labels and bodies in items."""
    within = {"/TR": ("/Table", "/THead", "/TBody"), "/TH": ("/TR",), "/TD": ("/TR",), "/LI": ("/L",),
              "/Lbl": ("/LI",), "/LBody": ("/LI",)}
    for one in f.elements:
        if one["type"] in within and one["parent"]["type"] not in within[one["type"]]:
            yield "%s in %s" % (one["type"], one["parent"]["type"])
    inside = {"/Table": ("/TR",), "/TR": ("/TH", "/TD"), "/L": ("/LI",), "/LI": ("/Lbl", "/LBody")}
    for one in f.elements:
        for kid in one["kids"]:
            if one["type"] in inside and kid["type"] not in inside[one["type"]]:
                yield "%s holds %s" % (one["type"], kid["type"])


@rule
def ua_10_unicode(f):
    """Every font says what its codes mean."""
    for key, font in f.fonts():
        if font["/Subtype"] == "/Type0" and "/ToUnicode" not in font:
            yield key


@rule
def ua_11_language(f):
    """The file says its language, and pieces in another say theirs as a tag of BCP 47."""
    if not re.fullmatch(r"[a-z]{2,3}(-[A-Za-z0-9]+)*", string(f.catalog.get("/Lang", ""))):
        yield "no language"


@rule
def ua_13_004_figures(f):
    """Every figure has a text alternative."""
    for one in f.of_type("/Figure"):
        if not string(one["node"].get("/Alt", "")).strip():
            yield "a figure without"


@rule
def ua_14_headings(f):
    """The first heading is of level 1, and no level is left out on the way down."""
    last = 0
    for one in f.elements:
        found = re.fullmatch(r"/H(\d)", one["type"])
        if not found:
            continue
        level = int(found.group(1))
        if level > last + 1:
            yield "H%d after H%d" % (level, last)
        last = level


@rule
def ua_15_tables(f):
    """Tables are regular: as many cells in each row; and headings say that they head a column."""
    for one in f.of_type("/Table"):
        widths = {len(row["kids"]) for row in one["kids"]}
        if len(widths) > 1:
            yield "rows of %s cells" % sorted(widths)
    for one in f.of_type("/TH"):
        if f.get(one["node"].get("/A", {})).get("/Scope") not in ("/Column", "/Row", "/Both"):
            yield "a heading without a scope"


@rule
def ua_16_003_lists(f):
    """A list with labels says how they count."""
    for one in f.of_type("/L"):
        labels = any(kid["type"] == "/Lbl" for item in one["kids"] for kid in item["kids"])
        if labels and f.get(one["node"].get("/A", {})).get("/ListNumbering") in (None, "/None"):
            yield "a list without"


@rule
def ua_28_links(f):
    """Every link is in the structure as a link, says what it is, and pages are walked in its order."""
    held = {content[1] for one in f.of_type("/Link") for content in one["content"]
            if content[0] == "annotation"}
    for page, reference, annotation in f.annotations():
        if reference not in held:
            yield "a link outside the structure"
        if not string(annotation.get("/Contents", "")):
            yield "a link without words"
        if page.get("/Tabs") != "/S":
            yield "a page without an order"
        if "/StructParent" not in annotation:
            yield "a link that does not know its element"


@rule
def ua_31_fonts(f):
    """Fonts are in the file, with a map from codes to letters."""
    for key, font in f.fonts():
        if font["/Subtype"] != "/CIDFontType2":
            continue
        if "/FontFile2" not in f.get(font["/FontDescriptor"]):
            yield key + " is not in the file"
        if "/CIDToGIDMap" not in font:
            yield key + " has no map"


@rule
def structure_both_ways(f):
    """What is marked on a page is in the tree once, and the page leads back to it."""
    seen = {}
    for one in f.elements:
        for page, mark in one["content"]:
            if page == "annotation":
                continue
            if (page, mark) in seen:
                yield "twice: %s %s" % (page, mark)
            seen[(page, mark)] = one
    tree = f.get(f.get(f.catalog["/StructTreeRoot"])["/ParentTree"])
    numbers = f.get(tree["/Nums"])
    parents = dict(zip(numbers[::2], numbers[1::2]))
    for page, (marks, _) in zip(f.pages, f.marks):
        back = f.get(parents[page["/StructParents"]])
        if len(back) != len(marks):
            yield "a page with %d marks and %d elements" % (len(marks), len(back))
        for mark, name in marks:
            element = seen.pop((page["reference"], mark), None)
            if element is None:
                yield "mark %d in no element" % mark
            elif f.get(back[mark]) != element["node"]:
                yield "mark %d leads elsewhere" % mark
            elif name not in (element["type"], "/Span"):
                yield "%s marked as %s" % (element["type"], name)
    if seen:
        yield "%d pieces of content that are on no page" % len(seen)


# --- PDF/A-2a ---------------------------------------------------------------------------------------

@rule
def a_6_1_2_header(f):
    """The header is of version 1 and a comment of four bytes above 127 follows."""
    if not re.match(rb"%PDF-1\.[0-7]\r?\n%[\x80-\xff]{4}", f.bytes):
        yield "header"


@rule
def a_6_1_3_trailer(f):
    """An identifier, nothing encrypted."""
    if len(f.trailer.get("/ID", [])) != 2:
        yield "no identifier"
    if "/Encrypt" in f.trailer:
        yield "encrypted"


@rule
def a_6_1_7_streams(f):
    """No stream by LZW, and none elsewhere."""
    for key, there in f.objects.items():
        about = there.get("stream", {}).get("dict", {})
        if "LZW" in str(about.get("/Filter", "")) or "/F" in about:
            yield key


@rule
def a_6_2_3_colour(f):
    """What colours mean is said by a profile in the file."""
    intents = f.get(f.catalog.get("/OutputIntents", []))
    if not intents or f.get(intents[0]).get("/S") != "/GTS_PDFA1":
        yield "no intent"
    elif f.data(f.get(intents[0])["/DestOutputProfile"])[36:40] != b"acsp":
        yield "no profile"


@rule
def a_6_2_10_opaque(f):
    """Nothing is transparent, so nothing has to say how it blends."""
    for key, there in f.objects.items():
        about = there.get("value") or there.get("stream", {}).get("dict", {})
        if isinstance(about, dict) and ("/SMask" in about or "/ca" in about or "/CA" in about):
            yield key


@rule
def a_6_3_annotations(f):
    """Links are printed and not hidden."""
    for _, _, annotation in f.annotations():
        if annotation.get("/F") != 4:
            yield "flags %s" % annotation.get("/F")


@rule
def a_6_5_actions(f):
    """No action but links; no script."""
    if "/OpenAction" in f.catalog or "/AA" in f.catalog or "/Names" in f.catalog:
        yield "the catalog acts"
    for _, _, annotation in f.annotations():
        action = f.get(annotation.get("/A", {}))
        if action and action.get("/S") not in ("/URI", "/GoTo"):
            yield "action %s" % action.get("/S")


@rule
def a_6_6_metadata(f):
    """XMP claims PDF/A-2a, is well formed and says what the old form says."""
    if (f.property("pdfaid:part"), f.property("pdfaid:conformance")) != ("2", "A"):
        yield "no claim"
    xml.fromstring(f.xmp()[f.xmp().index("<x:xmpmeta"):f.xmp().rindex("<?xpacket")])
    info = f.get(f.trailer.get("/Info", {}))
    for key, name in (("/Title", "dc:title"), ("/Author", "dc:creator")):
        if key not in info:
            continue
        said = re.search(r"<%s>.*?<rdf:li[^>]*>(.*?)</rdf:li>" % name, f.xmp(), re.S)
        plain = said.group(1).replace("&lt;", "<").replace("&gt;", ">").replace("&amp;", "&") if said else None
        if plain != string(info[key]):
            yield "%s: %r and %r" % (key, string(info[key]), plain)
    for key in info:
        if key not in ("/Title", "/Author"):
            yield key + " is in no XMP"


@rule
def a_6_7_tagged(f):
    """It says that it is marked, and has a structure."""
    if f.catalog.get("/MarkInfo", {}).get("/Marked") is not True or "/StructTreeRoot" not in f.catalog:
        yield "untagged"


# --- one thing made wrong for each rule ---------------------------------------------------------------

def drop(where, key):
    del where[key]


def breaks():
    """By rule, what breaks a file that has links, tables, figures and numbered lists."""
    def font(f, kind):
        return next(value for _, value in f.fonts() if value["/Subtype"] == kind)

    def first(f, kind):
        return f.of_type(kind)[0]

    def unmark(f):
        f.marks[0][1].append("unmarked Tj")

    def link(f):
        return next(f.annotations())[2]

    def info(f):
        return f.get(f.trailer["/Info"])

    def numbered(f):
        return next(one for one in f.of_type("/L") if "/A" in one["node"])

    def rename(element, kind):
        element["type"] = kind

    def claim(f):
        f.xmp = lambda: ""

    def stray(f):
        first(f, "/P")["content"].append((f.pages[0]["reference"], 9999))

    def any_stream(f):
        return next(there["stream"]["dict"] for there in f.objects.values() if "stream" in there)

    return {
        ua_01_003_to_005_marked: unmark,
        ua_01_007_no_suspects: lambda f: f.catalog["/MarkInfo"].update({"/Suspects": True}),
        ua_02_standard_types: lambda f: rename(first(f, "/P"), "/Absatz"),
        ua_06_metadata: claim,
        ua_07_title_shown: lambda f: drop(f.get(f.catalog["/ViewerPreferences"]), "/DisplayDocTitle"),
        ua_09_nesting: lambda f: rename(first(f, "/LI"), "/P"),
        ua_10_unicode: lambda f: drop(font(f, "/Type0"), "/ToUnicode"),
        ua_11_language: lambda f: drop(f.catalog, "/Lang"),
        ua_13_004_figures: lambda f: drop(first(f, "/Figure")["node"], "/Alt"),
        ua_14_headings: lambda f: rename(first(f, "/H1"), "/P"),
        ua_15_tables: lambda f: first(f, "/TR")["kids"].pop(),
        ua_16_003_lists: lambda f: drop(numbered(f)["node"], "/A"),
        ua_28_links: lambda f: drop(link(f), "/Contents"),
        ua_31_fonts: lambda f: drop(font(f, "/CIDFontType2"), "/CIDToGIDMap"),
        structure_both_ways: stray,
        a_6_1_2_header: lambda f: setattr(f, "bytes", f.bytes[8:]),
        a_6_1_3_trailer: lambda f: drop(f.trailer, "/ID"),
        a_6_1_7_streams: lambda f: any_stream(f).update({"/Filter": "/LZWDecode"}),
        a_6_2_3_colour: lambda f: drop(f.catalog, "/OutputIntents"),
        a_6_2_10_opaque: lambda f: any_stream(f).update({"/SMask": "1 0 R"}),
        a_6_3_annotations: lambda f: link(f).update({"/F": 2}),
        a_6_5_actions: lambda f: f.catalog.update({"/OpenAction": {}}),
        a_6_6_metadata: lambda f: info(f).update({"/Title": "u:Another"}),
        a_6_7_tagged: lambda f: drop(f.catalog, "/MarkInfo"),
    }


def try_broken(path):
    unseen = []
    made = breaks()
    for one in RULES:
        f = File(path)
        if list(one(f)):
            sys.exit("%s breaks %s before anything is made wrong" % (path, one.__name__))
        made[one](f)
        if not list(one(f)):
            unseen.append(one.__name__)
    if unseen:
        sys.exit("rules that do not see what they are about: " + ", ".join(unseen))


def main():
    arguments = sys.argv[1:]
    if arguments and arguments[0] == "--broken":
        return try_broken(arguments[1])
    table = arguments and arguments[0] == "--table"
    paths = arguments[1:] if table else arguments
    passed = {one.__name__: 0 for one in RULES}
    failed = False
    for path in paths:
        f = File(path)
        for one in RULES:
            faults = list(one(f))
            if not faults:
                passed[one.__name__] += 1
                continue
            failed = True
            print("%s: %s: %s%s" % (path, one.__name__, "; ".join(faults[:3]),
                                    " and %d more" % (len(faults) - 3) if len(faults) > 3 else ""))
    if table:
        print("| rule | files that keep it, of %d |\n|---|---|" % len(paths))
        for one in RULES:
            print("| %s: %s | %d |" % (one.__name__, one.__doc__.splitlines()[0], passed[one.__name__]))
    if not paths:
        sys.exit("no file")
    sys.exit(1 if failed else 0)


if __name__ == "__main__":
    main()
