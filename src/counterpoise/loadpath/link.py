"""What a link carries, in one form for all of them."""

from __future__ import annotations

from dataclasses import dataclass

from counterpoise.balance import Span


@dataclass(frozen=True, slots=True, kw_only=True)
class Link:
    """What a link carries: Σ coefficients·T + constant [N]. `line` counts from 1, None where it serves the whole set.

    T is the pull in a line, or, of one that is `vertical`, what hangs on it.

    `formula` is a heading of docs/theory/load-path.md.
    """

    name: str
    line: int | None
    coefficients: tuple[float, ...]
    constant: Span
    formula: str
    number: int = 0  # of several such links of one line, from 1; 0 where there is one
    vertical: bool = False
    certain: float = 1.0  # share of it that is so in any case, where a rating or a turn is not one figure
    lacks: str = ""  # why no figure can be had, where a neighbour on the same steel is unknown
    waits_for: tuple[str, ...] = ()  # these neighbours, by label
