"""Rows by family and name. The module of a family is imported when it is first asked for."""

from __future__ import annotations

import difflib
from collections import Counter
from collections.abc import Mapping
from functools import cache
from importlib import import_module
from typing import cast

from counterpoise.catalogue.families import family_called
from counterpoise.catalogue.names import normal
from counterpoise.catalogue.row import Row


@cache
def rows(family: str) -> tuple[Row, ...]:
    """All rows of a family, in the order of its table. Raises Misuse for a family that is not there."""
    module = import_module(f"counterpoise.catalogue.{family_called(family).module}")
    return cast("tuple[Row, ...]", module.rows())


def find(family: str, name: str) -> Row | None:
    """The row that people call `name`, None where there is none.

    Case, spaces, inch marks, `sch 40` or `schedule 40`, and fractions or decimals do not matter; a size is never
    rounded to the next one.

    Raises:
        Misuse: there is no such family.
    """
    return _by_name(family).get(normal(name))


def near(family: str, name: str) -> list[str]:
    """Names of at most three rows that may have been meant, best first. Raises Misuse as `find` does."""
    known = _by_name(family)
    asked = normal(name[:80])
    close = [*_holding(known, asked.split()), *difflib.get_close_matches(asked, known, n=6, cutoff=0.6)]
    if not close:  # what no row is called by, as `black iron`, does not tell rows apart
        used = {word for one in known for word in one.split()} - set(family.split())
        close = _holding(known, [word for word in asked.split() if word in used])
    return list(dict.fromkeys(known[one].name for one in close))[:3]


def _holding(known: Mapping[str, Row], words: list[str]) -> list[str]:
    """The names that have all these words among theirs; none where there are no words."""
    asked = Counter(words)  # 6 mm 6x19 has two sixes, and 5 mm 6x19 has one
    found = [one for one in known if words and asked <= Counter(one.split())]
    return sorted(found, key=lambda one: not one.startswith(" ".join(words)))


@cache
def _by_name(family: str) -> Mapping[str, Row]:
    return {normal(name): row for row in rows(family) for name in (row.name, *row.others)}
