"""Rows that compare angles: how far a line comes out of the plane of a sheave, how far a batten rolls."""

from __future__ import annotations

import itertools
import math
from collections.abc import Iterator, Sequence
from dataclasses import replace

from counterpoise.balance import Span
from counterpoise.checks.rows import Check, Input, Measure, value_of
from counterpoise.documents import Known
from counterpoise.rigging import RiggedBatten, RiggedHouse, RiggedPiece, doubt, least

NONE = Span(0.0, 0.0, 0.0)
MANY = 8  # pieces in doubt, above which their corners are not all looked at


def fleet_rows(house: RiggedHouse, rigged: RiggedBatten) -> Iterator[Check]:
    """The fleet angle of each line of which a place across the stage is written."""
    rule = house.rules["fleet angle"]
    for one in rigged.fleets:
        across = (Input.of("how far upstage a block stands", known) for known in one.written)
        inputs = (Input.of_rule(rule), *(replace(each, is_lacking=each.is_unknown) for each in across))
        yield Check(key=f"{rigged.key}/fleet angle/{one.line}", label=rigged.label, link="fleet angle", line=one.line,
                    measure=Measure.ANGLE, value=NONE if one.lacks else Span(one.angle, one.angle, one.angle),
                    limit=value_of(rule), formula="fleet angle", inputs=inputs, lacks=one.lacks)  # fmt: skip


def roll_rows(house: RiggedHouse, rigged: RiggedBatten) -> Iterator[Check]:
    """How far the batten rolls, where it is written how far a piece hangs beside it and the house has a rule.

    tan θ = Σ W e / Σ W d about the pipe, e beside it and d below. What brings it back counts only where it is written;
    the pipe itself and friction bring nothing back.
    """
    rule = house.house.rules.roll
    pieces = rigged.pieces
    if rule is None or all(piece.written.beside is None for piece in pieces):
        return
    lacks = _not_told(pieces)
    asked = [each for piece in pieces for each in _inputs_of(piece)]
    yield Check(key=f"{rigged.key}/roll", label=rigged.label, link="roll", line=None, measure=Measure.ANGLE,
                value=_roll(house, pieces), limit=least(rule, house.rules), formula="roll", lacks=lacks,
                inputs=(Input.of("roll, by the rule of the house", rule), *asked))  # fmt: skip


def _inputs_of(piece: RiggedPiece) -> Iterator[Input]:
    """Its weight and where it hangs about the pipe; unwritten too how far beside, which it needs."""
    yield Input.of(f"weight of {piece.name}", piece.weight)
    for word, known in (("beside", piece.written.beside), ("below", piece.written.below)):
        name = f"how far {piece.name} hangs {word} the pipe"
        if known is not None:
            found = Input.of(name, known)
            yield replace(found, is_lacking=found.is_unknown)
        elif word == "beside":
            yield replace(Input.unwritten(name), path=f"{piece.written.stands}.{word}", line=piece.written.line_of,
                          is_lacking=True)  # fmt: skip


def _not_told(pieces: tuple[RiggedPiece, ...]) -> str:
    for piece in pieces:
        beside, below = piece.written.beside, piece.written.below
        if beside is None or beside.best is None or (below is not None and below.best is None):
            return f"how far {piece.name} hangs beside and below the pipe is not known"
    return ""


def _roll(house: RiggedHouse, pieces: Sequence[RiggedPiece]) -> Span:
    """Least, best and most angle [rad] at the corners of what is in doubt: the angle is greatest and least at corners.

    With many pieces in doubt their moments and what brings them back are taken at their worst each for itself.
    """
    best = _angle(house, pieces, [1] * len(pieces), 0)
    loose = [(0, 2) if not one.is_certain else (1,) for one in pieces]
    if sum(len(ends) > 1 for ends in loose) > MANY:
        return Span(0.0, best, _apart(house, pieces))
    sides = [[_moment(house, pieces, ends, sign) for ends in itertools.product(*loose)] for sign in (-1, 1)]
    most = max(math.atan2(abs(turns), back) for side in sides for turns, back in side)
    turned = [turns for side in sides for turns, _ in side]
    if min(turned) <= 0.0 <= max(turned):
        return Span(0.0, best, most)  # between its corners it hangs level
    brought = [_moment(house, pieces, ends, sign, back=1) for ends in itertools.product(*loose) for sign in (-1, 1)]
    return Span(min(math.atan2(abs(turns), back) for turns, back in brought), best, most)


def _apart(house: RiggedHouse, pieces: Sequence[RiggedPiece]) -> float:
    """The most angle with what turns the batten, and what brings it back, each at its worst for itself [rad]."""
    turns = [0.0, 0.0]  # to either side
    back = 0.0
    for piece in pieces:
        (beside, off), (below, less) = (_place(known, house) for known in (piece.written.beside, piece.written.below))
        for side, sign in enumerate((-1.0, 1.0)):
            turns[side] += max(sign * mass * (beside + sign * off) for mass in (piece.mass[0], piece.mass[2]))
        back += piece.mass[0] * max(0.0, below - less)
    return math.atan2(max(turns), back)


def _angle(house: RiggedHouse, pieces: Sequence[RiggedPiece], ends: Sequence[int], sign: int) -> float:
    turns, back = _moment(house, pieces, ends, sign)
    return math.atan2(abs(turns), back)


def _moment(
    house: RiggedHouse, pieces: Sequence[RiggedPiece], ends: Sequence[int], sign: int, back: int = -1
) -> tuple[float, float]:
    """Σ W e and Σ W d [kg m], each weight at an end of its range; estimated places `sign` times as far as they may be.

    With sign 0 they are as written; else what brings back is at its least, or at its most with `back` 1.
    """
    turns = returns = 0.0
    for piece, end in zip(pieces, ends, strict=True):
        beside, below = (_place(known, house) for known in (piece.written.beside, piece.written.below))
        turns += piece.mass[end] * (beside[0] + sign * beside[1])
        returns += piece.mass[end] * max(0.0, below[0] + (1 if back > 0 else -abs(sign)) * below[1])
    return turns, returns


def _place(known: Known | None, house: RiggedHouse) -> tuple[float, float]:
    """A place and how far it may be off [m]."""
    return (0.0, 0.0) if known is None or known.best is None else (known.best, doubt(known, house.rules))
