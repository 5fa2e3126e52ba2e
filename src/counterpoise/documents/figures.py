"""Reads a figure in the notation of the documents, with its form, its source and the place where it stands."""

from __future__ import annotations

import difflib
import re
from collections.abc import Callable

from counterpoise.documents.desk import Desk, Skip
from counterpoise.documents.known import NOT_WRITTEN, Known, Source
from counterpoise.documents.text import Node
from counterpoise.documents.word_fields import Reader, scalar, telling
from counterpoise.errors import Unreadable
from counterpoise.units import Form, Kind, Reading, from_centre, read

_UP_OR_DOWN = re.compile(r"\s*([^-+\s].*?)\s*\b(us|u/s|upstage|ds|d/s|downstage)\.?\s*\Z", re.IGNORECASE)


def quantity(kind: Kind, *, above_zero: bool = False, ranges: bool = False, signed: bool = False) -> Reader:
    """A quantity in the notation of the documents; a range only where both its ends are carried through."""
    reader = _known(lambda said: _read(said, kind, signed), above_zero, ranges)
    return telling(reader, kind=kind, above_zero=above_zero, ranges=ranges, signed=signed)


def _read(said: str, kind: Kind, signed: bool) -> Reading:
    """As `read`; one with a side of the stage behind it is told how the sign says it."""
    try:
        return read(said, kind, signed=signed)
    except Unreadable as error:
        side = _UP_OR_DOWN.match(said) if signed and kind is Kind.LENGTH else None
        if side is None:
            raise
        down = side[2][0] in "dD"
        meant = f"{'-' * down}{side[1]}"
        read(meant, kind, signed=True)  # what is told can be read, else its own refusal is
        mend = f"Upstage is counted up, downstage is minus: write {meant}."
        raise Unreadable(error.text, f"has {side[2]} behind the figure", mend) from None


def between(reader: Reader, low: float, high: float, mend: str) -> Reader:
    """What `reader` reads, refused outside low..high [SI]: a slip of the pen that would pass anything."""

    def one(node: Node, desk: Desk) -> Known:
        found: Known = reader(node, desk)
        ends = [end for end in (found.low, found.high) if end is not None]
        if any(not low <= end <= high for end in ends):
            desk.refuse(node, node.path, "can hardly be meant.", mend)
            raise Skip
        return found

    return telling(one, **getattr(reader, "reads", {}))


def blank(kind: Kind, path: str, line: int = 0) -> Known:
    """What a figure is before anybody has written it: unknown, at the place where it would stand."""
    return Known(text=NOT_WRITTEN, kind=kind, low=None, best=None, high=None, form=Form.UNKNOWN, source=None,
                 path=path, line=line)  # fmt: skip


def along() -> Reader:
    """A distance from a centre line, to stage left positive [m]: `6' SL`, `CL`, `12' SR`."""
    return telling(_known(from_centre, False, False), along=True)


def _known(reader: Callable[[str], Reading], above_zero: bool, ranges: bool) -> Reader:
    def one(node: Node, desk: Desk) -> Known:
        words = scalar(node, desk, "the figure with its unit")
        try:
            found = reader(words.text)
        except Unreadable as error:
            mend = desk.hints.get(node.path, error.mend)
            desk.refuse(node, node.path, f"{error.why}.".replace("..", "."), mend)
            raise Skip from None
        if above_zero and found.low is not None and found.low <= 0.0:
            desk.refuse(node, node.path, "must be more than zero.", "Write unknown where it is not known.")
            raise Skip
        if found.form is Form.RANGE and not ranges:
            desk.refuse(node, node.path, "a range is not carried through here.",
                        "Write the one figure, with ~ in front if it is an estimate, or unknown.")  # fmt: skip
            raise Skip
        source = desk.sources.get(words.block)
        if found.source:
            source = source_called(found.source, node, desk)
        return Known(text=words.text, kind=found.kind, low=found.low, best=found.best, high=found.high,
                     form=found.form, source=source, path=node.path, line=node.line)  # fmt: skip

    return one


def source_called(name: str, node: Node, desk: Desk) -> Source | None:
    """The source of that name; where there is none that is noted, with the near one."""
    if name in desk.sources:
        return desk.sources[name]
    near = difflib.get_close_matches(name, desk.sources, n=1)
    mend = f"Did you mean @{near[0]}?" if near else f"Add {name} under `sources`."
    desk.refuse(node, node.path, f"no source is called {name}.", mend)
    return None
