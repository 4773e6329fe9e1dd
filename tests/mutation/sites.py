"""Where a source can be changed by one step, and into what.

Comments, preprocessor lines, types in angle brackets (no spaces around them, as clang-format leaves
them), static_assert and thrown messages are left alone; texts too, but for short ones without spaces
(codes and keys) where asked for.
"""
import dataclasses
import re

TOKEN = re.compile(
    r"""(?P<skip>//[^\n]*|/\*.*?\*/|^[ \t]*\#[^\n]*|'(?:\\.|[^'\\])')
      |(?P<string>"(?:\\.|[^"\\\n])*")
      |(?P<number>(?<![\w.])\d[\d']*(?:\.\d*)?(?:e[+-]?\d+)?[uUlLfF]*(?![\w.]))
      |(?P<word>[A-Za-z_]\w*)
      |(?P<operator><=>|<<=?|>>=|->|::|\+\+|--|&&|\|\||[<>=!+\-*/]=|[<>=!+\-*/%&|^?:])
      |(?P<other>\S)""",
    re.X | re.M | re.S,
)

BINARY = {
    "<": ["<=", ">="], "<=": ["<", ">"], ">": [">=", "<="], ">=": [">", "<"],
    "==": ["!="], "!=": ["=="], "+": ["-"], "-": ["+"], "*": ["/"], "/": ["*"],
    "&&": ["||"], "||": ["&&"], "+=": ["-="], "-=": ["+="], "*=": ["/="], "/=": ["*="],
}
WORDS = {
    "min": ["max"], "max": ["min"], "floor": ["ceil"], "ceil": ["floor"], "round": ["floor"],
    "lround": ["lrint(0.5) + (long)"], "true": ["false"], "false": ["true"], "low": ["high"],
    "high": ["low"], "usual": ["low"], "all_of": ["any_of"], "any_of": ["all_of"],
    "none_of": ["any_of"], "front": ["back"], "back": ["front"], "continue": ["break"],
    "lower_bound": ["upper_bound"], "upper_bound": ["lower_bound"], "min_element": ["max_element"],
    "max_element": ["min_element"],
}
STATEMENT = re.compile(
    r"^[ ]+(?!return|throw|const|auto|using|static|delete|case|else|if|for|while|break|namespace)"
    r"[A-Za-z_][\w.]*(?:->\w+|::\w+|\[[^\]]*\])*(?:\(.*\)| (?:[+\-*/|&]?=) .*);$"
)
TINY = 1e-5  # of tolerances for rounding, five per cent more would change nothing


@dataclasses.dataclass
class Site:
    start: int
    end: int
    after: str
    line: int
    line_changed: str  # the line with the change in it, for people
    symbol: str  # the function, or the table, that it stands in
    change: str = ""  # what it is known by: "symbol: a -> b", with #2 for the second like it there


def other_number(text):
    digits = text.rstrip("uUlLfF").replace("'", "")
    suffix = text[len(text.rstrip("uUlLfF")):]
    if re.fullmatch(r"\d+", digits):
        return str(max(int(digits) + 1, round(int(digits) * 1.05))) + suffix
    value = float(digits)
    if value == 0:
        return "1.0"
    return repr(value * (1e5 if value <= TINY else 1.05))


def symbol_at(lines, line):
    """The name of what begins at the last line, up to this one, that is not indented."""
    for text in reversed(lines[:line]):
        if not re.match(r"[A-Za-z_]", text) or re.match(r"(public|private|protected):|namespace ", text):
            continue
        name = re.search(r"([\w:~]+)\(", text) or re.search(r"(\w+)(?=\{| = |\[| \{|;)", text)
        return name.group(1) if name else text.split()[-1]
    return "file"


def sites_of(text, strings):
    """All sites of a source, in order."""
    found = find_sites(text, strings)
    seen = {}
    for site in found:
        before = " ".join(text[site.start:site.end].split())
        site.change = f"{site.symbol}: {before} -> {site.after.strip()}"
        seen[site.change] = seen.get(site.change, 0) + 1
        if seen[site.change] > 1:
            site.change += f" #{seen[site.change]}"
    return found


def find_sites(text, strings):
    found, lines = [], text.splitlines()

    def add(start, end, after):
        head = text.rfind("\n", 0, start) + 1
        tail = text.find("\n", end)
        before = " ".join(text[head:start].split() or [""])
        rest = " ".join(text[end:tail].split() or [""])
        gap = lambda one: " " if one else ""  # noqa: E731
        left = " " if text[start - 1:start].isspace() else ""
        right = " " if text[end:end + 1].isspace() else ""
        change = f"{before}{left}[{text[start:end].strip()} -> {after.strip()}]{right}{rest}"
        line = text.count("\n", 0, start) + 1
        found.append(Site(start, end, after, line, change.strip(), symbol_at(lines, line)))

    tokens = [match for match in TOKEN.finditer(text) if match.lastgroup != "skip"]
    quiet_until = -1
    for i, token in enumerate(tokens):
        kind, word = token.lastgroup, token.group()
        start, end = token.span()
        if word in ("static_assert", "throw", "using", "namespace", "template"):
            stop = "{" if word == "namespace" else ";" if word != "template" else ">"
            quiet_until = max(quiet_until, text.find(stop, end))
        if start < quiet_until:
            continue
        before, behind = text[start - 1:start], text[end:end + 1]
        spaced = before.isspace() and behind.isspace()
        if kind == "operator" and spaced and word in BINARY:
            for after in BINARY[word]:
                add(start, end, after)
        elif word == "!" and not behind.isspace():
            add(start, end, "")
        elif word == "-" and not behind.isspace() and i > 0 and (
                before.isspace() or before in "([{"):
            add(start, end, "")
        elif kind == "number":
            add(start, end, other_number(word))
        elif kind == "word" and word in WORDS:
            for after in WORDS[word]:
                add(start, end, after)
        elif kind == "word" and word in ("if", "while") and behind == " " and text[end + 1] == "(":
            negate(text, end + 1, add)
        elif kind == "string" and strings and 3 < len(word) < 42 and " " not in word:
            add(start, end, word[:-1] + 'x"')
    offset = 0
    for line in text.splitlines(keepends=True):
        if STATEMENT.match(line.rstrip("\n")):
            indent = len(line) - len(line.lstrip())
            add(offset + indent, offset + len(line) - 1, ";")
        offset += len(line)
    return found


def negate(text, opening, add):
    """if (x) into if (!(x)), where x declares nothing."""
    depth = 0
    for at in range(opening, len(text)):
        depth += {"(": 1, ")": -1}.get(text[at], 0)
        if depth == 0:
            condition = text[opening + 1:at]
            if not re.search(r";|(?<![=!<>])=(?!=)", condition):
                add(opening + 1, at, f"!({condition})")
            return
