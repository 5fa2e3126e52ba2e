"""Each default rule, and each figure of the demo that has a published source, against that source."""

import math

import pytest

from counterpoise.documents import House, How, Known, LineSet, read_house
from counterpoise.documents.house import Rules
from counterpoise.rigging.rules import DEFAULTS, read_rules
from tests.eight_sets import eight_sets

LB, INCH = 4.4482216152605, 0.0254  # NIST SP 811, appendix B: pound-force in N, inch in m; both exact
PSI = LB / INCH**2


@pytest.fixture(scope="module")
def demo() -> House:
    return read_house(eight_sets().house)


def _set(demo: House, purchase: str) -> LineSet:
    return next(one for one in demo.sets if one.purchase == purchase)


# Rope lock: 50 lb in two published crew-training pages (a third says 40). Plates: one at least every 2 ft of weight,
# common practice and a published school training page. Lift lines: at least 8 on breaking strength, common practice.
# ASTM A53 grade B yields at 35 ksi (AISC HSS specification text); 0.6 of it is an old allowable stress.
# L/180 of the span between lift lines: from memory, to be verified. 20 % and 200 lb: assumed, no source.
# Fleet angle 1.5 degrees: at most on a smooth drum, by a wire rope users' manual; for blocks of a stage from memory.
# One set open at a time while weight moves: common practice, no source.
# A sheave with ball bearings loses 2 to 4 % over half a turn, from memory of handbooks: 2 % a quarter turn.
VALUES = {
    "lock hold": 50 * LB, "plate every": 24 * INCH, "lift line factor": 8.0, "batten stress": 0.6 * 35_000 * PSI,
    "sag": 1 / 180, "estimate spread": 0.20, "person": 200 * 0.45359237, "fleet angle": 1.5 * math.pi / 180,
    "friction": 0.02, "open sets": 1.0,
}  # fmt: skip


@pytest.mark.parametrize(("name", "value"), VALUES.items())
def test_a_default_rule_is_the_number_it_says(name: str, value: float) -> None:
    assert DEFAULTS[name][0] == pytest.approx(value, rel=1e-12)


def test_no_default_rule_is_without_a_test() -> None:
    assert set(DEFAULTS) == set(VALUES)


def test_a_default_says_that_nobody_has_adopted_it() -> None:
    rules = read_rules(Rules())
    assert {rule.how for rule in rules.values()} == {How.DEFAULT}
    assert all("default, not adopted" in rule.words for rule in rules.values())


# A rule that rests on memory or on nothing says so in its own words.
def test_a_default_without_a_source_says_so() -> None:
    assert "from memory" in DEFAULTS["sag"][1]
    assert all("assumed" in DEFAULTS[name][1] for name in ("estimate spread", "person"))


def _is(known: Known | None, value: float, rel: float = 1e-9) -> bool:
    return known is not None and known.number == pytest.approx(value, rel=rel)


# MIL-W-83420 composition A in FAA AC 43.13-1B table 7-3: 7x19 zinc-coated carbon steel, 1/4 in: 7,000 lb at least.
# Weight 0.110 lb/ft: from memory of the same specification, high confidence.
# Clips 80 %: US Army TM 5-3810-305-10, table 4. Stretch G = 1.40e-5 with e% = W G / D2 (manufacturer table for ropes of
# MIL-DTL-83420): EA = 100 D2 / G = 100 x 0.0625 / 1.40e-5 = 446,000 lb.
@pytest.mark.parametrize("purchase", ["single", "double"])
def test_the_demos_rope_is_the_published_one(demo: House, purchase: str) -> None:
    lines = _set(demo, purchase).lines
    assert _is(lines.breaking_strength, 7_000 * LB)
    assert _is(lines.weight, 0.110 * 0.45359237 / 0.3048)
    assert _is(lines.termination, 0.80)
    assert _is(lines.stiffness, 100 * 0.25**2 / 1.40e-5 * LB, rel=0.002)


# ASME B36.10M: outside diameter, wall, weight. AISC shapes database, table 1-14: design wall of standard pipe.
@pytest.mark.parametrize(("purchase", "row"), [
    ("single", (1.900, 0.145, 2.72, 0.135)),  # 1-1/2 in, schedule 40
    ("double", (2.375, 0.154, 3.66, 0.143)),  # 2 in, schedule 40
])  # fmt: skip
def test_the_demos_pipes_are_the_published_ones(demo: House, purchase: str, row: tuple[float, ...]) -> None:
    batten = _set(demo, purchase).batten
    assert _is(batten.outside_diameter, row[0] * INCH)
    assert _is(batten.wall, row[1] * INCH)
    assert _is(batten.weight, row[2] * 0.45359237 / 0.3048, rel=0.003)  # 3.65 or 3.66 by edition
    assert _is(batten.design_wall, row[3] * INCH)


# AISC 360-16 appendix and section F; AISC Manual: E = 29,000 ksi.
def test_the_demos_steel_is_as_stiff_as_published(demo: House) -> None:
    assert _is(_set(demo, "single").batten.modulus, 29_000_000 * PSI)
