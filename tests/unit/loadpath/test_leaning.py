"""What is told and what is refused of a batten whose lines lean. Levers and triangles by hand."""

from __future__ import annotations

import math
import subprocess
import sys
from dataclasses import replace
from typing import Any

import pytest

from counterpoise.loadpath import Forces, forces_of, room_for
from counterpoise.loadpath.leaning_range import seek_leaning
from counterpoise.loadpath.sought import Sought
from counterpoise.rigging import RiggedSet
from counterpoise.units.constants import STANDARD_GRAVITY as GRAVITY
from tests.plain_house import FT, LB, Map, a_house, a_piece, a_set, hung, rigged, rigged_set

INCH = 0.0254  # [m]
LADDER = {"ladder": {"depth": "12 in", "every": "6 ft", "spacer diameter": "1 in", "spacer wall": "0.1 in"}}


def _forces(one: RiggedSet) -> Forces:
    found = forces_of(one)
    assert isinstance(found, Forces)
    return found


def _two(kick: str, **changes: Any) -> Map:
    """Two lines 10 ft either side of the middle, the block of the second one moved."""
    return a_set(lines={"at": ["10' SR", {"at": "10' SL", "block at": kick}]}, **changes)


# Half each of 114.24 lb, blocks 2 ft farther apart than the lines: both lean outward by 1 ft over 12 ft. Wider blocks
# stretch it by half the weight over 12, narrower ones press it as much.
@pytest.mark.parametrize(("block", "along"), [("12' SL", 1.0), ("8' SL", -1.0)])
def test_blocks_set_wider_stretch_the_batten_and_blocks_set_narrower_press_it(block: str, along: float) -> None:
    found = _forces(rigged_set(_two(block, high_trim="50 ft"))).best.along
    assert found is not None
    assert found.drift / FT == pytest.approx(along)
    assert [width / FT for width in found.widths] == pytest.approx([-along, along])
    assert found.axial.forces[0] / LB == pytest.approx(along * 114.24 / 2 / 12)
    assert (found.pressed is None) is (along > 0.0)


def test_what_presses_it_makes_it_bend_more_and_what_stretches_it_does_not() -> None:
    """sec(pi/2 sqrt(N/N_E)) over the 20 ft between two lines that press, EI of 1-1/2 in schedule 40, 0.310 in4."""
    pressed, stretched = (_forces(rigged_set(_two(block, high_trim="50 ft"))) for block in ("8' SL", "12' SL"))
    euler = math.pi**2 * 29e6 * LB / INCH**2 * 0.310 * INCH**4 / (20 * FT) ** 2
    factor = 1 / math.cos(math.pi / 2 * math.sqrt(114.24 / 24 * LB / euler))
    area = pressed.best.made.stretches[0].area
    push = 114.24 / 24 * LB / area
    assert pressed.stress.best == pytest.approx(stretched.stress.best)  # the same size of N and of M
    assert pressed.stress.high - push == pytest.approx(factor * (pressed.stress.best - push), rel=1e-3)
    assert stretched.stress.high == stretched.stress.best
    assert pressed.sag.high == pytest.approx(factor * pressed.sag.best, rel=1e-3)


def test_a_splice_is_pressed_as_the_pipe_beside_it() -> None:
    found = _forces(rigged_set(_two("8' SL", high_trim="50 ft")))
    middle = 21 * FT
    area, modulus = found.best.made.stretches[0].area, found.best.made.stretches[0].modulus
    bent = abs(found.best.answer.moment(middle)) / modulus  # type: ignore[union-attr]  # a plain batten
    assert found.stress_at(middle).best == pytest.approx(bent + 114.24 / 24 * LB / area)
    assert found.stress_at(middle).high > found.stress_at(middle).best
    assert found.stress_at(1 * FT).high == found.stress_at(1 * FT).best  # out there nothing presses


def test_a_batten_pressed_beyond_what_may_buckle_it_is_never_within() -> None:
    weak = {"modulus": "29,000 ksi", "outside diameter": "0.84 in", "wall": "0.109 in", "design wall": "0.109 in",
            "weight": "0.85 lb/ft"}  # fmt: skip
    heavy = rigged_set(_two("6.5' SL", high_trim="50 ft", batten=weak, loft_block={"rating": "9,000 lb"}),
                       [a_piece(picks=["10' SR", "10' SL"], weight="1,500 lb")], [hung()])  # fmt: skip
    found = _forces(heavy)
    assert "buckle" in found.pressed
    assert math.isfinite(found.stress.high)


@pytest.mark.parametrize(("made", "which"), [
    (LADDER, "a ladder"),
    ({"truss": {"second moment": "20 in4", "allowed moment": "5,000 lb-ft"}, "outside diameter": None, "wall": None,
      "design wall": None}, "a truss"),
])  # fmt: skip
def test_what_leaning_lines_do_along_a_ladder_or_a_truss_is_not_told(made: Map, which: str) -> None:
    lean, hardly = (
        _forces(rigged_set(_two(block, high_trim="50 ft", batten=made))) for block in ("11' SL", "10.01' SL")
    )
    assert which in lean.pressed
    assert hardly.pressed == ""  # less than a thousandth of what hangs


def test_of_a_line_that_is_slack_at_one_end_of_the_travel_alone_the_worst_between_is_bounded() -> None:
    """An outer line that the heavy middle lifts hangs slack at low trim; as its neighbour leans it takes some again."""
    at: list[Any] = ["20' SR", {"at": "10' SR", "block at": "9.5' SR"}, "CL", {"at": "10' SL", "block at": "9.5' SL"},
                     "20' SL"]  # fmt: skip
    one = rigged_set(a_set(lines={"at": at}), [a_piece(weight="400 lb", spread_over="20 ft")], [hung()])
    found = _forces(one)
    assert found.elsewhere[0].carrying != found.best.carrying
    assert found.unproven == ""
    for share in (0.2, 0.5, 0.9):
        between = _forces(replace(one, high=one.low + share * (one.high - one.low))).best
        assert all(span.low <= pull <= span.high for span, pull in zip(found.tensions, between.tensions, strict=True))
        assert between.stress <= between.stress_when_pressed <= found.stress.high


def test_so_much_in_doubt_that_not_every_end_of_it_is_looked_at_is_sought() -> None:
    at: list[Any] = ["20' SR", "10' SR", {"at": "CL", "block at": "3 in SL"}, "10' SL", "20' SL"]
    pieces = [a_piece(f"bar {i}", weight="20..22 lb") for i in range(9)]
    found = _forces(rigged_set(a_set(lines={"at": at}), pieces, [hung(f"bar {i}") for i in range(9)]))
    assert found.unproven == ""
    heavy, light = (
        _forces(
            rigged_set(
                a_set(lines={"at": at}),
                [a_piece(f"bar {i}", weight=f"{pounds} lb") for i in range(9)],
                [hung(f"bar {i}") for i in range(9)],
            )
        )
        for pounds in (22, 20)
    )
    for span, most, least in zip(found.tensions, heavy.tensions, light.tensions, strict=True):
        assert span.low <= least.low < most.high <= span.high


def test_what_is_sought_bounds_both_ends_of_the_travel_and_the_drift_with_no_more_than_is_needed() -> None:
    """Asked of a set whose corners do give it, so that both are known: the kicked line takes a tenth more high up."""
    at: list[Any] = ["20' SR", "10' SR", {"at": "CL", "block at": "10 in SL"}, "10' SL", "20' SL"]
    one = rigged_set(a_set(lines={"at": at}), [a_piece(weight="400 lb")], [hung()])
    found, sought = _forces(one), seek_leaning(one)
    assert isinstance(sought, Sought)
    assert not sought.unproven
    for i, span in enumerate(found.tensions):
        assert sought.low[i] <= span.low <= span.high <= sought.high[i]
    assert found.stress.high <= sought.stress
    assert found.sag.high <= sought.sag_ratio
    assert sought.high[2] < 1.25 * found.tensions[2].high
    assert found.tensions[2].low < found.tensions[2].high / 1.1


def test_what_is_sought_of_two_lines_whose_shares_are_given_is_what_they_come_to() -> None:
    one = rigged_set(_two("8' SL", high_trim="50 ft"))
    found, sought = _forces(one), seek_leaning(one)
    assert isinstance(sought, Sought)
    assert sought.high == pytest.approx([span.high for span in found.tensions])
    assert sought.stress == pytest.approx(found.stress.high, rel=1e-6)
    turn = found.turns(0)
    assert turn is not None
    assert sought.turns[0][1] == pytest.approx(turn[1])


def test_the_worse_of_both_ends_of_the_travel_is_told() -> None:
    at: list[Any] = ["20' SR", "10' SR", {"at": "CL", "block at": "8 in SL"}, "10' SL", "20' SL"]
    found = _forces(rigged_set(a_set(lines={"at": at}), [a_piece(weight="300 lb")], [hung()]))
    (low,), high = found.elsewhere, found.best
    assert low.along is not None
    assert high.along is not None
    assert (low.along.height, high.along.height) == pytest.approx((4 * FT, 58 * FT))
    assert high.tensions[2] > low.tensions[2]
    assert high.tensions[1] < low.tensions[1]
    told = [pull.best for pull in found.tensions]
    assert told == [max(pair) for pair in zip(low.tensions, high.tensions, strict=True)]
    assert found.at_most([0.0, 1.0, 0.0, 0.0, 0.0]) is low
    assert found.at_most([0.0, 0.0, 1.0, 0.0, 0.0]) is high


def test_a_dead_hung_batten_hangs_as_it_was_trimmed() -> None:
    """A run of 1 ft over 12 ft of drop; half each, so a drift of half a foot; nothing reaches deeper or less deep."""
    one = _two("11' SL") | {"rigged": "dead-hung", "low trim": "50 ft"}
    del one["purchase"], one["high trim"]
    (batten,) = rigged(a_house(one)).battens
    found = forces_of(batten)
    assert isinstance(found, Forces)
    along = found.best.along
    assert along is not None
    assert found.elsewhere == ()
    assert along.lower == (0.0, 0.0)
    assert found.best.verticals == pytest.approx([GRAVITY * batten.batten_mass / 2] * 2)


def test_no_room_is_told_of_a_batten_whose_lines_lean() -> None:
    assert room_for(rigged_set(_two("11' SL", high_trim="50 ft")), (), 1e8, None, [1.0, 2.0]) == ()


def test_a_house_whose_lines_hang_plumb_is_judged_without_what_leaning_ones_need() -> None:
    code = """
import sys
from tests.plain_house import a_house, a_piece, hung, judged
judged(a_house(), [a_piece()], [hung()])
print([name for name in sys.modules if name.rpartition('.')[2] in ('axial', 'leaning', 'along')])
"""
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert done.stdout.strip() == "[]"
