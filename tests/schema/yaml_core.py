"""YAML as editors read it: version 1.2's core schema, on PyYAML, which alone would take 1.1's."""
import re

import yaml


class Loader(yaml.SafeLoader):
    pass


Loader.yaml_implicit_resolvers = {}
for tag, pattern, first in [
    ("null", r"^(?:~|null|Null|NULL|)$", ["~", "n", "N", ""]),
    ("bool", r"^(?:true|True|TRUE|false|False|FALSE)$", list("tTfF")),
    ("int", r"^(?:[-+]?[0-9]+|0o[0-7]+|0x[0-9a-fA-F]+)$", list("-+0123456789")),
    ("float", r"^(?:[-+]?(?:\.[0-9]+|[0-9]+(?:\.[0-9]*)?)(?:[eE][-+]?[0-9]+)?|[-+]?\.(?:inf|Inf|INF))$",
     list("-+.0123456789")),
]:
    Loader.add_implicit_resolver("tag:yaml.org,2002:" + tag, re.compile(pattern), first)


def whole(loader, node):
    text = loader.construct_scalar(node)
    for prefix, base in (("0o", 8), ("0x", 16)):
        if text.startswith(prefix):
            return int(text[2:], base)
    return int(text)


def real(loader, node):
    return float(loader.construct_scalar(node).replace(".inf", "inf").replace(".Inf", "inf").replace(".INF", "inf"))


def mapping(loader, node):
    """Keys as JSON has them: texts, whatever they look like."""
    return {key.value: loader.construct_object(value, deep=True) for key, value in node.value}


Loader.add_constructor("tag:yaml.org,2002:int", whole)
Loader.add_constructor("tag:yaml.org,2002:float", real)
Loader.add_constructor("tag:yaml.org,2002:map", mapping)


def read(text):
    return yaml.load(text, Loader)
