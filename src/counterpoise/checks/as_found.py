"""What takes a row back that would be within: what an inspection found, and what no row can tell of yet."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace

from counterpoise.balance import Span
from counterpoise.checks.rows import Check, Input, Measure
from counterpoise.documents import Condition
from counterpoise.rigging import RiggedBatten, RiggedHouse, least

TOO_STEEP = "leans by more than 3 in 10 at high trim"
TAUT = "the cable of "  # what a row lacks begins so where a cable comes taut
NO_LOAD = ("stack", "clamp size", "fleet angle")  # rows that rest on no load
OF_BALANCE = ("arbor", "guides", "lock", "hand line", "tension block", "top stop", "bottom stop", "crew")


def not_told_yet(rigged: RiggedBatten, rows: Iterable[Check]) -> list[Check]:
    """The rows with why they cannot be within, where a cable comes taut or a line leans too far to compute it."""
    taut, steep = rigged.taut, rigged.steep
    found = []
    for row in rows:
        lacks = row.lacks
        if steep and row.link in OF_BALANCE:
            lacks = lacks or f"line {steep} {TOO_STEEP}: how that changes the balance is not computed"
        if taut and row.link not in NO_LOAD:
            lacks = f"{TAUT}{taut} is too short: it comes taut over the travel"
        found.append(row if lacks == row.lacks else replace(row, lacks=lacks))
    return found


def as_found(house: RiggedHouse, rigged: RiggedBatten, rows: Iterable[Check]) -> list[Check]:
    """The rows as inspections left them: each limit no more than what the part may carry as it was found.

    Where that is not written, or is a force and the row is none, the row is not within. What was found on a part that
    no row looks at is a row of its own.
    """
    made = list(rows)
    for number, found in enumerate(rigged.written.condition, start=1):
        met = [row for row in made if _is_of(found, row)]
        made = [_taken_back(house, rigged, row, found) if row in met else row for row in made]
        if not met:
            made.append(_alone(rigged, found, number))
    return made


def _is_of(found: Condition, row: Check) -> bool:
    line = found.line.best if found.line is not None else None
    return found.part == row.link and (line is None or row.line is None or line == row.line)


def _taken_back(house: RiggedHouse, rigged: RiggedBatten, row: Check, found: Condition) -> Check:
    carries = None if found.carries is None else least(found.carries, house.rules)
    inputs = (_input(rigged, found), *row.inputs)
    if carries is not None and row.measure is Measure.FORCE:
        return replace(row, limit=None if row.limit is None else min(row.limit, carries), inputs=inputs)
    why = "what it may carry so is not known" if carries is None else "that is not held against a force"
    return replace(row, lacks=row.lacks or f"{_told(found)}; {why}", inputs=inputs)


def _alone(rigged: RiggedBatten, found: Condition, number: int) -> Check:
    return Check(key=f"{rigged.key}/condition/{number}", label=rigged.label, link=found.part, line=None,
                 measure=Measure.FORCE, value=Span(0.0, 0.0, 0.0), limit=None, formula="condition",
                 inputs=(_input(rigged, found),), lacks=f"{_told(found)}; nothing of it is computed")  # fmt: skip


def _input(rigged: RiggedBatten, found: Condition) -> Input:
    if found.carries is not None:
        return Input.of(_told(found), found.carries)
    return replace(Input.unwritten(f"what it may carry, {_told(found)}"), path=f"sets {rigged.label} › condition")


def _told(found: Condition) -> str:
    return f"found on {found.when} by {found.who}: {found.found}"
