"""A row of the catalogue: one thing that is sold by a name, and the figures published for it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from enum import StrEnum


class HowKnown(StrEnum):
    """How well a published figure is known, best first. The words are those that a document uses."""

    DOCUMENTED = "documented"  # read in a published table, or in a public copy of it
    COMPUTED = "computed"  # arithmetic from documented figures or from the designation; the source says from what
    DEFAULT = "default, not adopted"  # from memory: nobody has looked it up


@dataclass(frozen=True, slots=True, kw_only=True)
class Figure:
    """One figure as a house would write it, a range or an estimate too.

    `of` and `by` are for ratings and strengths: what the figure is a rating of, and the document that rates it so.
    """

    text: str
    source: str
    how: HowKnown
    of: str = ""
    by: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Row:
    """One named thing. `values` and `conflicts` go by the words of the house file, as in `outside diameter`.

    `conflicts` holds other published values of the same figure. They are shown and never averaged.
    """

    family: str
    name: str
    others: tuple[str, ...] = ()  # what else people write for it
    values: Mapping[str, Figure]
    conflicts: Mapping[str, tuple[Figure, ...]] = field(default_factory=dict)
    note: str = ""


def documented(text: str, source: str, *, of: str = "", by: str = "") -> Figure:
    """A figure that was read in the document which `source` names."""
    return Figure(text=text, source=source, how=HowKnown.DOCUMENTED, of=of, by=by)


def computed(text: str, source: str, *, of: str = "", by: str = "") -> Figure:
    """A figure reckoned from others that are not from memory; `source` says from what."""
    return Figure(text=text, source=source, how=HowKnown.COMPUTED, of=of, by=by)


def from_memory(text: str, source: str, confidence: str, *, of: str = "", by: str = "") -> Figure:
    """A figure that was not looked up, or rests on one; `confidence` is high, medium or low."""
    said = f"{source}; from memory, confidence {confidence}: look it up"
    return Figure(text=text, source=said, how=HowKnown.DEFAULT, of=of, by=by)
