"""Battens against published beam tables.

Sources, and how each value was come by:
- T. G. Hicks, Civil Engineering Formulas, table 2.1 (equal spans, uniform load) and figure 2.2 case 11 (overhangs):
  looked up.
- AISC Steel Construction Manual, tables 3-22 and 3-23 (beam diagrams and formulas): reactions and moments of two spans
  looked up in public copies; deflection coefficients, loads in patterns and one-span formulas from memory.
- A. Kassimali, Structural Analysis, equation D.10 (three-moment equation with settlement of supports): looked up.
- Worked situation S10: a 42 ft batten on five lines, invented for this project and solved independently of it.
"""

import math
from random import Random

import numpy as np
import pytest

from counterpoise.statics import Beam, Hanging, Line, Load, PointLoad, Segment, SpreadLoad, hang, pipe

FT, IN, LBF, PSI = 0.3048, 0.0254, 4.4482216152605, 6894.757293168
L, W, P, EI = 3.0, 150.0, 800.0, 25_000.0  # span [m], spread load [N/m], point load [N], stiffness [N m2]
NEARLY_NOTHING = 1e-6  # weight of a weightless batten in tables that leave its weight out [N/m]


def batten(length: float, stiffness: float = EI) -> Beam:
    return Beam(length=length, segments=(Segment(start=0.0, end=length, stiffness=stiffness),))


def at_rest(beam: Beam, places: list[float], loads: list[Load], offsets: list[float] | None = None) -> Hanging:
    offsets = offsets or [0.0] * len(places)
    lines = [Line(x=x, offset=offset) for x, offset in zip(places, offsets, strict=True)]
    answer = hang(beam, lines, loads)
    assert isinstance(answer, Hanging)
    return answer


def equal_spans(count: int) -> Hanging:
    length = count * L
    return at_rest(batten(length), [k * L for k in range(count + 1)], [SpreadLoad(start=0.0, end=length, per_length=W)])


# Hicks, table 2.1: shears either side of each support as fractions of w l, here added to reactions.
@pytest.mark.parametrize(
    "fractions",
    [
        (1 / 2, 1 / 2),
        (3 / 8, 10 / 8, 3 / 8),
        (4 / 10, 11 / 10, 11 / 10, 4 / 10),
        (11 / 28, 32 / 28, 26 / 28, 32 / 28, 11 / 28),
        (15 / 38, 43 / 38, 37 / 38, 37 / 38, 43 / 38, 15 / 38),
    ],
    ids=["1 span", "2 spans", "3 spans", "4 spans (from memory)", "5 spans (from memory)"],
)
def test_equal_spans_pull_as_hicks_prints(fractions: tuple[float, ...]) -> None:
    assert equal_spans(len(fractions) - 1).tensions == pytest.approx([f * W * L for f in fractions], rel=1e-12)


# Hicks, table 2.1: moments over the supports as fractions of w l2 (4 and 5 spans from memory).
@pytest.mark.parametrize(
    "fractions",
    [
        (0, 0),
        (0, -1 / 8, 0),
        (0, -1 / 10, -1 / 10, 0),
        (0, -3 / 28, -2 / 28, -3 / 28, 0),
        (0, -4 / 38, -3 / 38, -3 / 38, -4 / 38, 0),
    ],
)
def test_equal_spans_bend_over_the_lines_as_hicks_prints(fractions: tuple[float, ...]) -> None:
    found = equal_spans(len(fractions) - 1)
    assert [found.moment(k * L) for k in range(len(fractions))] == pytest.approx(
        [f * W * L**2 for f in fractions], abs=1e-9
    )


def test_one_span_under_its_own_weight_bends_and_sags_as_every_table_says() -> None:
    found = equal_spans(1)
    assert found.largest_moment == pytest.approx((W * L**2 / 8, L / 2), rel=1e-12)  # standard; Hicks, table 2.1
    ((_, _, sag, x),) = found.largest_sags
    assert sag == pytest.approx(5 * W * L**4 / (384 * EI), rel=1e-12)  # standard; from memory
    assert x == pytest.approx(L / 2, rel=1e-6)


@pytest.mark.parametrize(  # Hicks, table 2.1: greatest sagging moment / w l2 and its place / l, as printed
    ("spans", "moment", "place", "digit"), [(2, 0.0703, 0.375, 5e-5), (3, 0.080, 0.400, 5e-4)]
)
def test_the_end_span_sags_most_where_hicks_prints_it(spans: int, moment: float, place: float, digit: float) -> None:
    found = equal_spans(spans)
    assert found.moment(place * L) / (W * L**2) == pytest.approx(moment, abs=digit)
    assert found.shear(place * L) == pytest.approx(0.0, abs=1e-9 * W * L)


def test_the_middle_of_three_spans_sags_a_fortieth() -> None:
    assert equal_spans(3).moment(1.5 * L) == pytest.approx(0.025 * W * L**2, rel=1e-9)  # Hicks, table 2.1


@pytest.mark.parametrize(  # AISC table 3-23 (from memory): greatest deflection EI / w l4, its place / l from the end
    ("spans", "deflection", "place", "digit"), [(2, 1 / 185, 0.4215, 2e-5), (3, 0.0069, 0.446, 5e-5)]
)
def test_the_end_span_deflects_as_the_manual_prints(spans: int, deflection: float, place: float, digit: float) -> None:
    _, _, sag, x = equal_spans(spans).largest_sags[0]
    assert sag * EI / (W * L**4) == pytest.approx(deflection, abs=digit)
    assert x / L == pytest.approx(place, abs=5e-4)


def test_two_spans_with_a_load_in_the_middle_of_each() -> None:
    weight = SpreadLoad(start=0.0, end=2 * L, per_length=NEARLY_NOTHING)
    loads: list[Load] = [weight, PointLoad(x=0.5 * L, force=P), PointLoad(x=1.5 * L, force=P)]
    found = at_rest(batten(2 * L), [0.0, L, 2 * L], loads)
    assert found.tensions == pytest.approx([5 / 16 * P, 11 / 8 * P, 5 / 16 * P], rel=1e-7)  # AISC table 3-23
    assert found.largest_moment == pytest.approx((-3 / 16 * P * L, L), rel=1e-7)
    assert found.moment(0.5 * L) == pytest.approx(5 / 32 * P * L, rel=1e-7)


@pytest.mark.parametrize("share", [0.2, 0.5, 0.7])
def test_two_spans_with_a_load_anywhere_on_one(share: float) -> None:
    a, b = share * L, (1 - share) * L
    reactions = [  # AISC table 3-23: the far support is pressed up by the load, so a weight there keeps its line taut
        P * b * (4 * L**2 - a * (L + a)) / (4 * L**3),
        P * a * (2 * L**2 + b * (L + a)) / (2 * L**3),
        -P * a * b * (L + a) / (4 * L**3) + P,
    ]
    weight = SpreadLoad(start=0.0, end=2 * L, per_length=NEARLY_NOTHING)
    found = at_rest(batten(2 * L), [0.0, L, 2 * L], [weight, PointLoad(x=a, force=P), PointLoad(x=2 * L, force=P)])
    assert found.tensions == pytest.approx(reactions, rel=1e-7)
    assert found.moment(L) == pytest.approx(-P * a * b * (L + a) / (4 * L**2), rel=1e-7)


def test_without_that_weight_the_far_line_goes_slack_and_the_batten_is_one_span() -> None:
    weight = SpreadLoad(start=0.0, end=2 * L, per_length=NEARLY_NOTHING)
    found = at_rest(batten(2 * L), [0.0, L, 2 * L], [weight, PointLoad(x=0.5 * L, force=P)])
    assert found.tensions == pytest.approx([P / 2, P / 2, 0.0], abs=1e-4)  # one simple span: half each
    assert found.tensions[2] == 0.0
    # beyond a simple span its end turns by P l2 / 16 EI (standard; from memory), so the free arm of length l rises
    assert found.gaps[2] == pytest.approx(P * L**2 / (16 * EI) * L, rel=1e-6)


@pytest.mark.parametrize(("a", "b"), [(0.6, 1.1), (0.3, 0.3), (1.4, 0.2)])
def test_overhangs_at_both_ends_as_hicks_prints(a: float, b: float) -> None:
    length = a + L + b
    found = at_rest(batten(length), [a, a + L], [SpreadLoad(start=0.0, end=length, per_length=W)])
    left = W * ((a + L) ** 2 - b**2) / (2 * L)  # Hicks, figure 2.2, case 11
    right = W * ((b + L) ** 2 - a**2) / (2 * L)
    assert found.tensions == pytest.approx([left, right], rel=1e-12)
    assert found.moment(a) == pytest.approx(-W * a**2 / 2, rel=1e-12)
    assert found.moment(a + L) == pytest.approx(-W * b**2 / 2, rel=1e-12)


def test_a_load_on_the_tip_bends_over_the_line_by_force_times_arm_and_drops_the_tip() -> None:
    arm = 0.8
    weight = SpreadLoad(start=0.0, end=L + arm, per_length=NEARLY_NOTHING)
    held = PointLoad(x=L / 2, force=4 * P)  # keeps the far line taut
    found = at_rest(batten(L + arm), [0.0, L], [weight, held, PointLoad(x=L + arm, force=P)])
    assert found.moment(L) == pytest.approx(-P * arm, rel=1e-7)  # statics
    # tip of an overhang: P a2 (l + a) / 3 EI down (AISC table 3-23, overhanging beam; from memory), less the turn
    # P' l2 / 16 EI of the end of a span with P' in its middle
    expected = P * arm**2 * (L + arm) / (3 * EI) - 4 * P * L**2 / (16 * EI) * arm
    assert found.tip_drops[1] == pytest.approx(expected, rel=1e-6)


@pytest.mark.parametrize("settled", [(0.0, 0.003, 0.0), (0.002, 0.0, -0.001), (0.0, -0.004, 0.001)])
def test_one_line_longer_than_the_others_is_a_settlement_as_in_kassimali(settled: tuple[float, ...]) -> None:
    # Kassimali, eq. D.10, one interior support, uniform load: with M = 0 at both ends,
    # 2 M (l1 + l2) = -(w l1^3 + w l2^3)/4 - 6 EI [(D1 - D)/l1 + (D2 - D)/l2], D down positive.
    l1, l2, w = 3.0, 4.0, 600.0
    d1, d, d2 = settled
    moment = (-(w * l1**3 + w * l2**3) / 4 - 6 * EI * ((d1 - d) / l1 + (d2 - d) / l2)) / (2 * (l1 + l2))
    loads: list[Load] = [SpreadLoad(start=0.0, end=l1 + l2, per_length=w)]
    found = at_rest(batten(l1 + l2), [0.0, l1, l1 + l2], loads, list(settled))
    assert all(t > 0 for t in found.tensions)  # or the equation would not apply
    assert found.moment(l1) == pytest.approx(moment, rel=1e-10)
    assert found.deflection(l1) == pytest.approx(d, abs=1e-12)


def test_a_stretching_line_settles_by_its_stretch() -> None:
    # Two spans, middle line of flexibility f: R = (5 w l^4 / 24 EI) / (l^3 / 6 EI + f), from the midspan deflections
    # 5 w (2l)^4 / 384 EI and R (2l)^3 / 48 EI of one span of 2 l (standard; from memory).
    f = 4e-5
    lines = [Line(x=0.0), Line(x=L, flexibility=f), Line(x=2 * L)]
    found = hang(batten(2 * L), lines, [SpreadLoad(start=0.0, end=2 * L, per_length=W)])
    assert isinstance(found, Hanging)
    assert found.tensions[1] == pytest.approx((5 * W * L**4 / (24 * EI)) / (L**3 / (6 * EI) + f), rel=1e-12)
    assert found.deflection(L) == pytest.approx(f * found.tensions[1], rel=1e-12)


# Worked situation S10 (independently solved): 42 ft of 1-1/2 in schedule 40 pipe, nominal I, five rigid lines.
OLD_HOUSE = batten(42 * FT, 29e6 * PSI * 0.310 * IN**4)
OLD_HOUSE_LINES = [x * FT for x in (1, 11, 21, 31, 41)]
OLD_HOUSE_WEIGHT = SpreadLoad(start=0.0, end=42 * FT, per_length=114.2 * LBF / (42 * FT))


def pounds(found: Hanging) -> list[float]:
    return [t / LBF for t in found.tensions]


def test_s10_an_even_load_is_not_shared_evenly() -> None:
    even = SpreadLoad(start=0.0, end=42 * FT, per_length=560 * LBF / (42 * FT))
    found = at_rest(OLD_HOUSE, OLD_HOUSE_LINES, [OLD_HOUSE_WEIGHT, even])
    assert [100 * t / found.weight for t in found.tensions] == pytest.approx([11.9, 27.0, 22.2, 27.0, 11.9], abs=0.05)


def test_s10_a_load_under_the_middle_line_hangs_on_it_alone() -> None:
    found = at_rest(OLD_HOUSE, OLD_HOUSE_LINES, [OLD_HOUSE_WEIGHT, PointLoad(x=21 * FT, force=560 * LBF)])
    assert pounds(found)[2] == pytest.approx(585, abs=2)


def test_s10_a_load_between_two_lines_leaves_two_others_slack() -> None:
    found = at_rest(OLD_HOUSE, OLD_HOUSE_LINES, [OLD_HOUSE_WEIGHT, PointLoad(x=16 * FT, force=560 * LBF)])
    assert pounds(found) == pytest.approx([0, 298, 368, 0, 9], abs=2)
    assert found.carrying == (1, 2, 4)
    assert (found.tensions[0], found.tensions[3]) == (0.0, 0.0)
    assert found.gaps[0] > 0
    assert found.gaps[3] > 0
    moment, x = found.largest_moment
    assert x == pytest.approx(16 * FT)
    nominal = pipe(1.900 * IN, 0.145 * IN).elastic_modulus
    assert moment / nominal / PSI / 1000 == pytest.approx(42.0, abs=0.2)  # ksi
    assert moment / (0.309 * IN**3) / PSI / 1000 == pytest.approx(
        44.3, abs=0.2
    )  # ksi; S of AISC table 1-14, Pipe 1-1/2 STD


def test_s10_three_picks_under_lines_leave_the_others_as_they_were() -> None:
    picks = [PointLoad(x=x * FT, force=p * LBF) for x, p in ((1, 180), (21, 200), (41, 180))]
    bare = pounds(at_rest(OLD_HOUSE, OLD_HOUSE_LINES, [OLD_HOUSE_WEIGHT]))
    found = pounds(at_rest(OLD_HOUSE, OLD_HOUSE_LINES, [OLD_HOUSE_WEIGHT, *picks]))
    assert found[2] == pytest.approx(225, abs=2)
    assert [b - a for a, b in zip(bare, found, strict=True)] == pytest.approx([180, 0, 200, 0, 180], abs=1e-9)


def test_a_stepped_batten_deflects_as_its_parts_say() -> None:
    # A simple span with EI doubled over its left half and a load in the middle. Mohr: the deflection of the middle is
    # the mean of that of two uniform beams, P l3 / 48 EI and P l3 / 96 EI (each half bends in the same moments).
    beam = Beam(
        length=L,
        segments=(Segment(start=0.0, end=L / 2, stiffness=2 * EI), Segment(start=L / 2, end=L, stiffness=EI)),
    )
    weight = SpreadLoad(start=0.0, end=L, per_length=NEARLY_NOTHING)
    found = at_rest(beam, [0.0, L], [weight, PointLoad(x=L / 2, force=P)])
    assert found.deflection(L / 2) == pytest.approx((P * L**3 / 48 / EI) * 0.75, rel=1e-7)
    assert math.isclose(found.sag(L / 2), found.deflection(L / 2), rel_tol=1e-12)


# --- loads on some spans only, with uplift --------------------------------------------------------------------------
#
# Where a table has a support that holds down, a weight U under each line keeps every line taut and goes into it alone.
U = 2 * W * L


def pattern(loaded: str) -> Hanging:
    """Equal spans, those marked 1 under w; U under every line."""
    count = len(loaded)
    spreads: list[Load] = [
        SpreadLoad(start=k * L, end=(k + 1) * L, per_length=W) for k, mark in enumerate(loaded) if mark == "1"
    ]
    weights: list[Load] = [PointLoad(x=k * L, force=U) for k in range(count + 1)]
    return at_rest(batten(count * L), [k * L for k in range(count + 1)], [*spreads, *weights])


# AISC Manual, tables 3-22 and 3-23, continuous beams of equal spans (from memory): reactions / w l, as printed.
PATTERNS = [
    ("10", (0.4375, 0.625, -0.0625)),
    ("101", (0.450, 0.550, 0.550, 0.450)),
    ("010", (-0.050, 0.550, 0.550, -0.050)),
    ("110", (0.383, 1.200, 0.450, -0.033)),
    ("1111", (0.393, 1.143, 0.929, 1.143, 0.393)),
    ("1101", (0.380, 1.223, 0.357, 0.598, 0.442)),
    ("0110", (-0.036, 0.464, 1.143, 0.464, -0.036)),
    ("1010", (0.446, 0.572, 0.464, 0.572, -0.054)),
]


@pytest.mark.parametrize(("loaded", "reactions"), PATTERNS, ids=[p[0] for p in PATTERNS])
def test_spans_loaded_in_a_pattern_press_and_lift_as_the_manual_prints(
    loaded: str, reactions: tuple[float, ...]
) -> None:
    found = [(t - U) / (W * L) for t in pattern(loaded).tensions]
    assert found == pytest.approx(reactions, abs=6e-4)


# As above: moments over the inner supports / w l2 and greatest sagging moment / w l2, as printed.
@pytest.mark.parametrize(
    ("loaded", "over", "sagging"),
    [
        ("10", (-0.0625,), 0.0957),
        ("101", (-0.050, -0.050), 0.1013),
        ("010", (-0.050, -0.050), 0.0750),
        ("110", (-0.1167, -0.0333), 0.0735),
        ("1111", (-0.1071, -0.0714, -0.1071), 0.0772),
        ("1101", (-0.1205, -0.0179, -0.058), 0.0977),
        ("0110", (-0.0357, -0.1071, -0.0357), 0.0561),
        ("1010", (-0.0536, -0.0357, -0.0536), 0.0996),
    ],
)
def test_spans_loaded_in_a_pattern_bend_as_the_manual_prints(
    loaded: str, over: tuple[float, ...], sagging: float
) -> None:
    found, unit = pattern(loaded), W * L**2
    assert [found.moment((k + 1) * L) / unit for k in range(len(over))] == pytest.approx(over, abs=6e-4)
    samples = [found.moment(len(loaded) * L * k / 6000) / unit for k in range(6001)]
    assert max(samples) == pytest.approx(sagging, abs=6e-5)


@pytest.mark.parametrize(  # as above: greatest deflection EI / w l4 and its place / l from the end named
    ("loaded", "deflection", "place", "digit"),
    [
        ("10", 0.0092, 0.472, 6e-5),
        ("101", 0.0099, 0.479, 6e-5),
        ("110", 0.0059, 0.430, 6e-5),
        ("1111", 0.0065, 0.440, 6e-5),
    ],
)
def test_spans_loaded_in_a_pattern_deflect_as_the_manual_prints(
    loaded: str, deflection: float, place: float, digit: float
) -> None:
    _, _, sag, x = pattern(loaded).largest_sags[0]
    assert sag * EI / (W * L**4) == pytest.approx(deflection, abs=digit)
    assert x / L == pytest.approx(place, abs=1.1e-3)


@pytest.mark.parametrize("loaded", ["010", "110"])
def test_without_those_weights_a_lifted_end_line_goes_slack(loaded: str) -> None:
    # the table's reaction there is negative; a line can not push, and the batten's own weight is left out here
    spreads: list[Load] = [
        SpreadLoad(start=k * L, end=(k + 1) * L, per_length=W) for k, mark in enumerate(loaded) if mark == "1"
    ]
    found = at_rest(batten(3 * L), [k * L for k in range(4)], spreads)
    assert found.tensions[3] == 0.0
    assert found.gaps[3] > 0.0
    if loaded == "010":  # both ends: what is left is one simple span
        assert found.tensions == pytest.approx([0.0, W * L / 2, W * L / 2, 0.0], abs=1e-9)
        assert found.largest_moment[0] == pytest.approx(W * L**2 / 8)
        # beyond it the batten rises along the end turn w l3 / 24 EI (standard)
        assert found.gaps[0] == pytest.approx(W * L**3 / (24 * EI) * L, rel=1e-9)
    else:  # two spans under w: Hicks, table 2.1
        assert found.tensions[:3] == pytest.approx([3 / 8 * W * L, 10 / 8 * W * L, 3 / 8 * W * L])


# --- a load in the middle of every span -----------------------------------------------------------------------------


@pytest.mark.parametrize("fractions", [(2, 16, 3), (3, 20, 3), (4, 56, 9)], ids=["2 spans", "3 spans", "4 spans"])
def test_a_load_in_the_middle_of_every_span_bends_over_the_first_inner_line(fractions: tuple[int, int, int]) -> None:
    # Kassimali, eq. D.10 with k = 1/2: P l2 k(1 - k2) = 3/8 P l2, against w l3 / 4 for w. So the moments over the lines
    # are 3/2 P l times those of table 2.1 of Hicks for w l2: -3/16 (also AISC table 3-23), -3/20 and -9/56 of P l.
    spans, below, above = fractions
    loads: list[Load] = [PointLoad(x=(k + 0.5) * L, force=P) for k in range(spans)]
    found = at_rest(batten(spans * L), [k * L for k in range(spans + 1)], loads)
    assert found.moment(L) == pytest.approx(-above / below * P * L, rel=1e-12)
    assert found.tensions[0] == pytest.approx((1 / 2 - above / below) * P, rel=1e-12)  # statics of the end span
    assert found.moment(L / 2) == pytest.approx((1 / 4 - above / below / 2) * P * L, rel=1e-12)


# --- one span -------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize("share", [0.2, 0.5, 0.8])
def test_one_span_with_one_load_anywhere(share: float) -> None:
    # AISC table 3-23 (from memory): M = P a b / l, deflection at the load P a2 b2 / 3 EI l; greatest deflection for
    # a > b: P a b (a + 2b) sqrt(3a (a + 2b)) / 27 EI l at sqrt(a (a + 2b) / 3)
    a, b = share * L, (1 - share) * L
    found = at_rest(batten(L), [0.0, L], [PointLoad(x=a, force=P)])
    assert found.tensions == pytest.approx([P * b / L, P * a / L])
    assert found.largest_moment == pytest.approx((P * a * b / L, a))
    assert found.deflection(a) == pytest.approx(P * a**2 * b**2 / (3 * EI * L))
    long, short = max(a, b), min(a, b)
    most = P * a * b * (long + 2 * short) * math.sqrt(3 * long * (long + 2 * short)) / (27 * EI * L)
    at = math.sqrt(long * (long + 2 * short) / 3)
    ((_, _, sag, x),) = found.largest_sags
    assert sag == pytest.approx(most, rel=1e-9)
    assert x == pytest.approx(at if a >= b else L - at, rel=1e-6)


def test_one_span_with_two_equal_loads() -> None:
    # AISC table 3-23 (from memory): M = P a, deflection P a (3 l2 - 4 a2) / 24 EI
    a = 0.3 * L
    found = at_rest(batten(L), [0.0, L], [PointLoad(x=a, force=P), PointLoad(x=L - a, force=P)])
    assert found.moment(L / 2) == pytest.approx(P * a)
    assert found.largest_sags[0][2] == pytest.approx(P * a * (3 * L**2 - 4 * a**2) / (24 * EI))


def test_one_span_with_a_spread_load_on_part_of_it() -> None:
    # AISC table 3-23 (from memory), uniform load partially distributed, a clear, b loaded, c clear:
    # R1 = w b (2c + b) / 2l, M = R1 (a + R1 / 2w) at x = a + R1 / w
    a, b, c = 0.5, 1.1, 1.4
    found = at_rest(batten(L), [0.0, L], [SpreadLoad(start=a, end=a + b, per_length=W)])
    r1 = W * b * (2 * c + b) / (2 * L)
    assert found.tensions[0] == pytest.approx(r1)
    assert found.largest_moment == pytest.approx((r1 * (a + r1 / (2 * W)), a + r1 / W))


@pytest.mark.parametrize("a", [0.4, 0.9])
def test_one_overhang_under_its_own_weight(a: float) -> None:
    # AISC table 3-23 (from memory), beam overhanging one support, uniform load: R1 = w (l2 - a2) / 2l,
    # R2 = w (l + a)2 / 2l, M between = w (l + a)2 (l - a)2 / 8 l2, M over = w a2 / 2,
    # tip drops w a (4 a2 l - l3 + 3 a3) / 24 EI
    found = at_rest(batten(L + a), [0.0, L], [SpreadLoad(start=0.0, end=L + a, per_length=W)])
    assert found.tensions == pytest.approx([W * (L**2 - a**2) / (2 * L), W * (L + a) ** 2 / (2 * L)])
    assert found.largest_moment[0] == pytest.approx(W * (L + a) ** 2 * (L - a) ** 2 / (8 * L**2))
    assert found.moment(L) == pytest.approx(-W * a**2 / 2)
    assert found.tip_drops[1] == pytest.approx(W * a * (4 * a**2 * L - L**3 + 3 * a**3) / (24 * EI))


# --- any spans, loads and settlements -------------------------------------------------------------------------------


def three_moments(spans: list[float], loads: list[tuple[int, float, float]], w: float, y: list[float]) -> list[float]:
    """Moments over the supports by Kassimali, eq. D.10, as printed; loads as (span, distance from its left, force)."""
    count = len(spans) - 1
    left, right = [[0.0] * count for _ in range(count)], [0.0] * count
    for j in range(count):
        l1, l2 = spans[j], spans[j + 1]
        left[j][j] = 2 * (l1 + l2)
        if j:
            left[j][j - 1] = l1
        if j + 1 < count:
            left[j][j + 1] = l2
        right[j] = -(w * l1**3 + w * l2**3) / 4 - 6 * EI * ((y[j] - y[j + 1]) / l1 + (y[j + 2] - y[j + 1]) / l2)
        for span, at, force in loads:
            for this, length, k in ((j, l1, at / l1), (j + 1, l2, 1 - at / l2)):  # k from the outer support of its span
                if span == this:
                    right[j] -= force * length**2 * k * (1 - k**2)
    return [0.0, *np.linalg.solve(left, right).tolist(), 0.0]


def test_any_spans_loads_and_settlements_bend_over_the_lines_as_kassimali_says() -> None:
    looked = 0
    for seed in range(60):
        random = Random(seed)
        spans = [random.uniform(2.0, 4.0) for _ in range(random.randint(2, 6))]
        starts = [sum(spans[:k]) for k in range(len(spans) + 1)]
        w = random.uniform(100.0, 300.0)
        points = [(k, random.uniform(0.0, spans[k]), random.uniform(50.0, 900.0)) for k in range(len(spans))]
        y = [random.uniform(-0.002, 0.002) for _ in starts]
        loads: list[Load] = [PointLoad(x=starts[k] + at, force=force) for k, at, force in points]
        loads.append(SpreadLoad(start=0.0, end=starts[-1], per_length=w))
        answer = at_rest(batten(starts[-1]), starts, loads, y)
        if len(answer.carrying) < len(starts):
            continue  # the equation knows no slack line
        expected = three_moments(spans, points, w, y)
        assert [answer.moment(x) for x in starts] == pytest.approx(expected, abs=1e-9 * w * 16)
        looked += 1
    assert looked > 30
