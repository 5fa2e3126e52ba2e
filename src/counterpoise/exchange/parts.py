"""Cells about the parts of a set that are words and not figures: its pipe, and the places of its lift lines."""

from __future__ import annotations

import re
from itertools import pairwise

from counterpoise import catalogue
from counterpoise.errors import Unreadable
from counterpoise.exchange.said import Read
from counterpoise.units import Form, from_centre

BETWEEN = ", "  # places in one value
FAMILIES = ("pipe", "tube")
# What people add to the name of a pipe; to call it so changes no figure of its row.
_ADDED = re.compile(r"(?i)\b(?:black(?: iron| steel)?|steel|batten)\b,?|\bpipe\Z")
_MARKS = str.maketrans("′’‘″”“", "'''\"\"\"")
# A comma parts two places; so does a space behind the side that a place ends with.
_PARTED = re.compile(r"\s*[,;]\s*|(?:(?<=\bSR)|(?<=\bSL)|(?<=\bCL))\s+(?!of\b|end\b)", re.IGNORECASE)


def read_pipe(text: str) -> Read:
    """The row of the catalogue that a pipe is called by; a size is never rounded to the next one."""
    plain = " ".join(_ADDED.sub(" ", text).split())
    for said, note in ((text, ""), (plain, f"batten: {text}")):
        row = next((row for family in FAMILIES if (row := catalogue.find(family, said)) is not None), None)
        if row is not None:
            return Read(
                values={"batten pipe": row.name}, note=note, says="" if row.name == text else f"read as {row.name}"
            )
    near = near_pipes(text)
    mend = f"It may be: {', '.join(near)}." if near else "Write its size and schedule, as in 1-1/2 in schedule 40."
    return Read(why="is no pipe of the catalogue", mend=mend)


def near_pipes(text: str) -> tuple[str, ...]:
    """Names of pipes that may have been meant, best first."""
    plain = " ".join(_ADDED.sub(" ", text).split())
    return tuple(name for family in FAMILIES for name in catalogue.near(family, plain))[:4]


def read_places(text: str) -> Read:
    """Places of the lift lines from stage right to stage left, each from the centre line."""
    if "@" in text:  # a source is named by a house file alone: behind an @ here stands something else
        return Read(why="has words behind an @", mend="Write the places alone, and the rest in a note.")
    places = [one.strip() for one in _PARTED.split(text.translate(_MARKS).strip()) if one]
    if len(places) < 2:
        return Read(why="is one place, and a batten hangs on two lines or more", mend="Write all: 20' SR, CL, 20' SL.")
    found = []
    for said in places:
        try:
            at = from_centre(said)
        except Unreadable as bad:
            return Read(why=f"{said} {bad.why}", mend=bad.mend)
        if at.best is None or at.form is Form.RANGE:
            return Read(why=f"{said} is not one place", mend="Write the one place of each line.")
        found.append((at.best, said))
    ordered = sorted(found)
    if any(after[0] - before[0] < 0.001 for before, after in pairwise(ordered)):
        return Read(why="says one place twice", mend="Write each line once, from stage right.")
    words = BETWEEN.join(said for _, said in ordered)
    return Read(values={"lines at": words}, says="" if words == text else f"read as {words}")
