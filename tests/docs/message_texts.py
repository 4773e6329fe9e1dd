#!/usr/bin/env python3
"""Every message that the program can give about a user's file, collected from its source.

    tests/docs/message_texts.py              prints them: code, then each message with its fix
    tests/docs/message_texts.py --check      compares with tests/golden/messages.txt
    tests/docs/message_texts.py --update     writes that file anew; read the difference as a user would

Found are the calls of error(), warning() and warn() whose first argument is a code in quotes. What is put in at run time shows
as {}. A text that a function of its own makes shows as that function's name.
"""
import difflib
import pathlib
import re
import sys

ROOT = pathlib.Path(__file__).resolve().parents[2]
GOLDEN = ROOT / "tests" / "golden" / "messages.txt"
CALL = re.compile(r'\b(?:error|warning|warn|found)\(\s*"([a-z][a-z0-9]*(?:-[a-z0-9]+)*)",')


def arguments(text, start):
    """The arguments of the call whose opening bracket is at or after `start`, as source text."""
    at = text.index("(", start) + 1
    found, depth, begin, quoted = [], 0, at, False
    while True:
        letter = text[at]
        if quoted:
            if letter == "\\":
                at += 1
            elif letter == '"':
                quoted = False
        elif letter == '"':
            quoted = True
        elif letter in "({[":
            depth += 1
        elif letter in ")}]":
            if depth == 0:
                return found + [text[begin:at]]
            depth -= 1
        elif letter == "," and depth == 0:
            found.append(text[begin:at])
            begin = at + 1
        at += 1


def words(expression):
    """The texts in a C++ expression, in order, with | between the alternatives of a choice."""
    expression = re.sub(r"//[^\n]*", "", expression)
    expression = re.sub(r'"\s*"', "", expression)
    if not re.search(r'"', expression):
        return "(" + re.sub(r"\s+", " ", expression.strip()) + ")"
    parts = [re.sub(r"\{[^{}]*\}", "{}", part.replace('\\"', '"').replace("{{", "<").replace("}}", ">"))
             for part in re.findall(r'"((?:[^"\\]|\\.)*)"', expression)]
    between = " | " if "?" in re.sub(r'"(?:[^"\\]|\\.)*"', '""', expression) else "{}"
    return between.join(part.replace("<", "{").replace(">", "}") for part in parts)


def collect():
    found = {}
    for file in sorted((ROOT / "src").rglob("*.cpp")):
        text = file.read_text()
        for call in CALL.finditer(text):
            given = arguments(text, call.start())
            texts = [words(argument) for argument in given[2:4] if argument.strip()]
            if len(given) < 4:  # (code, message, fix) of a helper that knows the place
                texts = [words(argument) for argument in given[1:3]]
            found.setdefault(call.group(1), set()).add("\n".join(
                ("  " if number == 0 else "    fix: ") + each for number, each in enumerate(texts)))
    return found


def main():
    found = collect()
    text = "".join(f"{code}\n" + "".join(each + "\n" for each in sorted(found[code])) for code in sorted(found))
    text = f"{len(found)} codes, {sum(map(len, found.values()))} messages\n\n" + text
    if "--update" in sys.argv:
        GOLDEN.write_text(text)
    elif "--check" in sys.argv:
        expected = GOLDEN.read_text()
        if text != expected:
            print("".join(difflib.unified_diff(expected.splitlines(True), text.splitlines(True),
                                               "tests/golden/messages.txt", "the source")))
            return 1
        print(text.splitlines()[0])
    else:
        print(text, end="")
    return 0


if __name__ == "__main__":
    sys.exit(main())
