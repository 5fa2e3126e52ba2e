"""The extremes of one batten over all that is in doubt, sought where the corners do not give them."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from counterpoise.loadpath.hangs import Rope, chord_loads
from counterpoise.loadpath.loads import Loads, loads_of
from counterpoise.rigging import RiggedBatten
from counterpoise.statics import Beam, Load, PointLoad, Tips

if TYPE_CHECKING:
    from counterpoise.statics import Doubt, Extreme


@dataclass(frozen=True, slots=True, kw_only=True)
class Sought:
    """What nothing in doubt passes; where `unproven` says so, the worst of what was tried."""

    low: tuple[float, ...]  # pull of each line [N]
    high: tuple[float, ...]
    moment: float  # of a batten that is one beam; 0 of a ladder, whose bars bend each for itself [N m]
    stress: float  # 0 of a maker's truss [Pa]
    sag_ratio: float
    tips: Tips | None  # where a part of what is in doubt tips it
    unproven: str = ""
    aside: float = 0.0  # what the rope that leans most pulls aside at most, per pull in it
    all_high: float = 0.0  # where lines lean, what all ropes pull together at most [N]
    turns: tuple[tuple[float, float], ...] = ()  # where lines lean, of each on its block per pull in it, least and most
    may_buckle: bool = False  # where lines lean and may press it so far: of stress and sag nothing is bounded then


def seek(rigged: RiggedBatten, rope: Rope, height: float) -> Sought | Tips:
    """The extremes with the batten at that height [m]; Tips where it tips whatever is in doubt. Raises Unproven."""
    sure, doubts = _apart(rigged, height)
    return _of_beam(rigged, sure, doubts) if isinstance(rigged.beam, Beam) else _of_ladder(rigged, rope, sure, doubts)


def _of_beam(rigged: RiggedBatten, sure: Loads, doubted: Sequence[Loads]) -> Sought | Tips:
    from counterpoise.statics import at_factors, extremes, hang, weighing

    assert isinstance(rigged.beam, Beam)
    doubts = [*(weighing(one.all, 0.0, 1.0) for one in doubted), *_trims(rigged)]
    found = extremes(rigged.beam, rigged.lines, sure.all, doubts)
    if isinstance(found, Tips):
        return found
    there = None if found.tips is None else hang(rigged.beam, *at_factors(rigged.lines, sure.all, doubts, found.tips))
    moment = _furthest(found.moment)
    modulus = min((one.modulus for one in rigged.made.stretches), default=math.inf)
    return Sought(low=tuple(max(0.0, _furthest(one)) for one in found.low), high=tuple(map(_furthest, found.high)),
                  moment=moment, stress=moment / modulus, sag_ratio=_furthest(found.sag_ratio),
                  tips=there if isinstance(there, Tips) else None,
                  unproven="" if found.proven else found.words)  # fmt: skip


def _of_ladder(rigged: RiggedBatten, rope: Rope, sure: Loads, doubted: Sequence[Loads]) -> Sought | Tips:
    """Of a ladder: its chords by their design wall, its spacers as they are."""
    from counterpoise.statics import Doubt, Judged, extremes_on_ladder

    assert rope.hanger is not None  # a ladder has its hanger
    doubts = [Doubt(low=0.0, high=1.0, loads=one.bottom, top=one.top) for one in map(chord_loads, doubted)]
    strong = rigged.made.stretches[0]
    found = extremes_on_ladder(rope.hanger, rigged.lines, chord_loads(sure), [*doubts, *_trims(rigged)],
                               chords=Judged(strong.area, strong.modulus))  # fmt: skip
    if isinstance(found, Tips):
        return found
    stress, sag = found.stress(), found.sag_ratio()
    return Sought(low=tuple(max(0.0, _furthest(one)) for one in found.low), high=tuple(map(_furthest, found.high)),
                  moment=0.0, stress=_furthest(stress), sag_ratio=_furthest(sag), tips=found.tipped,
                  unproven="" if found.proven else found.words)  # fmt: skip


def _furthest(one: Extreme) -> float:
    """What is proven; where nothing is, what was attained."""
    return one.limit if math.isfinite(one.limit) else one.value


def _trims(rigged: RiggedBatten) -> tuple[Doubt, ...]:
    from counterpoise.statics import trimmed

    return trimmed(rigged.lines, rigged.trim_doubts) if any(rigged.trim_doubts) else ()


def _apart(rigged: RiggedBatten, height: float) -> tuple[Loads, list[Loads]]:
    """What hangs for certain, and each thing that is in doubt for itself: pieces, cables, the bare batten.

    What is light hangs for certain; the doubt is how much hangs besides, up to what is heavy.
    """
    count = len(rigged.pipe_spreads or (0.0,)) + 1 + len(rigged.fixed)
    light, heavy = (loads_of(rigged, [end] * len(rigged.pieces), [end] * count, height, [end] * len(rigged.cables))
                    for end in (0, 2))  # fmt: skip
    sure = Loads(bare=_some(light.bare), fixed=(), pieces=(_some(light.below),))
    doubted = []
    for least, most in zip(_parts(rigged, light), _parts(rigged, heavy), strict=True):
        if least != most:
            doubted.append(Loads(bare=_more(most.bare, least.bare), fixed=(), pieces=(_more(most.below, least.below),)))
    return sure, doubted


def _some(loads: Iterable[Load]) -> tuple[Load, ...]:
    return tuple(load for load in loads if _force(load) > 0.0)


def _more(heavy: Sequence[Load], light: Sequence[Load]) -> tuple[Load, ...]:
    """How much more the first are than the others, at the same places."""
    return tuple(_less(more, load) for more, load in zip(heavy, light, strict=True))


def _force(load: Load) -> float:
    return load.force if isinstance(load, PointLoad) else load.per_length


def _less(load: Load, other: Load) -> Load:
    """How much more the first is than the other, at the same place."""
    much = _force(load) - _force(other)
    return replace(load, force=much) if isinstance(load, PointLoad) else replace(load, per_length=much)


def _parts(rigged: RiggedBatten, loads: Loads) -> list[Loads]:
    """What is in doubt each for itself: each weight of pipe, the fittings, each thing fixed, pieces, cables."""
    made = rigged.made
    stretches = len(made.per_length)
    bare = [tuple(load for load, of in zip(loads.bare[:stretches], made.written, strict=True) if of == weight)
            for weight in range(len(rigged.pipe_spreads or (0.0,)))]  # fmt: skip
    below = [*((one,) for one in loads.fixed), *loads.pieces, *((one,) for one in loads.cables)]
    return [*(Loads(bare=one, fixed=(), pieces=()) for one in (*bare, loads.bare[stretches:])),
            *(Loads(bare=(), fixed=(), pieces=(one,)) for one in below)]  # fmt: skip
