"""The path of the fire curtain: nothing may hang in it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from counterpoise.balance import Span
from counterpoise.checks.rows import Check, Input, Measure
from counterpoise.documents import FireCurtain, Known
from counterpoise.rigging import RiggedBatten, RiggedHouse, RiggedPiece

NEAR = 0.5  # [m]; a piece whose thickness is not written is asked about where it hangs nearer than this to the path


def zone_rows(house: RiggedHouse, rigged: RiggedBatten) -> Iterator[Check]:
    """How far the pieces of a set reach into the path of the fire curtain; nothing may (common practice, no source).

    A piece is taken to hang with half its thickness up- and downstage of its batten. A batten on which nothing hangs
    has a row where it hangs in the path itself.
    """
    zone, at = house.house.stage.fire_curtain, rigged.written.distance
    if zone is None or not (rigged.pieces or _is_in(zone, at)):
        return
    thick = [(piece.name, piece.written.thickness) for piece in rigged.pieces]
    figures = [Input.of("where the fire curtain runs from", zone.from_),
               Input.of("where the fire curtain runs to", zone.to), Input.of("distance of the set", at)]  # fmt: skip
    start, end = zone.from_.best, zone.to.best
    value, lacks = 0.0, ""
    if start is None or end is None or at.best is None:
        lacks = "where the fire curtain runs, or the set hangs, is not known"
    else:
        low, high = min(start, end), max(start, end)
        half = max((known.best / 2 for _, known in thick if known is not None and known.best is not None), default=0.0)
        value = max(0.0, min(at.best + half, high) - max(at.best - half, low)) if half else 0.0
        if _is_in(zone, at):
            value = max(value, min(at.best - low, high - at.best))
        open_ = next((name for name, known in thick if known is None or known.best is None), None)
        gap = max(low - at.best, at.best - high, 0.0)
        waits = not value and open_ is not None and gap < NEAR
        figures += [_thickness(piece, waits) for piece in rigged.pieces]
        if waits:
            lacks = f"the thickness of {open_} is not written, and it hangs beside the path of the fire curtain"
    yield Check(key=f"{rigged.key}/fire curtain", label=rigged.label, link="fire curtain", line=None,
                measure=Measure.LENGTH, value=Span(value, value, value), limit=0.0, formula="fire curtain",
                inputs=tuple(replace(one, is_lacking=bool(lacks) and one.is_unknown) for one in figures),
                lacks=lacks)  # fmt: skip


def _thickness(piece: RiggedPiece, waits: bool) -> Input:
    """How thick a piece is; where nothing is written that counts only where the row waits for it."""
    known, name = piece.written.thickness, f"thickness of {piece.name}"
    if known is not None:
        return Input.of(name, known)
    path = f"{piece.written.stands}.thickness"
    return replace(Input.unwritten(name), path=path, line=piece.written.line_of, is_unknown=waits)


def _is_in(zone: FireCurtain, at: Known) -> bool:
    """True of a batten that hangs in the path itself."""
    start, end = zone.from_.best, zone.to.best
    return start is not None and end is not None and at.best is not None and min(start, end) < at.best < max(start, end)
