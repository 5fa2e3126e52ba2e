"""Lift lines as springs: how much of the rope stretches, how much too long it is, and how far it leans."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass

from counterpoise.documents import DEAD_HUNG, House, Known, LineAt, LineSet
from counterpoise.rigging.missing import PULLS, Missing
from counterpoise.statics import Line
from counterpoise.units import from_centre, place

PLUMB = 0.001  # [m]; lines that lean apart by no more than a millimetre hang plumb


@dataclass(frozen=True, slots=True, kw_only=True)
class Fleet:
    """How far a line (from 1) comes out of the plane of a sheave, at most [rad]; `lacks` says why that is not known."""

    line: int
    angle: float
    written: tuple[Known, ...]  # the places across that it rests on
    lacks: str = ""


def lacking_places(one: LineSet, house: House) -> Iterator[Missing]:
    """Places that are not known: of the lines, of their blocks, and of the rail where there are two to choose from."""
    at = f"{one.stands}.lines.at"

    def missing(what: str, path: str = at) -> Missing:
        return Missing(label=one.label, path=path, line=one.line_of, what=what, waits=PULLS)

    if not one.lines.at:
        yield missing("where the lines meet the batten")
    for number, line in enumerate(one.lines.at, start=1):
        if one.batten.length.best is not None and place(line.at, length=one.batten.length.best).best is None:
            yield missing("the place of a line")
        if line.block_at and from_centre(line.block_at).best is None:
            yield missing(f"where the loft block of line {number} stands")
    if one.rigged != DEAD_HUNG and not one.rail and len({rail.side for rail in house.rails}) > 1:
        yield missing("the rail it is worked from, with rails on both sides", f"{one.stands}.rail")


def asked_of_lines(one: LineSet) -> Iterator[tuple[str, Known | None]]:
    """Figures of single lines that may be written as unknown."""
    for number, line in enumerate(one.lines.at, start=1):
        yield f"length of line {number}", line.length
        yield f"trim error of line {number}", line.trim_error
        yield f"stiffness of line {number}", line.stiffness


def line_of(line: LineAt, one: LineSet, house: House) -> Line:
    """A line as a spring L/EA, L the whole rope: batten side, across the loft, and the arbor side r times over.

    The arbor side is the arbor travel; the length that stays above the arbor at its top stop is neglected (short). Of a
    dead-hung line, and of one whose sheave is seized, only what is below the loft block stretches; the latter is taken
    at high trim, where it is stiffest.
    """
    loft, dead = house.stage.loft_blocks.number, one.rigged == DEAD_HUNG
    x = place_of(line, one)
    rope = loft - (one.high_trim if line.seized and not dead else one.low_trim).number
    if not dead and not line.seized:
        # the batten side and the arbor side together: what one loses over the travel the other gains
        rope += _across(line, one, house, x)
    if line.length is not None and not line.seized:
        rope = line.length.number
    offset = line.trim_error.number if line.trim_error is not None else 0.0
    stiffness = line.stiffness if line.stiffness is not None else one.lines.stiffness
    return Line(x=x, flexibility=rope / stiffness.number, offset=offset)


def place_of(line: LineAt, one: LineSet) -> float:
    """Where it meets the batten [m]; a set with a line at an unknown place is not rigged."""
    x = place(line.at, length=one.batten.length.number).best
    assert x is not None
    return x


def runs_of(one: LineSet) -> tuple[float, ...]:
    """How far along the batten the loft block of each line stands from where it meets the batten [m].

    None where they all do by the same: a batten that hangs free drifts until it is plumb under its blocks.
    """
    runs = tuple(block_of(line, one) - place_of(line, one) for line in one.lines.at)
    return runs if max(runs) - min(runs) > PLUMB else ()


def towards_of(one: LineSet, house: House) -> tuple[float, ...]:
    """Which way each line leaves its loft block for the head block: 1 toward stage left, -1; 0 of a dead-hung one."""
    if one.rigged == DEAD_HUNG:
        return (0.0,) * len(one.lines.at)
    head = _head(one, house)
    return tuple(math.copysign(1.0, head - block_of(line, one)) for line in one.lines.at)


def fleets_of(one: LineSet, house: House) -> Iterator[Fleet]:
    """The fleet angle of each line of which a place across the stage is written: at its loft block, or at the head.

    Both sheaves are taken to stand along the batten. The line rises to a loft block that stands off the plane of its
    batten, most out of line at high trim, and goes on to a head block that stands off that of the loft block. Where one
    of the two is left out it stands in the plane of the batten.
    """
    for number, line in enumerate(one.lines.at if one.rigged != DEAD_HUNG else (), start=1):
        loft, head = (line.loft_block or one.loft_block).upstage, one.head_block.upstage
        written = tuple(known for known in (loft, head) if known is not None)
        if not written:
            continue
        lacks = "its way over mule blocks is not computed" if line.mule_blocks else ""
        if any(known.best is None for known in written):
            lacks = "how far its blocks stand across is not known"
        off = loft.best if loft is not None and loft.best is not None else 0.0
        over = (head.best if head is not None and head.best is not None else 0.0) - off
        x = place_of(line, one)
        rise = math.hypot(house.stage.loft_blocks.number - one.high_trim.number, _block(line, one, x) - x)
        angle = max(math.atan2(abs(off), rise), math.atan2(abs(over), _across(line, one, house, x)))
        yield Fleet(line=number, angle=angle, written=written, lacks=lacks)


def block_of(line: LineAt, one: LineSet) -> float:
    """Where its loft block stands along the batten [m]: straight above, unless another place is written."""
    return _block(line, one, place_of(line, one))


def _block(line: LineAt, one: LineSet, x: float) -> float:
    block = from_centre(line.block_at).best if line.block_at else None
    return x if block is None else one.batten.length.number / 2 + block


def _head(one: LineSet, house: House) -> float:
    """Where the head block stands along the batten [m], on the side of the set's rail."""
    beyond = one.lines.head_block_from_end.number
    only = house.rails[0] if house.rails else None
    rail = next((each for each in house.rails if each.rail == one.rail), only)
    return -beyond if rail is not None and rail.side == "stage right" else one.batten.length.number + beyond


def _across(line: LineAt, one: LineSet, house: House, x: float) -> float:
    """From the loft block to the head block along the batten [m]."""
    return abs(_head(one, house) - _block(line, one, x))
