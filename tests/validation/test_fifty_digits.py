"""Battens against a solution in fifty digits by another method (tests/fifty.py): stiffness, where ours is by forces.

Sources: cubic beam elements are exact at their nodes (any text on finite elements); mpmath (BSD) does the digits.
Scales: pulls of the greatest pull, moments of the greatest moment, drops of the greatest drop.
"""

import pytest

from counterpoise.statics import Beam, Hanging, Line, PointLoad, Segment, SpreadLoad, hang
from tests.battens import Batten, adversarial
from tests.crowded import ordinary
from tests.fifty import Exact, exact, mp


def hung(batten: Batten) -> tuple[Hanging, Exact] | None:
    answer = hang(*batten)
    if not isinstance(answer, Hanging):
        return None
    return answer, exact(*batten, first=answer.carrying)


def misses(answer: Hanging, true: Exact) -> dict[str, float]:
    """Greatest difference of each kind, over its scale."""
    xs = [float(cell.x + share * cell.h) for cell in true.cells for share in (mp.mpf(0), mp.mpf("0.37"))]
    pull, moment, drop = max(true.pulls), true.largest_moment(), max(abs(true.drop(x)) for x in xs)
    sags = [abs(abs(sag) - true.largest_sag(a, b)) for a, b, sag, _ in answer.largest_sags]
    return {
        "pull": float(max(abs(a - b) for a, b in zip(answer.tensions, true.pulls, strict=True)) / pull),
        "moment": float(max(abs(answer.moment(x) - true.moment(x)) for x in xs) / moment),
        "largest moment": float(abs(abs(answer.largest_moment[0]) - moment) / moment),
        "drop": float(max(abs(answer.deflection(x) - true.drop(x)) for x in xs) / drop),
        "sag": float(max(sags) / drop),
        "gap": float(max(abs(a - b) for a, b in zip(answer.gaps, true.gaps, strict=True)) / drop),
    }


def test_the_reference_gives_a_simple_span_and_a_propped_one_to_forty_digits() -> None:
    beam = Beam(length=2.0, segments=(Segment(start=0.0, end=2.0, stiffness=1.0),))
    load = SpreadLoad(start=0.0, end=2.0, per_length=1.0)
    one = exact(beam, [Line(x=0.0), Line(x=2.0)], [load, PointLoad(x=1.0, force=0.0)])
    two = exact(beam, [Line(x=0.0), Line(x=1.0), Line(x=2.0)], [load])
    digits = mp.mpf(10) ** -40
    assert abs(one.drop(1.0) - mp.mpf(5 * 2**4) / 384) < digits  # 5 w l4 / 384 EI (standard)
    assert abs(one.largest_moment() - mp.mpf(1) / 2) < digits  # w l2 / 8
    assert abs(two.pulls[1] - mp.mpf(10) / 8) < digits  # Hicks, Civil Engineering Formulas, table 2.1
    assert abs(two.moment(1.0) + mp.mpf(1) / 8) < digits
    # two spans sag most where 1 - 9 k2 + 8 k3 = 0 (root (1 + sqrt 33)/16 = 0.4215), by k (1 - 3 k2 + 2 k3) w l4 / 48 EI
    k = (1 + mp.sqrt(33)) / 16
    assert abs(two.largest_sag(0.0, 1.0) - k * (1 - 3 * k**2 + 2 * k**3) / 48) < digits


def test_battens_as_they_hang_are_right_to_thirteen_digits() -> None:
    looked = slack = 0
    for seed in range(150):
        pair = hung(ordinary(seed))
        assert pair is not None, seed  # the lines stand at the ends: none tips
        answer, true = pair
        assert answer.carrying == true.carrying, seed
        found = misses(answer, true)
        assert found["pull"] < 1e-13, (seed, found)
        assert max(found["moment"], found["largest moment"]) < 1e-12, (seed, found)
        assert max(found["drop"], found["sag"], found["gap"]) < 1e-11, (seed, found)
        looked += 1
        slack += len(answer.carrying) < len(answer.tensions)
    assert looked == 150
    assert slack > 15


@pytest.mark.parametrize("block", range(3))
def test_battens_built_to_be_difficult_are_right_to_eleven_digits(block: int) -> None:
    looked = 0
    for seed in range(100 * block, 100 * (block + 1)):
        pair = hung(adversarial(seed))
        if pair is None:
            continue
        answer, true = pair
        assert answer.carrying == true.carrying, seed
        assert max(misses(answer, true).values()) < 1e-11, seed  # lines two inches apart lose two digits
        looked += 1
    assert looked > 80


def test_loads_a_tenth_of_an_inch_apart_cost_no_digit() -> None:
    # a stiffness solution in ordinary floating point loses ten digits here
    for seed in range(40):
        beam, lines, loads = ordinary(seed)
        at = 0.37 * beam.length
        close = [PointLoad(x=at + k * 0.00254, force=100.0) for k in range(4)]
        pair = hung((beam, lines, [*loads, *close]))
        assert pair is not None
        found = misses(*pair)
        assert found["pull"] < 1e-13, (seed, found)
        assert max(found.values()) < 1e-11, (seed, found)
