"""The English patterns that messages are made of, found in the sources: what a catalog of templates/messages translates.

A pattern is a literal that becomes a diag::Text: an argument of say(), of error(), warning() and their helpers, what a
function that returns a Text gives back, or what a Text begins with. Places are {} or {0}, whatever their format was.
"""
import pathlib
import re

ROOT = pathlib.Path(__file__).resolve().parents[2]
# Calls whose literals are texts. Codes, keys and names among their first arguments are told apart by their letters.
TEXTS = {"error", "warning", "warn", "wrong", "misplaced", "bad_number", "accept_hint", "say", "chained", "Text", "tell",
         "NoTime", "TableFile", "Problem", "CharacterFault", "did_you_mean", "substance_meant", "is_scalar", "require",
         "add", "bounded"}
CONSTRUCTORS = {"Fields", "fields", "top", "Mapping", "told"}
ELSEWHERE = ("cli/", "web/", "papers/document/", "papers/layout/", "papers/pdf/", "papers/fonts/", "papers/qr/", "papers/html/",
             "papers/calendar/", "domain/reference/", "domain/safety/classify", "domain/safety/rules",
             "domain/safety/type_sizes", "domain/safety/precautions", "domain/safety/first_aid", "base/system/", "base/image/",
             "tracking/analysis/", "tracking/evidence/", "tracking/recipe/", "tracking/visit/", "papers/text/")
# .. but for these.
SPOKEN = ("cli/tell.cpp", "base/system/files.cpp", "papers/layout/label_overflow.cpp")
NAME = re.compile(r"^[a-z0-9_.*-]*$")
TOKEN = re.compile(r'//[^\n]*|\d[\w\'.]*|"(?:[^"\\]|\\.)*"|\'(?:[^\'\\]|\\.)+\'|[A-Za-z_][\w]*(?:::[A-Za-z_]\w*)*|->|==|!=|[(){}\[\];,?:=]|\s+|.')
RETURNS_TEXT = re.compile(r"^(?:\[\[nodiscard\]\] )?\s*(?:\[\[nodiscard\]\] )?(?:diag::)?Text (?:\w+::)?\w+\(", re.M)


def unescaped(literal):
    return literal[1:-1].replace('\\"', '"').replace("\\\\", "\\")


def plain_places(pattern):
    return re.sub(r"(?<!\{)\{(\d*):[^{}]*\}", r"{\1}", pattern)


class Scanner:
    """One pass over a file, with the calls that enclose each literal."""

    def __init__(self, text):
        self.tokens = [token for token in TOKEN.findall(text) if not token.startswith("//") and not token.isspace()]
        self.found = []

    def run(self):
        stack = []          # (bracket, callee, index of the argument, literals that it begins with are texts)
        declared = False    # inside `diag::Text name = ...;`
        text_function = 0   # depth of the function body that returns a Text, 0 for none
        pending = False
        at = 0
        tokens = self.tokens
        while at < len(tokens):
            token = tokens[at]
            if token.startswith('"'):
                joined = unescaped(token)
                start = at
                while at + 1 < len(tokens) and tokens[at + 1].startswith('"'):
                    at += 1
                    joined += unescaped(tokens[at])
                self.literal(joined, tokens, start, at, stack, declared, text_function)
            elif token in "({[":
                before = tokens[at - 1] if at else ""
                callee = before.split("::")[-1] if re.match(r"[A-Za-z_]", before) else ""
                if token == "{" and pending and before in (")", "const"):
                    text_function, pending, callee = len(stack) + 1, False, "body"
                elif token == "{" and before == "return":
                    callee = "returned"
                elif callee in ("return", "if", "while", "switch", "for"):
                    callee = ""
                # What is constructed with a name: `Fields fields(..)`.
                if token == "(" and at > 1 and tokens[at - 2].split("::")[-1] in CONSTRUCTORS:
                    callee = tokens[at - 2].split("::")[-1]
                if not callee and token != "[" and stack:
                    callee = stack[-1][1] if before not in (")",) else ""
                    stack.append([token, callee, stack[-1][2]])
                else:
                    stack.append([token, callee, 0])
            elif token in ")}]":
                if stack:
                    stack.pop()
                if text_function and len(stack) < text_function:
                    text_function = 0
            elif token == "," and stack:
                stack[-1][2] += 1
            elif token == ";":
                declared = pending = False
            elif token.split("::")[-1] == "Text" and at + 2 < len(tokens):
                if tokens[at + 2] == "=":
                    declared = True
                elif tokens[at + 2] == "(" and not stack_has_call(stack):
                    pending = True
            at += 1
        return self.found

    def literal(self, text, tokens, start, end, stack, declared, text_function):
        before = tokens[start - 1] if start else ""
        if before in ("==", "!=") or (end + 1 < len(tokens) and tokens[end + 1] in ("==", "!=")):
            return
        if not re.search(r"[A-Za-z]", text) or text.startswith(" "):  # " mm" is the same in all languages
            return
        callee, index = (stack[-1][1], stack[-1][2]) if stack else ("", 0)
        named = bool(NAME.match(text))
        if callee == "say" or callee == "chained" or callee == "Text" or callee == "term":
            # What is compared inside is no text; what is put in may be.
            self.keep(plain_places(text) if callee in ("say", "chained") and index == (callee == "chained") else text)
        elif callee in TEXTS:
            if not (named and index < 2) and not (callee == "add" and " " not in text):
                self.keep(text)
        elif callee in CONSTRUCTORS:
            if text.startswith("the "):
                self.keep(text)
        elif callee == "returned":
            if not named:
                self.keep(text)
        elif declared and callee in ("", "body"):
            self.keep(text)
        elif text_function and callee in ("", "body") and not named_key(text):
            self.keep(text)

    def keep(self, text):
        if text not in self.found:
            self.found.append(text)


def named_key(text):
    return text in ("*",)


def stack_has_call(stack):
    return any(bracket == "(" for bracket, _, _ in stack)


def literals(text):
    """The literals in a piece of source, neighbours joined."""
    return ["".join(unescaped(each) for each in re.findall(r'"(?:[^"\\]|\\.)*"', run))
            for run in re.findall(r'"(?:[^"\\]|\\.)*"(?:\s*"(?:[^"\\]|\\.)*")*', text)]


def between(file, begin, end):
    text = (ROOT / "src" / file).read_text()
    start = text.index(begin)
    return text[start:text.index(end, start)]


def terms():
    """Words of ours that stand in tables and are put into messages by diag::term()."""
    found = [row[2] for row in re.findall(r'\{("[^"]*"), ("[^"]*"), ("[^"]*")\}', between(
        "base/units/unit_table.cpp", "wordings = {{", "}};"))]
    found = [unescaped(word) for word in found]
    found += [each for each in literals(between("base/units/parse.cpp", "usual_units = {", "};")) if " or " in each]
    found += [each for each in literals(between("domain/yaml/read.cpp", "kinds[] = {", "};")) if each.startswith("a ")]
    found += literals(between("base/system/throw_errno.cpp", "kind_of_file(mode_t mode) {", "}"))
    found += literals(between("domain/job/date_spellings.cpp", "months = {", "};"))
    found += [each for each in literals(between("domain/reference/premises.cpp", "only_licensed =", "};"))
              if each[0].islower() and each not in ("flats", "childcare", "care")]
    found += literals(between("domain/reference/pests.cpp", "word(Preparation", "\n}"))
    for file in sorted((ROOT / "src/domain/reference/pests").glob("*.cpp")):
        found += [unescaped(name) for name in re.findall(r'\.name = ("[^"]*")', file.read_text())]
    rows = between("domain/reference/pests/unsupported.cpp", "unsupported_rows() {", "\n}\n")
    for row in re.split(r"\b(?:row|not_found)\(", rows)[1:]:
        texts = literals(row)
        found += [texts[0], texts[-1]]
    return found


def descriptions():
    """What messages say of a key with a text of the user's own, as description_in_sentence() has it."""
    keys = (ROOT / "src/domain/job/keys.cpp").read_text()
    found = []
    for row in re.findall(r'\{"[^"]+",\s*Type::(?:text|local_text),(.*?)\}', keys, re.S):
        words = re.split("[;:]", literals(row)[1])[0]
        found.append(words[0].lower() + words[1:] if words[0].isupper() and not words[1].isupper() else words)
    return found


def patterns():
    """All patterns, in the order of the sources, each with the first file that has it."""
    found = {}
    for file in sorted((ROOT / "src").rglob("*.cpp")):
        text = file.read_text()
        # What these say has catalogs of its own, or is English to all: figures of tables, JSON.
        name = file.relative_to(ROOT / "src").as_posix()
        if name.startswith(ELSEWHERE) and name not in SPOKEN:
            continue
        for pattern in Scanner(text).run():
            found.setdefault(pattern, file.relative_to(ROOT / "src").as_posix())
    rows = (ROOT / "src/domain/yaml/error_text.cpp").read_text()
    for row in re.findall(r"\{YAML::ErrorMsg::\w+,\s*((?:\"(?:[^\"\\]|\\.)*\",?\s*)+)\}", rows):
        for part in re.findall(r'"(?:[^"\\]|\\.)*"(?:\s*"(?:[^"\\]|\\.)*")*', row):
            found.setdefault("".join(unescaped(each) for each in re.findall(r'"(?:[^"\\]|\\.)*"', part)),
                             "domain/yaml/error_text.cpp")
    for word in terms() + descriptions():
        found.setdefault(word, "words")
    return found


if __name__ == "__main__":
    for pattern, file in patterns().items():
        print(f"{file}\t{pattern}")
