"""A path into a document as a rigger says it: "set 5, where header hangs"."""

from __future__ import annotations

import re

from counterpoise.app.judge import Texts
from counterpoise.documents import standing

_ITEM = re.compile(r"(hung|sets|pieces|kinds|steel|bridges|bricks)(\[\d+\]|\.[^.\[]+)\.?(.*)")
_NAMED = {"sets": "set", "pieces": "piece", "steel": "bay", "bridges": "bridge", "bricks": "brick"}


def where_written(texts: Texts, kind: str, path: str) -> str:
    """Which thing the path leads to, and which of its fields; the path itself where it is none of those."""
    found = _ITEM.fullmatch(path)
    if found is None:
        return path.replace(".", ", ")
    of, item, field = found.groups()
    said = field.replace(".", ", ")
    if of == "hung":
        label, piece = _standing(texts, kind, [f"hung{item}.set", f"hung{item}.piece"])
        hangs = f"set {label}, where {piece} hangs"
        return hangs if said in ("", "centre") else f"{hangs}, {said}"
    named = f"kind {item[1:]}" if of == "kinds" else _named(texts, kind, of, item)
    return f"{named}, {said}" if said else named


def _named(texts: Texts, kind: str, of: str, item: str) -> str:
    word = _NAMED[of]
    name = _standing(texts, kind, [f"{of}{item}.{word}"])[0]
    return name if of == "pieces" else f"{word} {name}"


def _standing(texts: Texts, kind: str, paths: list[str]) -> list[str]:
    return [str(each) for each in standing(getattr(texts, kind), paths)]
