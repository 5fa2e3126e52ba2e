"""Lines that lean against equilibrium that takes no angle for small and shares nothing with ours.

- Finite elements of a bent bar (cubic shape functions; any text on structural mechanics), put up in this file, on
  straight elastic ropes of a length: where all of it is at rest is found by scipy.optimize.root, drift and all.
- Of a bar that is pressed: the largest moment under an even load, S. P. Timoshenko and J. M. Gere, Theory of Elastic
  Stability, 2nd ed., chapter 1: (w L2/8) 2 (sec u - 1)/u2, u = (L/2) sqrt(N/EI); by series solution of the same bar.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import Any

import numpy as np
import pytest
from hypothesis import assume, given, settings
from hypothesis.strategies import floats, integers, lists, sampled_from
from numpy.typing import NDArray
from scipy.optimize import root

from counterpoise.balance import Stack, out_of_balance, slant
from counterpoise.loadpath import Forces, forces_of
from counterpoise.rigging import RiggedSet
from counterpoise.statics import Axial, Beam, Segment, pressed
from counterpoise.units.constants import STANDARD_GRAVITY as GRAVITY
from tests.plain_house import FT, LB, Map, a_piece, a_set, hung, rigged_set

Array = NDArray[np.float64]
INCH, MM = 0.0254, 1e-3  # [m]

# --- the solver ------------------------------------------------------------------------------------------------------


@dataclass(frozen=True)
class Rest:
    """Pull of each rope and its vertical part [N], drift [m], axial force right of each line but the last [N]."""

    tensions: Array
    verticals: Array
    drift: float
    axial: Array


@dataclass(frozen=True)
class Bar:
    """A bent bar on ropes: nodes x [m], stiffness matrix, loads [N, N m], where the ropes are made to it."""

    xs: Sequence[float]
    stiffness: Array
    loads: Array
    at: Sequence[int]


def bar_of(one: RiggedSet, spread: tuple[float, float, float]) -> Bar:
    """Of the plain batten, which weighs evenly, with a load spread over (start, end, [N/m])."""
    (segment,) = one.beam.segments  # type: ignore[union-attr]  # a plain batten is one pipe
    own = GRAVITY * one.batten_mass / one.beam.length
    start, end, per_length = spread
    xs = sorted({round(x, 9) for x in (0.0, one.beam.length, start, end, *(line.x for line in one.lines))})
    stiffness, loads = np.zeros((2 * len(xs),) * 2), np.zeros(2 * len(xs))
    for e, (a, b) in enumerate(pairwise(xs)):
        h, here = b - a, slice(2 * e, 2 * e + 4)
        stiffness[here, here] += segment.stiffness / h**3 * np.array([
            [12, 6 * h, -12, 6 * h], [6 * h, 4 * h**2, -6 * h, 2 * h**2],
            [-12, -6 * h, 12, -6 * h], [6 * h, 2 * h**2, -6 * h, 4 * h**2]])  # fmt: skip
        w = own + (per_length if start < (a + b) / 2 < end else 0.0)
        loads[here] += w * h / 12 * np.array([6, h, 6, -h])
    return Bar(xs, stiffness, loads, [xs.index(round(line.x, 9)) for line in one.lines])


def at_rest(one: RiggedSet, bar: Bar, runs: Array, drop: float, lengths: Array | None, paid_in: float) -> Rest:
    """Where the bar comes to rest; `lengths` of the unloaded ropes at low trim, None: they are trimmed level here."""
    nodes = 2 * len(bar.xs)
    gives = np.array([line.flexibility for line in one.lines])
    errors = np.array([line.offset for line in one.lines])
    weight = float(bar.loads[::2].sum())
    depth = [2 * node for node in bar.at]

    def lacks(unknown: Array) -> Any:
        moved, pulls, drift = MM * unknown[:nodes], weight * unknown[nodes:-1], 0.1 * unknown[-1]
        widths, deep = runs - drift, drop + moved[depth]
        reach = np.sqrt(widths**2 + deep**2)
        ropes = np.sqrt(widths**2 + drop**2) if lengths is None else lengths - paid_in
        forces = bar.stiffness @ moved - bar.loads
        forces[depth] += pulls * deep / reach
        along = (pulls * widths / reach).sum()
        return np.concatenate([forces / weight, (reach - ropes - errors - gives * pulls) / MM, [along / weight]])

    springs = bar.stiffness.copy()  # from where it would hang were all plumb
    springs[depth, depth] += 1.0 / gives
    moved = np.linalg.solve(springs, bar.loads)
    start = np.concatenate([moved / MM, moved[depth] / gives / weight, [10.0 * runs.mean()]])
    steps = 1e-30j * np.eye(len(start))  # derivatives by complex steps: exact, no difference of near numbers

    def slopes(unknown: Array) -> Array:
        return np.array([lacks(unknown + step).imag / 1e-30 for step in steps]).T

    found = root(lacks, start, jac=slopes, method="hybr", options={"xtol": 1e-13})
    assert np.abs(lacks(found.x)).max() < 1e-7
    pulls, drift = weight * found.x[nodes:-1], 0.1 * float(found.x[-1])
    widths, deep = runs - drift, drop + MM * found.x[depth]
    reach = np.hypot(widths, deep)
    return Rest(pulls, pulls * deep / reach, drift, -np.cumsum(pulls * widths / reach)[:-1])


def both_ends(one: RiggedSet, bar: Bar, runs: Array) -> tuple[Rest, Rest]:
    """At low trim, where it is trimmed, and at high trim."""
    low = at_rest(one, bar, runs, one.loft - one.low, None, 0.0)
    lengths = np.hypot(runs - low.drift, one.loft - one.low)
    return low, at_rest(one, bar, runs, one.loft - one.high, lengths, one.high - one.low)


# --- shares, drift and axial force -----------------------------------------------------------------------------------


def said(feet: float) -> str:
    """A place so far stage left of the centre."""
    return f"{abs(feet):.9f} ft {'SR' if feet < 0 else 'SL'}" if feet else "CL"


def kicked(places: Sequence[tuple[float, float]], **changes: Any) -> Map:
    """Lines at so many feet stage left of the centre, each with its block so many inches to stage left of it."""
    at = [{"at": said(x), "block at": said(x + off / 12)} for x, off in places]
    return a_set(lines={"at": at}, **changes)


STIFF = {"outside diameter": "2.375 in", "wall": "0.154 in", "design wall": "0.143 in", "weight": "3.66 lb/ft"}
CASES = {
    "two lines, one kicked, the load to one side": (kicked([(-10, 10), (10, 0)]), 5.0),
    "three lines, the middle one kicked 10 in": (kicked([(-16, 0), (0, 10), (16, 0)]), 0.0),
    "three lines of stiff pipe, an outer one kicked": (kicked([(-16, 0), (0, 0), (16, -8)], batten=STIFF), 3.0),
    "five lines, the middle one kicked 10 in": (kicked([(-20, 0), (-10, 0), (0, 10), (10, 0), (20, 0)]), 0.0),
    "five lines of stiff pipe": (kicked([(-20, 3), (-10, 6), (0, 0), (10, -4), (20, 0)], batten=STIFF), 1.0),
    "a line kicked as far as is computed": (kicked([(-16, 0), (0, 0), (16, 14)], batten=STIFF), 0.0),
    "a line kicked far over a wide drop": (kicked([(-16, 0), (0, 30), (16, 0)], high_trim="52 ft"), 0.0),
}


def hanging(which: str) -> tuple[RiggedSet, Forces, Bar, Array]:
    one, centre = CASES[which]
    rigged = rigged_set(one, [a_piece(weight="400 lb", spread_over="32 ft")],
                        [hung(centre=said(centre))])  # fmt: skip
    forces = forces_of(rigged)
    assert isinstance(forces, Forces)
    assert not forces.unproven
    middle, half = rigged.beam.length / 2 + centre * FT, 16 * FT
    each = GRAVITY * rigged.pieces[0].mass[1] / (2 * half)
    runs = np.array(rigged.runs)
    return rigged, forces, bar_of(rigged, (middle - half, middle + half, each)), runs


# What is left out is the unevenness of the batten over the drop, here up to 1 %, and leans to the fourth: allowed are
# 0.05 % of what hangs, 0.5 % of how far the runs lie apart, and that much of what one pulls along with the other.
@pytest.mark.parametrize("which", CASES)
def test_pulls_drift_and_axial_force_are_those_of_a_bar_at_rest_on_straight_ropes(which: str) -> None:
    one, forces, bar, runs = hanging(which)
    weight, apart = float(bar.loads[::2].sum()), float(np.ptp(runs))
    for true, found in zip(both_ends(one, bar, runs), (*forces.elsewhere, forces.best), strict=True):
        along = found.along
        assert along is not None
        assert found.verticals == pytest.approx(true.verticals, abs=5e-4 * weight)
        assert found.tensions == pytest.approx(true.tensions, abs=5e-4 * weight)
        assert along.drift == pytest.approx(true.drift, abs=5e-3 * apart)
        assert along.axial.forces == pytest.approx(true.axial, abs=5e-3 * weight * apart / along.drop)


def test_a_line_that_leans_takes_load_on_the_way_up_that_as_if_plumb_it_would_not() -> None:
    """So much that leaving it out is no rounding: above a tenth of what it carries at low trim, in the same bar."""
    one, forces, bar, runs = hanging("five lines, the middle one kicked 10 in")
    low, high = both_ends(one, bar, runs)
    assert high.verticals[2] > 1.1 * low.verticals[2]
    assert forces.best.verticals[2] - forces.elsewhere[0].verticals[2] == pytest.approx(
        high.verticals[2] - low.verticals[2], rel=0.03)  # fmt: skip


# By hand: two lines with half each, one block 10 in to the side. The batten drifts 5 in; both then lean alike, by 5 in
# over 4 ft at high trim, and press or pull it between them with half the weight times 5/48.
def test_two_lines_with_half_each_drift_half_the_kick() -> None:
    rigged = rigged_set(kicked([(-10, -10), (10, 0)]))
    forces = forces_of(rigged)
    assert isinstance(forces, Forces)
    along = forces.best.along
    half = GRAVITY * rigged.batten_mass / 2
    assert along is not None
    assert along.drift == pytest.approx(-5 * INCH)
    assert along.widths == pytest.approx((-5 * INCH, 5 * INCH))
    assert forces.best.verticals == pytest.approx((half, half))
    assert along.axial.forces == pytest.approx((half * 5 / 48,))  # blocks set wider than the lines stretch it


# Three ropes that give alike, 1/k, on a bar that is as good as rigid, evenly loaded: with the middle one short by e, it
# stays level and the levels are one, V2/k - e = V1/k, with V1 + V2 + V1 = W: the middle takes W/3 + 2/3 k e.
def test_three_lines_of_a_stiff_bar_share_by_hand() -> None:
    one = kicked([(-5, 0), (0, 6), (5, 0)], batten=STIFF | {"length": "12 ft"})
    one["lines"] |= {"stiffness": "10,000 lb", "at": [each | {"length": "100 ft"} for each in one["lines"]["at"]]}
    rigged = rigged_set(one)
    forces = forces_of(rigged)
    assert isinstance(forces, Forces)
    weight = GRAVITY * rigged.batten_mass
    run, drop, low = 6 * INCH, rigged.loft - rigged.high, rigged.loft - rigged.low
    k = 10_000 * LB / (100 * FT)
    middle, trimmed = weight / 3, run / 3  # level at low trim: a third each, so it has drifted a third of the run
    for _ in range(50):  # by hand: share, drift, how short each is by w0^2/2D0 - w^2/2D, share
        drift = run * middle / weight
        short = [width**2 / (2 * drop) - was**2 / (2 * low)
                 for width, was in ((run - drift, run - trimmed), (drift, trimmed))]  # fmt: skip
        middle = weight / 3 + 2 / 3 * k * (short[0] - short[1])
    assert middle > 1.03 * weight / 3
    assert forces.elsewhere[0].verticals == pytest.approx([weight / 3] * 3, rel=0.01)
    assert forces.best.verticals[1] == pytest.approx(middle, rel=0.01)


# --- the balance -----------------------------------------------------------------------------------------------------


@settings(max_examples=25)
@given(
    offs=lists(integers(-8, 8), min_size=3, max_size=5),
    centre=integers(-6, 6),
    high=sampled_from(["58 ft", "50 ft", "40 ft"]),
    pounds=floats(50.0, 600.0),
)
def test_what_all_ropes_pull_lies_in_the_interval_of_the_balance(
    offs: list[int], centre: int, high: str, pounds: float
) -> None:
    places = [(round(-18 + 36 * i / (len(offs) - 1)), float(off)) for i, off in enumerate(offs)]
    rigged = rigged_set(kicked(places, high_trim=high),
                        [a_piece(weight=f"{pounds} lb", spread_over="20 ft")], [hung(centre=said(centre))])  # fmt: skip
    middle, half = rigged.beam.length / 2 + centre * FT, 10 * FT
    bar = bar_of(rigged, (middle - half, middle + half, GRAVITY * rigged.pieces[0].mass[1] / (2 * half)))
    runs = np.array(rigged.runs or [0.0] * len(offs))
    assume(not rigged.steep)
    arbor, hangs = GRAVITY * (rigged.arbor_mass + Stack(10).mass(rigged)), float(bar.loads[::2].sum())
    for height, true in zip((rigged.low, rigged.high), both_ends(rigged, bar, runs), strict=True):
        assume(true.tensions.min() > 0.0)  # these ropes would push
        delta = out_of_balance(rigged, Stack(10), height)
        assert delta.low - 1e-6 <= arbor - float(true.tensions.sum()) <= delta.high + 1e-6
        assert delta.high - delta.low <= 0.0125 * hangs  # of runs that lie 0.3 of the drop apart at most


def test_at_no_height_do_ropes_pull_less_than_hangs_and_they_pull_more_the_higher_it_is() -> None:
    rigged = rigged_set(kicked([(-16, 0), (0, 10), (16, 0)]))
    most = [slant(rigged, height)[1] for height in np.linspace(rigged.low, rigged.high, 30)]
    steps = np.diff(most)
    assert min(most) > 1.0
    assert (np.diff(steps) > 0.0).all()  # faster and faster: its end is the worst


# --- a bar that is pressed -------------------------------------------------------------------------------------------


@pytest.mark.parametrize("share", [0.01, 0.05, 0.1, 0.3, 0.6, 0.9])
def test_a_pressed_bar_is_bent_by_no_more_than_it_is_grown_to_here_and_by_little_less(share: float) -> None:
    length, stiffness = 6.0, 25_000.0
    beam = Beam(length=length, segments=(Segment(start=0.0, end=length, stiffness=stiffness),))
    push = share * math.pi**2 * stiffness / length**2
    found = pressed(Axial(xs=(0.0, length), forces=(-push,)), beam)
    assert found is not None
    u = length / 2 * math.sqrt(push / stiffness)
    true = 2 * (1 / math.cos(u) - 1) / u**2
    assert true <= found.factor <= true * (1 + 0.25 * share)  # two couples bend it most; an even load a little less
    assert found.factor == pytest.approx(1 / math.cos(u))


def test_the_closed_form_of_timoshenko_is_what_a_series_of_sines_gives() -> None:
    """An even load as sines: each half wave n of the moment grows by 1/(1 - N/(n2 N_E)), so no closed form is asked."""
    share = 0.4
    u = math.pi / 2 * math.sqrt(share)
    odd = range(1, 20_001, 2)
    grown = sum(math.sin(n * math.pi / 2) / n**3 / (1 - share / n**2) for n in odd) * 32 / math.pi**3
    assert 2 * (1 / math.cos(u) - 1) / u**2 == pytest.approx(grown, rel=1e-6)


def test_a_bar_pressed_by_more_than_eulers_load_has_no_figure() -> None:
    beam = Beam(length=6.0, segments=(Segment(start=0.0, end=6.0, stiffness=25_000.0),))
    found = pressed(Axial(xs=(0.0, 6.0), forces=(-1.01 * math.pi**2 * 25_000 / 36,)), beam)
    assert found is not None
    assert math.isinf(found.factor)
