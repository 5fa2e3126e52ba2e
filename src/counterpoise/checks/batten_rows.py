"""The batten: its stress, its splices, its sag, its posted capacity, and whether clamps go on it."""

from __future__ import annotations

from collections.abc import Iterator

from counterpoise.balance import Span
from counterpoise.checks.rows import Check, Input, Measure, value_of
from counterpoise.loadpath import Forces
from counterpoise.rigging import RiggedBatten, RiggedHouse, least
from counterpoise.units import STANDARD_GRAVITY as GRAVITY, place


def batten_rows(house: RiggedHouse, rigged: RiggedBatten, forces: Forces, loads: tuple[Input, ...]) -> Iterator[Check]:
    """Every row of the batten itself."""
    yield from _bending(house, rigged, forces, loads)
    yield _sag(house, rigged, forces, loads)
    yield from _posted(house, rigged, loads)
    yield from _clamps(rigged)


def _bending(house: RiggedHouse, rigged: RiggedBatten, forces: Forces, loads: tuple[Input, ...]) -> Iterator[Check]:
    """Stress on the section that judges strength, and on what is left of it at each splice."""
    batten, rule = rigged.written.batten, house.rules["batten stress"]
    judged = batten.design_wall or batten.wall
    strong = (Input.of("diameter", batten.outside_diameter),
              Input.of("design wall" if batten.design_wall else "wall", judged))  # fmt: skip
    allowed = value_of(rule) if batten.allowed_stress is None else least(batten.allowed_stress, house.rules)
    named = Input.of_rule(rule) if batten.allowed_stress is None else Input.of("allowed stress", batten.allowed_stress)
    moment, modulus = forces.moment, rigged.modulus_judged
    yield Check(key=f"{rigged.key}/batten", label=rigged.label, link="batten", line=None, measure=Measure.STRESS,
                value=Span(moment.low / modulus, moment.best / modulus, moment.high / modulus),
                limit=None if judged.is_unknown else allowed, formula="bending",
                inputs=(named, *strong, *loads))  # fmt: skip
    for number, splice in enumerate(batten.splices, start=1):
        x = place(splice.at, length=rigged.beam.length).best
        left = least(splice.strength, house.rules)
        at = Span(0.0, 0.0, 0.0) if x is None else forces.moment_at(x)
        limit = None if x is None or left is None or judged.is_unknown or allowed is None else left * allowed
        yield Check(key=f"{rigged.key}/splice/{number}", label=rigged.label, link="splice", line=None,
                    measure=Measure.STRESS, formula="splice", limit=limit,
                    value=Span(at.low / modulus, at.best / modulus, at.high / modulus),
                    inputs=(Input.of("strength left at the splice", splice.strength), named, *strong,
                            *loads))  # fmt: skip


def _sag(house: RiggedHouse, rigged: RiggedBatten, forces: Forces, loads: tuple[Input, ...]) -> Check:
    """The largest sag between carrying lines."""
    batten, rule = rigged.written.batten, house.rules["sag"]
    worst = [max(one.largest_sags, key=lambda sag: abs(sag[2]) / (sag[1] - sag[0])) for one in forces.corners]
    ratios = [abs(sag[2]) / (sag[1] - sag[0]) for sag in worst]
    span = worst[0][1] - worst[0][0]
    return Check(key=f"{rigged.key}/sag", label=rigged.label, link="sag", line=None, measure=Measure.LENGTH,
                 value=Span(span * min(ratios), span * ratios[0], span * max(ratios)),
                 limit=None if rule.is_unknown else rule.value * span, formula="sag",
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


def _clamps(rigged: RiggedBatten) -> Iterator[Check]:
    """Whether the pipe is of a size that the clamps of each piece go on."""
    size = rigged.nominal_diameter
    pipe = Input.of("diameter", rigged.written.batten.outside_diameter)
    for piece in rigged.pieces:
        clamps = piece.written.clamps
        if clamps is None:
            continue
        for word, known in (("largest", clamps.fit_to), ("smallest", clamps.fit_from)):
            if known is None:
                continue
            fits = (size, known.best) if word == "largest" else (known.best or 0.0, size)
            yield Check(key=f"{rigged.key}/clamp size/{piece.name}/{word}", label=rigged.label, link="clamp size",
                        line=None, measure=Measure.LENGTH, value=Span(fits[0], fits[0], fits[0]),
                        limit=None if known.best is None else fits[1], formula="clamp size",
                        inputs=(Input.of(f"{word} pipe the clamps of {piece.name} go on", known), pipe))  # fmt: skip
