"""What a batten is made of: pipe, several pipes, a ladder or a maker's truss; as statics takes it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from counterpoise.documents import NOT_WRITTEN, Known, Ladder as WrittenLadder, LineSet, PipeLength
from counterpoise.rigging.missing import PULLS, Missing
from counterpoise.statics import Beam, Section, Segment, pipe
from counterpoise.units import place

if TYPE_CHECKING:
    from counterpoise.documents import Batten
    from counterpoise.statics import Ladder


@dataclass(frozen=True, slots=True, kw_only=True)
class Stretch:
    """A stretch of one section, by the wall that judges strength: elastic modulus [m3], area [m2]."""

    start: float  # [m]
    end: float  # [m]
    modulus: float
    area: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Made:
    """A batten in SI. `mass` is without fittings [kg]; `diameter` None where it is no pipe."""

    beam: Beam | Ladder
    stretches: tuple[Stretch, ...]
    mass: float
    per_length: tuple[tuple[float, float, float], ...]  # (start, end, kg/m) of it, end to end
    diameter: float | None
    written: tuple[int, ...] = (0,)  # which weight each of these is of: 0 the batten's own, n that of its nth length


def lacks_of_make(one: LineSet) -> Iterator[Missing | tuple[str, Known]]:
    """What is asked for to know how stiff, how strong and how heavy a batten is."""
    batten = one.batten
    if batten.lengths and (batten.truss is not None or batten.ladder is not None):
        kind = "truss" if batten.truss is not None else "ladder"
        yield Missing(label=one.label, path=f"{one.stands}.batten.lengths", line=one.line_of, waits=PULLS,
                      what=f"how a {kind} hangs that is another pipe over some lengths")  # fmt: skip
    if batten.truss is not None:
        yield "second moment of the truss", batten.truss.second_moment
        yield "batten weight", batten.weight
        yield "batten modulus", batten.modulus
        return
    yield from _of_pipe(batten)
    for length in batten.lengths:
        at = f"from {length.from_} to {length.to}"
        yield from ((f"diameter {at}", length.outside_diameter), (f"wall {at}", length.wall),
                    (f"weight {at}", length.weight), (f"modulus {at}", length.modulus))  # fmt: skip
        if any(place(said, length=batten.length.best).best is None for said in (length.from_, length.to)
               if batten.length.best is not None):  # fmt: skip
            yield Missing(label=one.label, path=f"{one.stands}.batten.lengths", line=one.line_of, waits=PULLS,
                          what=f"where the pipe {at} is")  # fmt: skip
    if batten.ladder is not None:
        yield "depth of the ladder", batten.ladder.depth
        yield from _of_spacers(one, batten.ladder)


def _of_pipe(batten: Batten) -> Iterator[tuple[str, Known]]:
    asked = [("batten diameter", batten.outside_diameter), ("batten wall", batten.wall),
             ("batten weight", batten.weight), ("batten modulus", batten.modulus)]  # fmt: skip
    yield from or_named(asked, batten.pipe, "which pipe the batten is, as in 1-1/2 in schedule 40", "pipe")


def or_named(asked: list[tuple[str, Known]], name: str, what: str, word: str) -> list[tuple[str, Known]]:
    """The figures of a row of the catalogue; where none of them is written, the name of the row asks for them all."""
    if name or not all(known.is_unknown and known.text == NOT_WRITTEN for _, known in asked):
        return asked
    first = asked[0][1]
    return [(what, replace(first, path=f"{first.path.rpartition('.')[0]}.{word}"))]


def _of_spacers(one: LineSet, ladder: WrittenLadder) -> Iterator[Missing | tuple[str, Known]]:
    def missing(what: str) -> Missing:
        return Missing(label=one.label, path=f"{one.stands}.batten.ladder", line=one.line_of, what=what, waits=PULLS)

    if ladder.every is not None:
        yield "spacing of the spacers", ladder.every
    elif len(ladder.spacers) < 2:
        yield missing("where the spacers of the ladder are")
    elif one.batten.length.best is not None:
        places = [place(said, length=one.batten.length.best).best for said in ladder.spacers]
        if None in places:
            yield missing("the place of a spacer")
    round_, flat = (ladder.spacer_diameter, ladder.spacer_wall), (ladder.strap_width, ladder.strap_thickness)
    parts = round_ if any(round_) else flat
    if None in parts:
        yield missing("what the spacers of the ladder are: a pipe, or a strap of a width and a thickness")
    yield from ((f"a size of the spacers of the ladder of set {one.label}", part) for part in parts if part is not None)


def made_of(one: LineSet) -> Made:
    """The batten in SI. Nothing that `lacks_of_make` asks for may be missing."""
    batten, length = one.batten, one.batten.length.number
    if batten.truss is not None:
        stiffness = batten.modulus.number * batten.truss.second_moment.number
        return Made(beam=_beam(length, [(0.0, length, stiffness)]), stretches=(), mass=batten.weight.number * length,
                    per_length=((0.0, length, batten.weight.number),), diameter=None)  # fmt: skip
    nominal, judged = _sections(batten)
    diameter, each = batten.outside_diameter.number, batten.weight.number
    if batten.ladder is not None:
        stretch = Stretch(start=0.0, end=length, modulus=judged.elastic_modulus, area=judged.area)
        return Made(beam=_ladder(batten, batten.ladder, nominal), stretches=(stretch,), mass=2.0 * each * length,
                    per_length=((0.0, length, 2.0 * each),), diameter=diameter)  # fmt: skip
    return _pipes(batten, nominal, judged)


def _sections(batten: Batten | PipeLength) -> tuple[Section, Section]:
    """By the nominal wall, which is stiff, and by the design wall, which is strong."""
    diameter, design = batten.outside_diameter.number, batten.design_wall
    nominal = pipe(diameter, batten.wall.number)
    return nominal, pipe(diameter, design.best) if design is not None and design.best is not None else nominal


def _pipes(batten: Batten, nominal: Section, judged: Section) -> Made:
    """One pipe, or another over some lengths of it; lengths that overlap are refused by the document."""
    length = batten.length.number
    own = (batten.modulus.number * nominal.second_moment, judged, batten.weight.number)
    parts: list[tuple[float, float, tuple[float, Section, float]]] = []
    weights: list[int] = []
    reached = 0.0
    for number, one in enumerate(batten.lengths, start=1):
        start, end = (place(said, length=length).best or 0.0 for said in (one.from_, one.to))
        stiff, strong = _sections(one)
        if start > reached:
            parts.append((reached, start, own))
            weights.append(0)
        weights.append(number)
        parts.append((start, end, (one.modulus.number * stiff.second_moment, strong, one.weight.number)))
        reached = end
    if reached < length:
        parts.append((reached, length, own))
        weights.append(0)
    return Made(
        beam=_beam(length, [(start, end, stiffness) for start, end, (stiffness, _, _) in parts]),
        stretches=tuple(Stretch(start=start, end=end, modulus=strong.elastic_modulus, area=strong.area)
                        for start, end, (_, strong, _) in parts),
        mass=sum((end - start) * each for start, end, (_, _, each) in parts),
        per_length=tuple((start, end, each) for start, end, (_, _, each) in parts),
        diameter=batten.outside_diameter.number, written=tuple(weights),
    )  # fmt: skip


def _beam(length: float, parts: list[tuple[float, float, float]]) -> Beam:
    return Beam(length=length, segments=tuple(Segment(start=a, end=b, stiffness=ei) for a, b, ei in parts))


def _ladder(batten: Batten, written: WrittenLadder, chord: Section) -> Ladder:
    from counterpoise.statics import Bar, Ladder

    length, modulus = batten.length.number, batten.modulus.number
    if written.every is not None:
        count = max(1, round(length / written.every.number))
        spacers = tuple(length * i / count for i in range(count + 1))
    else:
        spacers = tuple(place(said, length=length).best or 0.0 for said in written.spacers)
    bar = Bar(section=chord, modulus=modulus)
    return Ladder(length=length, depth=written.depth.number, spacers=spacers, top=bar, bottom=bar,
                  spacer=Bar(section=_spacer(written), modulus=modulus))  # fmt: skip


def _spacer(written: WrittenLadder) -> Section:
    """A pipe, or a strap that stands on edge: its width lies along the batten, where it bends."""
    if written.spacer_diameter is not None and written.spacer_wall is not None:
        return pipe(written.spacer_diameter.number, written.spacer_wall.number)
    assert written.strap_width is not None  # one of the two is written
    assert written.strap_thickness is not None
    width, thick = written.strap_width.number, written.strap_thickness.number
    second = thick * width**3 / 12.0
    return Section(area=thick * width, second_moment=second, elastic_modulus=2.0 * second / width,
                   plastic_modulus=thick * width**2 / 4.0)  # fmt: skip
