"""As much of JSON Schema 2020-12 as the schemas beside this file use. A keyword that it doesn't
know is an error, so that no rule is passed over in silence."""

import re

NOTES = {"$schema", "$id", "$defs", "title", "description", "examples", "default", "format"}
TYPES = {
    "object": lambda v: isinstance(v, dict),
    "array": lambda v: isinstance(v, list),
    "string": lambda v: isinstance(v, str),
    "boolean": lambda v: isinstance(v, bool),
    "null": lambda v: v is None,
    "number": lambda v: isinstance(v, (int, float)) and not isinstance(v, bool),
    # The format knows no `1.0` for 1, though the standard would.
    "integer": lambda v: isinstance(v, int) and not isinstance(v, bool),
}


def fault(value, schema, root=None, at="$"):
    """What is wrong with the value, in words; None if it fits."""
    root = schema if root is None else root
    if isinstance(schema, bool):
        return None if schema else f"{at}: nothing may stand here"
    for word, rule in schema.items():
        if word in NOTES:
            continue
        found = RULES[word](value, rule, schema, root, at)
        if found:
            return found
    return None


def _ref(value, rule, _schema, root, at):
    target = root
    for part in rule.removeprefix("#/").split("/"):
        target = target[part]
    return fault(value, target, root, at)


def _type(value, rule, _schema, _root, at):
    names = rule if isinstance(rule, list) else [rule]
    return None if any(TYPES[name](value) for name in names) else f"{at}: not {' or '.join(names)}"


def _choice(least, most):
    def check(value, rule, _schema, root, at):
        faults = [fault(value, option, root, at) for option in rule]
        fits = faults.count(None)
        return None if least <= fits <= (most or len(rule)) else f"{at}: {fits} of the forms fit"

    return check


def _properties(value, rule, _schema, root, at):
    if isinstance(value, dict):
        for name, inner in rule.items():
            if name in value and (found := fault(value[name], inner, root, f"{at}.{name}")):
                return found
    return None


def _additional(value, rule, schema, root, at):
    if isinstance(value, dict):
        for name in value.keys() - schema.get("properties", {}).keys():
            if found := fault(value[name], rule, root, f"{at}.{name}"):
                return found
    return None


def _items(value, rule, schema, root, at):
    if isinstance(value, list):
        for place in range(len(schema.get("prefixItems", [])), len(value)):
            if found := fault(value[place], rule, root, f"{at}[{place}]"):
                return found
    return None


def _prefix(value, rule, _schema, root, at):
    if isinstance(value, list):
        for place, (item, inner) in enumerate(zip(value, rule)):
            if found := fault(item, inner, root, f"{at}[{place}]"):
                return found
    return None


def _when(applies, holds, words):
    return lambda value, rule, _schema, _root, at: (
        f"{at}: {words} {rule}" if applies(value) and not holds(value, rule) else None
    )


def _is_number(value):
    return isinstance(value, (int, float)) and not isinstance(value, bool)


RULES = {
    "$ref": _ref,
    "type": _type,
    "anyOf": _choice(1, None),
    "oneOf": _choice(1, 1),
    "allOf": lambda v, rule, s, root, at: next(
        (found for inner in rule if (found := fault(v, inner, root, at))), None
    ),
    "properties": _properties,
    "additionalProperties": _additional,
    "items": _items,
    "prefixItems": _prefix,
    "required": _when(lambda v: isinstance(v, dict), lambda v, r: set(r) <= v.keys(), "needs"),
    "minItems": _when(lambda v: isinstance(v, list), lambda v, r: len(v) >= r, "items at least"),
    "maxItems": _when(lambda v: isinstance(v, list), lambda v, r: len(v) <= r, "items at most"),
    "minProperties": _when(lambda v: isinstance(v, dict), lambda v, r: len(v) >= r, "keys at least"),
    "maxProperties": _when(lambda v: isinstance(v, dict), lambda v, r: len(v) <= r, "keys at most"),
    "minimum": _when(_is_number, lambda v, r: v >= r, "at least"),
    "maximum": _when(_is_number, lambda v, r: v <= r, "at most"),
    "maxLength": _when(lambda v: isinstance(v, str), lambda v, r: len(v) <= r, "letters at most"),
    "minLength": _when(lambda v: isinstance(v, str), lambda v, r: len(v) >= r, "letters at least"),
    # `\Z` for `$`, which in Python also fits before a line feed at the end.
    "pattern": _when(
        lambda v: isinstance(v, str),
        lambda v, r: re.search(re.sub(r"\$$", r"\\Z", r), v) is not None,
        "does not match",
    ),
    "enum": _when(lambda v: True, lambda v, r: v in r, "none of"),
    "const": _when(lambda v: True, lambda v, r: type(v) is type(r) and v == r, "is not"),
}
