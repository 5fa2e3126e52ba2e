"""A batten and its lines as written, held against themselves: pipes that can be, places that lie on them, in order."""

from __future__ import annotations

import itertools
import math
from collections.abc import Sequence

from counterpoise.documents.desk import Desk
from counterpoise.documents.known import Known
from counterpoise.documents.line_set import LineSet
from counterpoise.documents.parts import Batten, Ladder, LineAt, PipeLength
from counterpoise.documents.text import Node
from counterpoise.errors import Unreadable
from counterpoise.units import Form, from_centre, place

STEEL = 7850.0  # [kg/m3], density as in tables of materials
STIFF_AS_STEEL = 1.5e11  # [Pa]; what is less stiff is another metal


def check_batten(one: LineSet, desk: Desk) -> None:
    """Its pipes, its ladder and what is fixed to it; each fault at the part itself, which may stand in a kind."""
    batten, node = one.batten, desk.node_of(one.batten)
    _check_pipe(batten, node, node.path, desk)
    for length in batten.lengths:
        _check_pipe(length, desk.node_of(length), f"{node.path}.lengths", desk)
    if batten.ladder is not None:
        _check_ladder(batten.ladder, batten, desk.node_of(batten.ladder), f"{node.path}.ladder", desk)
    if batten.length.best is None:
        return
    ends = [(length.from_, length.to) for length in batten.lengths]
    _in_order(ends, one, node.fields.get("lengths", node), f"{node.path}.lengths", desk)
    if batten.ladder is not None:
        of_ladder, at = desk.node_of(batten.ladder), f"{node.path}.ladder"
        places = [place_there(said, one, of_ladder, at, desk) for said in batten.ladder.spacers]
        known = [found for found in places if found is not None]
        if any(after - before < 0.001 for before, after in itertools.pairwise(known)):
            desk.refuse(of_ladder, at, "the spacers are not in order from stage right to stage left.",
                        "List each once, from stage right.")  # fmt: skip
    for fixed in batten.attachments:
        half = 0.0 if fixed.spread_over is None or fixed.spread_over.best is None else fixed.spread_over.best / 2.0
        if fixed.centre.best is not None and abs(fixed.centre.best) + half > batten.length.best / 2.0 + 1e-6:
            says = f"{fixed.attachment} centred at {fixed.centre.text} reaches past the end of a batten of "
            desk.refuse(desk.node_of(fixed), fixed.centre.path, f"{says}{batten.length.text}.", "Move its centre.")


def _in_order(ends: Sequence[tuple[str, str]], one: LineSet, node: Node, at: str, desk: Desk) -> None:
    """Lengths of other pipes, one after the other."""
    reached = 0.0
    for from_, to in ends:
        start, end = (place_there(said, one, node, at, desk) for said in (from_, to))
        if start is None or end is None:
            continue
        if start >= end:
            desk.refuse(node, at, f"from {from_} to {to} runs backwards.", "Write it from stage right to stage left.")
        elif start < reached - 1e-6:
            desk.refuse(node, at, f"from {from_} to {to} lies over the length before it.",
                        "Write each once, from stage right to stage left.")  # fmt: skip
        reached = max(reached, end)


def _check_ladder(ladder: Ladder, batten: Batten, node: Node, at: str, desk: Desk) -> None:
    diameter = batten.outside_diameter
    if ladder.depth.best is not None and diameter.best is not None and ladder.depth.best < diameter.best:
        desk.refuse(node, at, f"chords of {diameter.text} are not {ladder.depth.text} apart.",
                    "Give the depth between their middles.")  # fmt: skip
    _goes_in(ladder.spacer_wall, ladder.spacer_diameter, node, at, desk)


def _goes_in(wall: Known | None, diameter: Known | None, node: Node, at: str, desk: Desk) -> bool:
    if wall is None or diameter is None or wall.best is None or diameter.best is None:
        return True
    if wall.best > diameter.best / 2.0:
        desk.refuse(node, at, f"a wall of {wall.text} does not go into a pipe of {diameter.text}.",
                    "A wall is at most half the diameter.")  # fmt: skip
        return False
    return True


def _check_pipe(pipe: Batten | PipeLength, node: Node, at: str, desk: Desk) -> None:
    nominal, design = pipe.wall, pipe.design_wall
    if not all(_goes_in(wall, pipe.outside_diameter, node, at, desk) for wall in (nominal, design)):
        return
    if design is not None and design.best is not None and nominal.best is not None and design.best > nominal.best:
        desk.refuse(node, at, f"its design wall is {design.text}, thicker than its wall of {nominal.text}.",
                    "A wall of your own needs its own `design wall` too.")  # fmt: skip
        return
    _weigh_pipe(pipe, node, at, desk)


def _weigh_pipe(pipe: Batten | PipeLength, node: Node, at: str, desk: Desk) -> None:
    """A steel pipe of that size weighs about what is written; far from it one has a slip of unit or fraction."""
    diameter, wall, weight, modulus = (
        known.best for known in (pipe.outside_diameter, pipe.wall, pipe.weight, pipe.modulus)
    )
    if diameter is None or wall is None or weight is None or modulus is None or modulus < STIFF_AS_STEEL:
        return
    steel = math.pi * (diameter - wall) * wall * STEEL
    if not 0.4 * weight <= steel <= 2.5 * weight:
        times = f"{steel / weight:.2g} times" if weight > 0.0 else "more than"
        desk.refuse(node, at, f"a steel pipe of {pipe.outside_diameter.text} with a wall of "
                    f"{pipe.wall.text} weighs {times} the {pipe.weight.text} that is written.",
                    "One of the three is not what was meant: check its unit.")  # fmt: skip


def check_lines(one: LineSet, desk: Desk) -> None:
    """Two lines and more, in order, on the batten; splices on it too."""
    lines, node = one.lines, desk.node_of(one.lines)
    listed, at = node.fields.get("at", node), f"{node.path}.at"
    whole = not desk.has_lost(node, "at")
    if len(lines.at) == 1 and whole:
        desk.refuse(listed, at, "a batten hangs on two lines or more.", "List where each meets it.")
    if lines.at and whole and lines.count is not None and lines.count.best not in (None, len(lines.at)):
        desk.refuse(node.fields.get("count", node), f"{node.path}.count",
                    f"it says {lines.count.text} lines, but {len(lines.at)} are listed.",
                    "Mend the list, or take `count` out.")  # fmt: skip
    places = [_line_there(line, one, desk) for line in lines.at]
    known = [found for found in places if found is not None]
    if any(after - before < 0.001 for before, after in itertools.pairwise(known)):
        desk.refuse(listed, at, "the lines are not in order from stage right to stage left.",
                    "List each once, from stage right.")  # fmt: skip
    for splice in one.batten.splices if one.batten.length.best is not None else ():
        of_batten = desk.node_of(one.batten)
        place_there(splice.at, one, desk.node_of(splice), f"{of_batten.path}.splices", desk)


def _line_there(line: LineAt, one: LineSet, desk: Desk) -> float | None:
    """Where a line meets the batten [m], from its end, or from the centre where no length is known."""
    node = desk.node_of(line)
    place_there(line.block_at, one, node, node.path, desk, anywhere=True)
    if one.batten.length.best is not None:
        return place_there(line.at, one, node, node.path, desk)
    try:
        return from_centre(line.at).best
    except Unreadable:  # it counts from an end, and where that is is not known
        return None


def place_there(said: str, one: LineSet, node: Node, at: str, desk: Desk, *, anywhere: bool = False) -> float | None:
    """Where a word puts something along the batten [m], None where it is not known; a problem where it can not be.

    `anywhere` is for what is up in the loft and may lie beyond the ends of the batten.
    """
    if not said:
        return None
    try:
        found = from_centre(said) if anywhere else place(said, length=one.batten.length.number)
    except Unreadable as error:
        desk.refuse(node, at, f"{said}: {error.why}.".replace("..", "."), error.mend)
        return None
    if found.form is Form.RANGE:
        desk.refuse(node, at, f"{said}: a range is not carried through here.", "Write the one place, or unknown.")
        return None
    return found.best
