"""The batten: its stress, its splices, its sag, its posted capacity, and whether clamps go on it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from counterpoise.balance import Span
from counterpoise.checks.angle_rows import roll_rows
from counterpoise.checks.rows import Check, Input, Measure, value_of
from counterpoise.checks.truss_rows import truss_rows, worst_of
from counterpoise.documents import Known, Splice
from counterpoise.loadpath import Forces
from counterpoise.rigging import RiggedBatten, RiggedHouse, RiggedPiece, least, most
from counterpoise.units import STANDARD_GRAVITY as GRAVITY, place


def batten_rows(house: RiggedHouse, rigged: RiggedBatten, forces: Forces, loads: tuple[Input, ...]) -> Iterator[Check]:
    """Every row of the batten itself."""
    if rigged.written.batten.truss is None:
        yield from _bending(house, rigged, forces, loads)
    else:
        yield from truss_rows(house, rigged, forces, loads)
    yield _sag(house, rigged, forces, loads)
    yield from _overhang(house, rigged, forces, loads)
    yield from roll_rows(house, rigged)
    yield from _posted(house, rigged, loads)
    yield from _clamps(house, rigged)


def _bending(house: RiggedHouse, rigged: RiggedBatten, forces: Forces, loads: tuple[Input, ...]) -> Iterator[Check]:
    """Stress on the section that judges strength, and on what is left of it at each splice."""
    batten, rule = rigged.written.batten, house.rules["batten stress"]
    walls = [batten.design_wall or batten.wall, *(one.design_wall or one.wall for one in batten.lengths)]
    judged = next((wall for wall in walls if wall.is_unknown), walls[0])
    strong = (Input.of("diameter", batten.outside_diameter),
              Input.of("design wall" if batten.design_wall else "wall", judged))  # fmt: skip
    allowed = value_of(rule) if batten.allowed_stress is None else least(batten.allowed_stress, house.rules)
    named = Input.of_rule(rule) if batten.allowed_stress is None else Input.of("allowed stress", batten.allowed_stress)
    open_ = forces.unproven or forces.pressed
    yield Check(key=f"{rigged.key}/batten", label=rigged.label, link="batten", line=None, measure=Measure.STRESS,
                value=forces.stress, limit=None if judged.is_unknown else allowed, lacks=open_,
                formula="ladder" if batten.ladder is not None else "bending",
                inputs=(named, *strong, *_of_ladder(rigged), *loads))  # fmt: skip
    for number, splice in enumerate(batten.splices, start=1):
        x = place(splice.at, length=rigged.beam.length).best
        left = least(splice.strength, house.rules)
        on_pipe = x is not None and batten.ladder is None
        limit = None if not on_pipe or left is None or judged.is_unknown or allowed is None else left * allowed
        lacks = "what a splice in a chord of a ladder carries is not computed" if batten.ladder is not None else ""
        yield Check(key=f"{rigged.key}/splice/{number}", label=rigged.label, link="splice", line=None,
                    measure=Measure.STRESS, formula="splice", limit=limit, lacks=lacks or open_,
                    value=forces.stress_at(x) if on_pipe and x is not None else Span(0.0, 0.0, 0.0),
                    inputs=(*(_place_of(splice) if x is None else ()),
                            Input.of("strength left at the splice", splice.strength), named, *strong,
                            *loads))  # fmt: skip


def _place_of(splice: Splice) -> tuple[Input]:
    """Where a splice stands, of one of which that is written as not known."""
    path = f"{splice.strength.path.rpartition('.')[0]}.at"
    return (replace(Input.unwritten("where the splice stands"), words=splice.at, path=path, line=splice.strength.line),)


def _of_ladder(rigged: RiggedBatten) -> tuple[Input, ...]:
    ladder = rigged.written.batten.ladder
    if ladder is None:
        return ()
    parts = (("depth", ladder.depth), ("spacing of spacers", ladder.every), ("spacer diameter", ladder.spacer_diameter),
             ("spacer wall", ladder.spacer_wall), ("strap width", ladder.strap_width),
             ("strap thickness", ladder.strap_thickness))  # fmt: skip
    return tuple(Input.of(name, known) for name, known in parts if known is not None)


def _sag(house: RiggedHouse, rigged: RiggedBatten, forces: Forces, loads: tuple[Input, ...]) -> Check:
    """The largest sag between carrying lines."""
    batten, rule = rigged.written.batten, house.rules["sag"]
    ratio = forces.sag
    # told of the span where the best figures sag most; the range is that of the share of a span, times that one
    start, end = forces.sags_most
    span = end - start
    return Check(key=f"{rigged.key}/sag", label=rigged.label, link="sag", line=None, measure=Measure.LENGTH,
                 value=Span(span * ratio.low, span * ratio.best, span * ratio.high),
                 lacks=forces.unproven or forces.pressed,
                 limit=None if rule.is_unknown else rule.value * span, formula="sag",
                 inputs=(Input.of_rule(rule), Input.of("modulus", batten.modulus),
                         Input.of("diameter", batten.outside_diameter), Input.of("wall", batten.wall),
                         *loads))  # fmt: skip


def _overhang(house: RiggedHouse, rigged: RiggedBatten, forces: Forces, loads: tuple[Input, ...]) -> Iterator[Check]:
    """How far the tip drops that drops most of its overhang, against the rule of sag for twice that length."""
    tip, rule, batten = forces.tip, house.rules["sag"], rigged.written.batten
    if tip is None:
        return
    reach, ratio = tip
    yield Check(key=f"{rigged.key}/overhang", label=rigged.label, link="overhang", line=None, measure=Measure.LENGTH,
                value=Span(reach * ratio.low, reach * ratio.best, reach * ratio.high),
                limit=None if rule.is_unknown else 2.0 * rule.value * reach, formula="overhang",
                lacks=forces.unproven or forces.pressed or worst_of(forces),
                inputs=(Input.of_rule(rule), Input.of("modulus", batten.modulus),
                        Input.of("diameter", batten.outside_diameter), Input.of("wall", batten.wall),
                        *loads))  # fmt: skip


def _posted(house: RiggedHouse, rigged: RiggedBatten, loads: tuple[Input, ...]) -> Iterator[Check]:
    """What is hung against each capacity that a maker, an engineer or the house has posted.

    Whether what is fixed to a batten counts as hung is not written, so it is looked at both ways.
    """
    hung = [sum(one.mass[i] for one in rigged.pieces) for i in range(3)]
    for cable in rigged.cables:
        length = cable.on_batten(rigged.high)
        hung = [mass + length * each for mass, each in zip(hung, cable.line_mass, strict=True)]
    bare, nothing = rigged.bare_mass, (0.0, 0.0, 0.0)
    fixed = tuple(sum(one.mass[i] for one in rigged.fixed) for i in range(3))
    for number, posted in enumerate(rigged.written.posted, start=1):
        least_of, most_of = {"what is hung": (nothing, fixed), "batten and all": (bare, bare),
                             "unknown": (nothing, bare)}[posted.counts]  # fmt: skip
        value = Span(GRAVITY * (hung[0] + least_of[0]), GRAVITY * (hung[1] + least_of[1]),
                     GRAVITY * (hung[2] + most_of[2]))  # fmt: skip
        name = f"posted capacity, of {posted.counts if posted.counts != 'unknown' else 'what is not known'}"
        name += f", by {posted.by}" if posted.by else ""
        yield Check(key=f"{rigged.key}/posted/{number}", label=rigged.label, link="posted capacity", line=None,
                    measure=Measure.FORCE, value=value, limit=least(posted.load, house.rules), formula="posted",
                    inputs=(Input.of(name, posted.load), *loads))  # fmt: skip


def _clamped(house: RiggedHouse, rigged: RiggedBatten, piece: RiggedPiece, rating: Known) -> Check:
    """The most that one clamp of a piece carries: there is one at each pick."""
    largest, impact = max(share for _, share in piece.points), house.house.rules.impact
    limit = least(rating, house.rules)
    more: tuple[Input, ...] = ()
    if impact is not None:
        much = most(impact, house.rules)
        limit = None if limit is None or much is None else limit / (1.0 + much)
        more = (Input.of("impact, by the rule of the house", impact),)
    light, best, heavy = (GRAVITY * largest * mass for mass in piece.mass)
    return Check(key=f"{rigged.key}/clamp/{piece.name}", label=rigged.label, link="clamp", line=None,
                 measure=Measure.FORCE, value=Span(light, best, heavy), limit=limit, formula="clamp",
                 inputs=(Input.of(f"rating of a clamp of {piece.name}", rating),
                         *more, Input.of(f"weight of {piece.name}", piece.weight)))  # fmt: skip


def _clamps(house: RiggedHouse, rigged: RiggedBatten) -> Iterator[Check]:
    """What a clamp of each piece carries, and whether the pipe is of a size that they go on."""
    size = rigged.made.diameter
    pipe = Input.of("diameter", rigged.written.batten.outside_diameter)
    for piece in rigged.pieces:
        clamps = piece.written.clamps
        if clamps is None:
            continue
        if clamps.rating is not None and piece.points:  # on how many clamps a piece without picks hangs is not written
            yield _clamped(house, rigged, piece, clamps.rating)
        for word, known in (("largest", clamps.fit_to), ("smallest", clamps.fit_from)):
            if known is None:
                continue
            round_ = size or 0.0  # a truss has no one diameter: unknown whether clamps go on it
            fits = (round_, known.best) if word == "largest" else (known.best or 0.0, round_)
            yield Check(key=f"{rigged.key}/clamp size/{piece.name}/{word}", label=rigged.label, link="clamp size",
                        line=None, measure=Measure.LENGTH, value=Span(fits[0], fits[0], fits[0]),
                        limit=None if known.best is None or size is None else fits[1], formula="clamp size",
                        inputs=(Input.of(f"{word} pipe the clamps of {piece.name} go on", known), pipe))  # fmt: skip
