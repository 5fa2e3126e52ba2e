"""Words, lists and maps to characters of a document, in YAML and in JSON: certain to be read back as they are."""

from __future__ import annotations

import json
import re
from collections.abc import Iterator, Mapping

from counterpoise.documents.tree import Plain

_WIDTH = 110  # characters a short map or list may take on one line
# Parsers differ on a ? within brackets; brackets, commas and breaks end a plain word there.
_CERTAIN = re.compile(r"~?[\w½⅓⅔¼¾⅕⅖⅗⅘⅙⅚⅛⅜⅝⅞][^\[\]{},?\t\r\n\x85\u2028\u2029]*\Z")
# Plain words that other readers of YAML take for something else than words; a whole number may stay one.
_BENT = re.compile(
    r"(?i)(?:y|n|yes|no|on|off|true|false|null|~|[-+.\d]*\d[\d_.:eEx+-]*|0x[\da-f]+|\d+-\d\d?-\d\d?.*)\Z"
)
_WHOLE = re.compile(r"(?:0|[1-9]\d*)\Z")


def yaml_words(words: str) -> str:
    """Plain where that is certain to be read back as it is, else in quotes."""
    risky = ": " in words or " #" in words or words.endswith(":")
    certain = _CERTAIN.match(words) and words.isprintable() and not risky and words == words.strip()
    certain = certain and words.lower() != "null"
    return words if certain else quoted(words)


def quoted(words: str) -> str:
    """In single quotes; in double ones where a foot mark stands in it, which single ones would write as inches."""
    return json_words(words) if "'" in words or not words.isprintable() else f"'{words}'"


def json_words(words: str) -> str:
    """As a JSON string, which YAML reads alike."""
    plain = words.isprintable()  # a line separator or a control sign is written by its number
    return json.dumps(words, ensure_ascii=False) if plain else _escaped(words)


def _escaped(words: str) -> str:
    """Signs that do not print by their number; those past U+FFFF as they are, for YAML knows no pairs of numbers."""
    bent = (json.dumps(sign, ensure_ascii=not sign.isprintable() and sign < "\U00010000")[1:-1] for sign in words)
    return '"' + "".join(bent) + '"'


def inline(value: Plain, *, as_json: bool = False) -> str:
    """A value on one line, as it may stand within other brackets."""
    words = json_words if as_json else yaml_words
    if isinstance(value, str):
        return words(value)
    if isinstance(value, Mapping):
        return "{" + ", ".join(f"{words(name)}: {inline(one, as_json=as_json)}" for name, one in value.items()) + "}"
    return "[" + ", ".join(inline(one, as_json=as_json) for one in value) + "]"


def as_json_text(value: Plain) -> str:
    """JSON, a field to a line."""
    return json.dumps(value, indent=2, ensure_ascii=False) + "\n"


def as_yaml_text(value: Mapping[str, Plain]) -> str:
    """YAML as people lay it out: fields one below the other, short maps and lists on one line."""
    return "\n".join(_block(value, 0)) + "\n"


def _block(value: Plain, indent: int) -> Iterator[str]:
    """The lines of a map or a list that has something in it."""
    space = " " * indent
    if isinstance(value, Mapping):
        for name, one in value.items():
            yield from _entry(f"{space}{_bend_not(name)}:", one, indent + 2)
        return
    for one in value:
        if isinstance(one, str) or _is_short(one, indent + 2):
            yield f"{space}- {_alone(one)}"
        else:
            first, *more = _block(one, indent + 2)
            yield f"{space}- {first.lstrip(' ')}"
            yield from more


def _entry(head: str, value: Plain, indent: int) -> Iterator[str]:
    if isinstance(value, str) or _is_short(value, len(head) + 1):
        yield f"{head} {_alone(value)}"
    else:
        yield head
        yield from _block(value, indent)


def _is_short(value: Plain, at: int) -> bool:
    """Empty, or of words only and within the width."""
    inner = list(value.values()) if isinstance(value, Mapping) else list(value)
    return not inner or (all(isinstance(one, str) for one in inner) and at + len(_inline(value)) <= _WIDTH)


def _alone(value: Plain) -> str:
    """What stands on a line of its own, where a comma is a comma."""
    if isinstance(value, str) and _bend_not(value.replace(",", "")) == value.replace(",", ""):
        return value
    return _inline(value)


def _inline(value: Plain) -> str:
    if isinstance(value, str):
        return _bend_not(value)
    if isinstance(value, Mapping):
        return "{" + ", ".join(f"{_bend_not(name)}: {_inline(one)}" for name, one in value.items()) + "}"
    return "[" + ", ".join(_inline(one) for one in value) + "]"


def _bend_not(words: str) -> str:
    """As `yaml_words`, with quotes too where another reader of YAML would make a number, a date or a yes of it."""
    return json_words(words) if _BENT.match(words) and not _WHOLE.match(words) else yaml_words(words)
