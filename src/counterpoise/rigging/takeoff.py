"""What a piece weighs by its takeoff: cloth, board, lumber, pipe and cable by size, other things by count."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from counterpoise.documents import IN_SECTIONS, Known, Piece, Source, Taken, worst
from counterpoise.rigging.rules import Rule, doubt, is_guess
from counterpoise.units import Form, Kind


def weight_of(piece: Piece, rules: Mapping[str, Rule]) -> Known:
    """The weight of a piece as written, or as its takeoff or its sections come to.

    A sum is a range: each line of it as uncertain as its weight per area, per length or of one, and as each size of it
    that is an estimate. It is as well known as the worst of its figures, and unknown where one of them is.
    """
    if piece.comes == IN_SECTIONS:
        return _sum(piece, "sections", [_Row(part.weight, ()) for part in piece.sections], rules)
    if piece.takeoff:
        return _sum(piece, "takeoff", [_taken(one) for one in piece.takeoff], rules)
    return piece.weight


def weighed_by(piece: Piece) -> tuple[Known, ...]:
    """The written figures that its weight rests on."""
    lines = [_taken(one) for one in piece.takeoff] or [_Row(part.weight, ()) for part in piece.sections]
    return tuple(one for line in lines or [_Row(piece.weight, ())] for one in line.figures if one is not None)


@dataclass(frozen=True, slots=True)
class _Row:
    """A line of a takeoff: the weight of a unit, and the figures whose product is how many units there are.

    A figure that has to stand there and does not is None; `fullness` is what is added to the width.
    """

    weight: Known | None
    sizes: tuple[Known | None, ...]
    fullness: Known | None = None

    @property
    def figures(self) -> tuple[Known | None, ...]:
        """All that it rests on."""
        return (self.weight, *self.sizes, *((self.fullness,) if self.fullness is not None else ()))

    @property
    def units(self) -> float:
        """How many units [m2, m, 1]; none of its figures may be unknown."""
        more = 1.0 + (self.fullness.number if self.fullness is not None else 0.0)
        return more * math.prod(size.number for size in self.sizes if size is not None)

    def off(self, rules: Mapping[str, Rule]) -> float:
        """How far it may be from its best [kg]: by the weight of a unit, and by each size that is an estimate."""
        if self.weight is None:
            return 0.0
        sizes = sum(is_guess(one) for one in self.figures[1:] if one is not None) * rules["estimate spread"].value
        return self.units * (doubt(self.weight, rules) + self.weight.number * sizes)


def lights_of(piece: Piece, rules: Mapping[str, Rule]) -> tuple[tuple[float, float, float], ...]:
    """Each fixture of its takeoff: low, best, high [kg]; none where a figure is not known, or there is but one."""
    found: list[tuple[float, float, float]] = []
    for one in piece.takeoff:
        if not one.fixture:
            continue
        count = 1.0 if one.count is None else one.count.best
        if one.each is None or one.each.best is None or count is None or count != round(count):
            return ()
        off = doubt(one.each, rules)
        found += [(max(0.0, one.each.best - off), one.each.best, one.each.best + off)] * round(count)
    return tuple(found) if len(found) > 1 else ()


def _taken(one: Taken) -> _Row:
    count = () if one.count is None else (one.count,)
    if one.per_area is not None:
        return _Row(one.per_area, (one.width, one.height, *count), one.fullness)
    if one.per_length is not None:
        return _Row(one.per_length, (one.length, *count))
    return _Row(one.each, count)


def _sum(piece: Piece, what: str, lines: Sequence[_Row], rules: Mapping[str, Rule]) -> Known:
    path = piece.weight.path.removesuffix("weight") + what
    figures = [known for line in lines for known in line.figures]
    known = [one for one in figures if one is not None and one.best is not None]
    if not lines or len(known) < len(figures):
        at = next((one for one in figures if one is not None and one.best is None), piece.weight)
        return Known(text=at.text if at.is_unknown else "not written", kind=Kind.MASS, low=None, best=None, high=None,
                     form=Form.UNKNOWN, source=None, path=at.path, line=at.line)  # fmt: skip
    parts = [(line.weight, line.units) for line in lines if line.weight is not None]
    best, spread = sum(one.number * units for one, units in parts), sum(line.off(rules) for line in lines)
    told = "; ".join(dict.fromkeys(str(one.source) if one.source else one.text for one, _ in parts))
    source = Source(name=what, how=worst([one.how for one in known]), what=f"{what} of {len(parts)}: {told}")
    return Known(text=f"{what} of {len(parts)} lines" if len(parts) > 1 else f"{what} of one line", kind=Kind.MASS,
                 low=max(0.0, best - spread), best=best, high=best + spread,
                 form=Form.RANGE if spread > 0.0 else Form.EXACT, source=source, path=path,
                 line=piece.weight.line or parts[0][0].line)  # fmt: skip
