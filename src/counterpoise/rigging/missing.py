"""A figure that is not known, and what can not be computed without it."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from counterpoise.documents import Known

PULLS, BALANCE = "line pulls", "balance"


@dataclass(frozen=True, slots=True, kw_only=True)
class Missing:
    """A figure that is not known and without which a part of the set cannot be computed: `waits` says which part.

    Balance waits for what line pulls wait for as well.
    """

    label: str
    path: str
    what: str
    waits: str
    line: int = 0  # of its document, 0 where nothing is written


def unknown_of(label: str, asked: Iterable[tuple[str, Known | None]], waits: str) -> Iterator[Missing]:
    """Those of some figures that are not known; None stands for a figure that is not asked for."""
    for what, known in asked:
        if known is not None and known.best is None:
            yield Missing(label=label, path=known.path, line=known.line, what=what, waits=waits)
