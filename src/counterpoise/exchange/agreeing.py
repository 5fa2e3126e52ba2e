"""Cells of one row held against each other: what cannot both be so is not understood, whichever of the two is wrong."""

from __future__ import annotations

from collections.abc import Iterable

from counterpoise.exchange.parts import BETWEEN
from counterpoise.exchange.said import Read
from counterpoise.units import from_centre

_TRIMS = ("low trim", "high trim")


def disagreeing(reads: Iterable[Read]) -> dict[str, Read]:
    """The fields of a row that another field contradicts, each with why it is not understood."""
    found = {name: one for one in reads for name in one.values}
    return _trims(found) | _lines(found)


def _trims(found: dict[str, Read]) -> dict[str, Read]:
    """Both, where the low one is not below the high one."""
    low, high = (found[name].si if name in found else None for name in _TRIMS)
    if low is None or high is None or low < high:
        return {}
    words = [found[name].values[name] for name in _TRIMS]
    bad = Read(why=f"low trim {words[0]} is not below high trim {words[1]}", mend="See which of the two is meant.")
    return dict.fromkeys(_TRIMS, bad)


def _lines(found: dict[str, Read]) -> dict[str, Read]:
    """The places of lines, where they are not as many as the lines or do not lie on the batten."""
    if "lines at" not in found:
        return {}
    places = found["lines at"].values["lines at"].split(BETWEEN)
    count, length = (found.get(name, Read()) for name in ("line count", "batten length"))
    why = ""
    if count.si is not None and count.si != len(places):
        why = f"lists {len(places)} lines, and the number of lines is {count.values['line count']}"
    elif length.si is not None and _reach(places) > length.si / 2.0 + 1e-9:
        why = f"reaches past the end of a batten of {length.values['batten length']}"
    return {"lines at": Read(why=why, mend="See which of the two is meant.")} if why else {}


def _reach(places: Iterable[str]) -> float:
    """How far the furthest is from the centre line [m]."""
    return max(abs(from_centre(one).best or 0.0) for one in places)
