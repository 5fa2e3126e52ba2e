"""What a piece weighs by its takeoff: cloth, board, lumber, pipe and cable by size, other things by count."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from counterpoise.documents import IN_SECTIONS, How, Known, Piece, Source, Taken, worst
from counterpoise.rigging.rules import Rule, doubt
from counterpoise.units import Form, Kind


def weight_of(piece: Piece, rules: Mapping[str, Rule]) -> Known:
    """The weight of a piece as written, or as its takeoff or its sections come to.

    A sum is a range: each line of it as uncertain as its weight per area, per length or of one. It is as well known as
    the worst of them, and unknown where one of its figures is.
    """
    if piece.comes == IN_SECTIONS:
        return _sum(piece, "sections", [(part.weight, 1.0) for part in piece.sections], rules)
    if piece.takeoff:
        return _sum(piece, "takeoff", [_taken(one) for one in piece.takeoff], rules)
    return piece.weight


def _taken(one: Taken) -> tuple[Known | None, float]:
    """The weight of a unit, and how many units [m2, m, 1]; no weight where a size of it is unknown."""
    count = _number(one.count)
    units, weight = 1.0, one.per_area or one.per_length or one.each
    sizes: tuple[Known | None, ...] = ()
    if one.per_area is not None:
        sizes = (one.width, one.height)
        units += _number(one.fullness) or 0.0
    elif one.per_length is not None:
        sizes = (one.length,)
    for size in sizes:
        if size is None or size.best is None:
            return size, 1.0
        units *= size.best
    return weight, units * (1.0 if one.count is None else count or 0.0)


def _number(known: Known | None) -> float | None:
    return known.best if known is not None else None


def _sum(piece: Piece, what: str, lines: list[tuple[Known | None, float]], rules: Mapping[str, Rule]) -> Known:
    path = piece.weight.path.removesuffix("weight") + what
    lacking = next((known for known, _ in lines if known is None or known.best is None), None)
    if not lines or any(known is None or known.best is None for known, _ in lines):
        at = lacking if lacking is not None else piece.weight
        return Known(text=at.text, kind=Kind.MASS, low=None, best=None, high=None, form=Form.UNKNOWN, source=None,
                     path=at.path, line=at.line)  # fmt: skip
    known = [(one, units) for one, units in lines if one is not None]
    best = sum(one.number * units for one, units in known)
    spread = sum(_doubtful(one, rules) * units for one, units in known)
    how = worst([one.how for one, _ in known])
    source = Source(name=what, how=how, what=f"{what} of {len(known)}: " + "; ".join(dict.fromkeys(_sources(known))))
    return Known(text=f"{what} of {len(known)} lines" if len(known) > 1 else f"{what} of one line", kind=Kind.MASS,
                 low=max(0.0, best - spread), best=best, high=best + spread,
                 form=Form.RANGE if spread > 0.0 else Form.EXACT, source=source, path=path,
                 line=piece.weight.line or known[0][0].line)  # fmt: skip


def _doubtful(one: Known, rules: Mapping[str, Rule]) -> float:
    """Half its range; a figure from memory is no better than an estimate."""
    if one.how in (How.ESTIMATE, How.DEFAULT) and one.form is not Form.RANGE:
        return one.number * rules["estimate spread"].value
    return doubt(one, rules)


def _sources(known: list[tuple[Known, float]]) -> Iterator[str]:
    for one, _ in known:
        yield str(one.source) if one.source else one.text
