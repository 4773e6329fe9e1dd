"""The job file's JSON Schema against `gallipot check`, judged by ajv, an independent validator.

  schema_test.py PROGRAM SCHEMA SOURCE     with Debian's ajv, or NODE_PATH's

What check accepts the schema must accept, always. What check refuses by its form the schema must
refuse too, but for what no schema of JSON can see, listed in `unseen` with the reason.
"""
import concurrent.futures
import copy
import json
import os
import random
import re
import subprocess
import sys
import tempfile
import urllib.parse

import yaml_core

program, schema_file, source = sys.argv[1:4]
schema = json.load(open(schema_file, encoding="utf-8"))
work = tempfile.TemporaryDirectory()

# Errors that a schema cannot see, by check's code: they depend on other parts of the file or on what
# is installed or computed,
elsewhere = set("""unknown-mix unknown-container unknown-floor unknown-ingredient unknown-substance
    unknown-language unknown-stock duplicate-id duplicate-name wrong-form missing-density not-a-borate
    known-hazard bad-total missing-rest two-rests bad-limit fill-above-holds bad-measure bad-range flat-room
    as-by-volume ambiguous-unit visit-order over-limit over-limit-measured limit-not-comparable
    does-not-fit no-letter far-from-usual measure-off no-published-support advised-against termite-food-bait
    report-first open-in-reach
    change-order change-too-early changes-nothing until-too-early other-pest""".split())
# on how it was written, which a reader of YAML does not keep,
elsewhere |= {"duplicate-key", "tag"}
# or on the size of a quantity, which stands in a text;
elsewhere |= {"out-of-bounds"}
# on which keys go together (but a key that the table requires must be missed), or on a form that one
# reader alone knows. Saying these twice was not worth what an editor gains.
elsewhere |= set("""missing-key misplaced-key batch-and-makes batch-of-what strength-and-substance limit-in-parts
    wrong-amount bad-language bad-date bad-time bad-time-zone bad-currency bad-address bad-openings
    bad-file-name""".split())
# And cases of codes that it can see elsewhere.
alone = {"stations.0.floor: left out": "a floor is needed only where the plan has several",
         "borax: ^0x1,": "to YAML 0x1 is the number 1",
         "marks: ^": "whether a volume or a mass depends on the key beside it",
         "currency: a number far out": "the length of a number",
         "stations in a table 8": "the length of a number"}


def check(text):
    """The codes of the errors that `gallipot check` has; empty when it accepts the file."""
    handle, path = tempfile.mkstemp(".yaml", dir=work.name)
    with open(handle, "w", encoding="utf-8") as file:
        file.write(text)
    done = subprocess.run([program, "check", path], capture_output=True, text=True, check=False)
    if done.returncode not in (0, 1):
        return [f"exit {done.returncode}: {done.stderr}"]
    codes = re.findall(r": error: .*\[([a-z-]+)\]$", done.stderr, re.M)
    if bool(codes) != (done.returncode == 1):
        return ["not told: " + done.stderr]
    return codes


class Case:
    def __init__(self, name, text, data):
        self.name, self.text, self.data = name, text, data


def required_left_out():
    """Names of the cases of bad_jobs() in which a key is missing that the table requires."""
    told = subprocess.run([program, "explain", "--json"], capture_output=True, text=True, check=True)
    paths = [key["path"] for key in json.loads(told.stdout)["keys"] if key["required"]]
    return re.compile("|".join(re.escape(path).replace(r"\*", "[^.]+") + ": left out" for path in paths))


def job_texts():
    """The jobs in tests/domain/job/job_text.hpp, by name."""
    text = open(os.path.join(source, "tests/domain/job/job_text.hpp"), encoding="utf-8").read()
    return dict(re.findall(r'inline const std::string (\w+) = R"\((.*?)\)";', text, re.S))


def files():
    """Good jobs as people write them."""
    folder = os.path.join(source, "examples")
    paths = [os.path.join(folder, name) for name in sorted(os.listdir(folder)) if name.endswith(".yaml")]
    paths.append(os.path.join(source, "templates/jobs/starter.yaml"))
    for path in paths:
        text = open(path, encoding="utf-8").read()
        yield Case(os.path.basename(path), text, yaml_core.read(text))


def places(data, path=()):
    """Every value below the top, with its way there."""
    entries = data.items() if isinstance(data, dict) else enumerate(data) if isinstance(data, list) else ()
    for key, value in entries:
        yield path + (key,), value
        yield from places(value, path + (key,))


def changed(data, path, value=None, drop=False):
    data = copy.deepcopy(data)
    at = data
    for step in path[:-1]:
        at = at[step]
    if drop:
        del at[path[-1]]
    else:
        at[path[-1]] = value
    return data


def case(name, data):
    """JSON is YAML. A text that begins with = goes without quotes: a fraction, which in quotes is none."""
    text = json.dumps(data, ensure_ascii=False, indent=1)
    return Case(name, re.sub(r'"=(.*?)"', r"\1", text), json.loads(text.replace('"=', '"')))


def bad_jobs(full):
    """Each place of the job that says everything, with what cannot be right there."""
    seen = set()
    for path, value in places(full):
        shape = tuple("*" if isinstance(step, int) else step for step in path)
        if shape in seen:
            continue
        seen.add(shape)
        name = ".".join(map(str, path))
        wrong = [("a list", [["nothing"]]), ("a mapping", {"nothing": "here"}), ("nothing", None), ("an empty text", ""),
                 ("a blank before", " x"), ("a line break", "one\ntwo"), ("a number far out", 10**10), ("a long text", "long " * 100 + "x")]
        if isinstance(value, (dict, list)):
            wrong += [("a text", "nonsense"), ("a number", 5), ("empty", type(value)())]
        for what, instead in wrong:
            yield case(f"{name}: {what}", changed(full, path, instead))
        if isinstance(value, str) and re.match(r"[\d.]+ ?\D+$", value):  # a quantity
            number = re.match(r"[\d./ ]+", value).group().strip()
            for what, instead in [("no unit", number), ("a number", 7), ("an unknown unit", number + " zz"),
                                  ("a decimal comma", "1,5 " + value[len(number):].strip()), ("below zero", "-999 " + value[len(number):].strip())]:
                yield case(f"{name}: {what}", changed(full, path, instead))
        if isinstance(value, (int, float)) and not isinstance(value, bool):
            for what, instead in [("a number in quotes", str(value)), ("a text", "nonsense"), ("below", -10**6), ("above", 10**7)]:
                yield case(f"{name}: {what}", changed(full, path, instead))
        if isinstance(value, dict):
            yield case(f"{name}: an unknown key", changed(full, path + ("nonsense",), 1))
        if not isinstance(path[-1], int):
            yield case(f"{name}: left out", changed(full, path, drop=True))
    yield case("an unknown key at the top", {**full, "nonsense": 1})


def rule_jobs(small):
    """The wrong cases of tests/domain/job, as far as they are changes of the small job that can be read."""
    for name in sorted(os.listdir(os.path.join(source, "tests/domain/job"))):
        if not name.startswith("rules_of"):
            continue
        text = open(os.path.join(source, "tests/domain/job", name), encoding="utf-8").read()
        text = re.sub(r'"\s*\n\s*"', "", text)  # texts that go on on the next line
        pair = r'\{"((?:[^"\\]|\\.)*)",\s*"((?:[^"\\]|\\.)*)"\}'
        for rule in re.finditer(r"\{\{(" + pair + r"(?:,\s*" + pair + r")*)\},\s*\{(.*?)\}", text, re.S):
            job = small
            for change in re.finditer(pair, rule.group(1)):
                old, new = (json.loads('"' + part.replace("\\'", "'") + '"') for part in change.groups())
                job = job.replace(old, new, 1) if old in job else ""
            job = job.replace("^", "")
            try:
                data = yaml_core.read(job)
            except Exception:  # no YAML at all: editors say so themselves
                continue
            if isinstance(data, dict):
                yield Case(f"{name}: {rule.group(1)[:60]}", job, data)


def table_jobs(small):
    """Stations and supplies in tables beside the job."""
    with open(os.path.join(work.name, "stations.csv"), "w", encoding="utf-8") as file:
        file.write("id,place,mix,container\nK1,Kitchen,syrup,cup\n")
    with open(os.path.join(work.name, "supplies.csv"), "w", encoding="utf-8") as file:
        file.write("name,density\nmalt,1.4 g/mL\n")
    malt = small["supplies"]["malt"]
    for number, stations in enumerate([
            {"from": "stations.csv"}, {"from": "stations.ods"}, {"from": "../stations.csv"}, {"from": "/stations.csv"},
            {"from": "a//stations.csv"}, {"from": "./stations.csv"}, {"from": "a\\stations.csv"}, {"from": ".csv"}, {"from": 5},
            {"from": ["stations.csv"]}, {"from": None}, {"form": "stations.csv"}, {"from": "stations.csv", "K1": {}}, {}]):
        yield case(f"stations in a table {number}", {**small, "stations": stations})
    for number, supplies in enumerate([
            {"from": "supplies.csv"}, {"from": "supplies.txt"}, {"from": "supplies.csv", "tea": {}}, {"from": {"density": "1 g/mL"}, "malt": malt},
            {"from": {"density": "1"}, "malt": malt}, {"from": ["supplies.csv"]}]):
        yield case(f"supplies in a table {number}", {**small, "supplies": supplies})


def random_jobs(full, small, count):
    """Jobs with some of what may be left out left out, and values of every kind in the rest."""
    draw = random.Random(20261125)
    quantities = {
        "fill": ["45 mL", "1 1/2 tbsp", "½ cup", "40ml", " 30 mL "], "holds": ["60 mL", "0.5 L", "2 US fl oz"],
        "coldest": ["8 C", "-8 °C", "\u22123 C", "40 F"], "area": ["6 m2", "20 sq ft", "1/2 m²"], "price": [3.2, 0, "=1/2"],
        "spare": ["10 %", "0 %", "12.5%"], "lasts": ["30 d", "2 weeks", "720 h"], "title": ["A", 1984, True, "x" * 60, "ñandú 5 %"],
        "id": ["K1", 12, "a-b", True], "at": [[1, 2], ["=-1/2", 3], ["=\u22121.5", 0]], "placed": ["2027-03-02T08:05", "2028-02-29 23:59"],
        "prepared": ["2027-03-02", "2096-02-29"], "borax": [1, "=1/2", 0.75], "phone": [112, "02 5550 0100", 1.5], "name": ["Keeper", 7],
        "openings": ["open top", "closed", "1 side hole of 1/4 in", "3 holes in the lid of 8 mm"], "body": [{}, {"lid": "60 mm"}, {"diameter": "2 in", "height": "44 mm"}],
        "density": ["1.4 g/mL", {"from": "1.35 g/mL", "to": "1450 kg/m3"}], "near": [[], ["food", "rain"]], "count": [1, 3], "coats": [1, 2],
        "visits": [["1 d"], ["1 h", "1 d", "2 wk"], [], {"every": ["1 d", "3 d"]}], "spoons": ["US", "AU", "imperial", "label"], "emergency": ["112", 112],
    }
    optional = {"by", "languages", "paper", "labels", "currency", "time_zone", "spoons", "contact", "poison_centre", "emergency", "log", "measures",
                "spare", "vessel", "batch", "lasts", "tolerance", "visits", "limits", "body", "openings", "exposure", "placed", "near", "coldest", "at",
                "count", "coats", "floor_plan", "no_sprays_for", "start", "pack", "price", "hazard", "against", "within"}
    for number in range(count):
        data = copy.deepcopy(draw.choice([full, full, small]))
        for path, _ in list(places(data)):
            at = data
            try:
                for step in path[:-1]:
                    at = at[step]
                at[path[-1]]
            except (KeyError, IndexError, TypeError):
                continue
            key = path[-1]
            if key in optional and draw.random() < 0.15:
                del at[key]
            elif key in quantities and draw.random() < 0.15:
                at[key] = draw.choice(quantities[key])
        yield case(f"random job {number}", data)


def named_by_starter():
    """The schema that the first line of a new job names, as editors read it."""
    path = os.path.join(work.name, "new.yaml")
    subprocess.run([program, "new", path], check=True, capture_output=True)
    first = open(path, encoding="utf-8").readline().rstrip("\n")
    address = re.fullmatch(r"# yaml-language-server: \$schema=file://(\S+)", first)
    return urllib.parse.unquote(address.group(1)) if address else f"nothing: {first}"


def main():
    texts = job_texts()
    full = yaml_core.read(texts["full_job"].replace("pt-BR", "de"))
    small = yaml_core.read(texts["small_job"])
    good = list(files()) + [case("full", full)]
    cases = good + list(bad_jobs(full)) + list(rule_jobs(texts["small_job"])) + list(table_jobs(small)) + list(random_jobs(full, small, 150))
    # JSON has no name for what is too large, but a number that is.
    documents = "\n".join(json.dumps(c.data, ensure_ascii=False).replace("Infinity", "1e999") for c in cases)
    environment = {"NODE_PATH": "/usr/share/nodejs", **os.environ}
    ajv = subprocess.run(["node", os.path.join(os.path.dirname(os.path.abspath(__file__)), "validate.js"), schema_file],
                         input=documents, capture_output=True, text=True, check=False, env=environment)
    assert ajv.returncode == 0, ajv.stderr
    verdicts = [json.loads(line) for line in ajv.stdout.splitlines()]
    assert len(verdicts) == len(cases)

    faults, counts, let_by = [], {"both accept": 0, "both refuse": 0}, {}
    required = required_left_out()
    with concurrent.futures.ThreadPoolExecutor(2) as two:
        all_codes = list(two.map(lambda one: check(one.text), cases))
    for one, errors, codes in zip(cases, verdicts, all_codes):
        if one in good and codes:
            faults.append(f"{one.name}: no good job: {codes}")
        if errors and not codes:
            faults.append(f"{one.name}: refused by the schema alone: {errors[:3]}")
        elif not errors and required.fullmatch(one.name):
            faults.append(f"{one.name}: let by though the table requires it")
        elif not errors and codes:
            seen = [code for code in codes if code not in elsewhere]
            if seen and not any(part in one.name for part in alone):
                faults.append(f"{one.name}: let by though check says {seen}")
            for code in codes:
                let_by[code] = let_by.get(code, 0) + 1
        else:
            counts["both refuse" if errors else "both accept"] += 1
    print(ajv.stderr.strip(), "-", len(cases), "jobs:", counts, "left to check:", dict(sorted(let_by.items())))
    named = named_by_starter()
    if os.path.realpath(named) != os.path.realpath(schema_file):
        faults.append(f"a new job names {named}, not {schema_file}")
    for fault in faults:
        print(fault)
    # So that a change that leaves nothing to compare is seen.
    enough = counts["both accept"] >= 60 and counts["both refuse"] >= 1000
    if not enough:
        print("too few cases for a verdict")
    return 1 if faults or not enough else 0


sys.exit(main())
