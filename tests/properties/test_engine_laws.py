"""Laws that hold for every hang: equilibrium, scale, independence of sets, and that unknown is never within."""

from __future__ import annotations

import pytest
from hypothesis import given, settings, strategies as st

from counterpoise.balance import Stack, out_of_balance
from counterpoise.checks import HouseResult, SetResult, Verdict
from counterpoise.loadpath import Forces, forces_of
from tests.plain_house import FT, LB, Map, a_house, a_piece, a_set, hung, judged, rigged, rigged_set

GRAIN = 1e-6  # [N] what floating point may leave of sums of some thousand newtons

pounds = st.integers(1, 1_500)
centres = st.integers(-15, 15)  # [ft]; a piece 10 ft wide stays on a batten of 42 ft and within lines 20 ft off centre
purchases = st.sampled_from(["single", "double"])
few = settings(max_examples=30)


@st.composite
def hangs(draw: st.DrawFn) -> tuple[list[Map], list[Map], list[Map]]:
    sets, pieces, places = [], [], []
    for label in ("1", "2", "3"):
        weight = draw(st.sampled_from(["0 lb/ft", "0.11 lb/ft", "0.25 lb/ft"]))
        sets.append(a_set(label, purchase=draw(purchases), low_trim=f"{draw(st.integers(3, 9))} ft",
                          lines={"weight": weight}))  # fmt: skip
        for n in range(draw(st.integers(0, 2))):
            name = f"piece {label}{n}"
            pieces.append(a_piece(name, f"{draw(pounds)} lb", spread_over="10 ft"))
            centre = draw(centres)
            places.append(hung(name, label, f"{abs(centre)} ft {'SL' if centre > 0 else 'SR'}"))
    return sets, pieces, places


def _one(result: HouseResult, label: str) -> SetResult:
    found = result.set_called(label)
    assert found is not None
    return found


def _beam(found: SetResult, name: str, line: int | None = None) -> float:
    row = found.row(name, line)
    assert row is not None
    return row.value.best


@given(hang=hangs())
@few
def test_the_loft_beams_together_carry_everything_that_hangs(hang: tuple[list[Map], list[Map], list[Map]]) -> None:
    """Equilibrium: battens, pieces and lift lines, and not an ounce more or less, whichever set one asks."""
    sets, pieces, places = hang
    result = judged(a_house(*sets), pieces, places)
    weight = sum(114.24 for _ in sets) + sum(float(one["weight"].removesuffix(" lb")) for one in pieces)
    weight += sum(
        5 * float(one["lines"]["weight"].split()[0]) * (62 - float(one["low trim"].split()[0])) for one in sets
    )
    for one in result.sets:
        assert sum(_beam(one, "loft beam", line) for line in range(1, 6)) / LB == pytest.approx(weight, rel=1e-9)


@given(hang=hangs())
@few
def test_every_set_of_a_bay_is_told_the_same_load_of_each_beam(hang: tuple[list[Map], list[Map], list[Map]]) -> None:
    sets, pieces, places = hang
    result = judged(a_house(*sets), pieces, places)
    for name, line in [("head beam", None), *(("loft beam", line) for line in range(1, 6))]:
        told = [_beam(one, name, line) for one in result.sets]
        assert told == pytest.approx([told[0]] * 3, rel=1e-12)


@given(hang=hangs())
@few
def test_the_lines_of_a_set_carry_its_batten_and_its_pieces(hang: tuple[list[Map], list[Map], list[Map]]) -> None:
    sets, pieces, places = hang
    for one in rigged(a_house(*sets), pieces, places).sets:
        found = forces_of(one)
        assert isinstance(found, Forces)
        hanging = one.batten_mass + sum(piece.mass[1] for piece in one.pieces)
        assert sum(found.best.tensions) == pytest.approx(hanging * 9.80665, abs=GRAIN, rel=1e-9)
        assert min(found.best.tensions) >= 0.0


@given(weight=st.integers(1, 400), factor=st.integers(2, 5), centre=centres)
@few
def test_what_hangs_twice_as_heavy_pulls_twice_as_much(weight: int, factor: int, centre: int) -> None:
    """Scale: on level lines that start unstretched, forces follow the loads, slack or not."""

    def pulls(times: int) -> list[float]:
        light_metal = "10,100 ksi"  # for steel, weight and size have to agree
        one = a_set(batten={"weight": f"{2.72 * times} lb/ft", "modulus": light_metal})
        place = hung(centre=f"{abs(centre)} ft {'SL' if centre > 0 else 'SR'}")
        found = forces_of(rigged_set(one, [a_piece(weight=f"{weight * times} lb", picks=["CL"])], [place]))
        assert isinstance(found, Forces)
        return list(found.best.tensions)

    assert pulls(factor) == pytest.approx([factor * pull for pull in pulls(1)], rel=1e-9, abs=GRAIN)


@given(hang=hangs(), weight=pounds, centre=centres)
@few
def test_a_piece_more_on_one_set_changes_nothing_of_another_sets_own(
    hang: tuple[list[Map], list[Map], list[Map]], weight: int, centre: int
) -> None:
    sets, pieces, places = hang
    before = judged(a_house(*sets), pieces, places)
    place = hung("more", "1", f"{abs(centre)} ft {'SL' if centre > 0 else 'SR'}")
    after = judged(a_house(*sets), [*pieces, a_piece("more", f"{weight} lb", spread_over="10 ft")], [*places, place])
    for label in ("2", "3"):
        one, other = _one(before, label), _one(after, label)
        assert one.forces is not None
        assert other.forces is not None
        assert one.forces.best.tensions == other.forces.best.tensions
        assert (one.balance, one.stack) == (other.balance, other.stack)
        shared = ("loft beam", "head beam")
        assert [row for row in one.rows if row.link not in shared] == [
            row for row in other.rows if row.link not in shared
        ]


@given(
    weight=pounds, wrong=st.sampled_from(["shackle", "trim chain", "breaking strength", "termination"]), centre=centres
)
@few
def test_a_set_with_an_unknown_rating_is_never_within(weight: int, wrong: str, centre: int) -> None:
    place = hung(centre=f"{abs(centre)} ft {'SL' if centre > 0 else 'SR'}")
    one = a_set(lines={wrong: "unknown"})
    result = judged(a_house(one), [a_piece(weight=f"{weight} lb", spread_over="10 ft")], [place])
    assert result.verdict is not Verdict.WITHIN


@given(low=st.integers(50, 300), more=st.integers(1, 200), rating=st.integers(60, 500))
@few
def test_a_set_is_within_only_if_it_is_so_at_both_ends_of_a_weight(low: int, more: int, rating: int) -> None:
    one = a_set(loft_block={"rating": f"{rating} lb"})

    def verdict(weight: str) -> Verdict:
        row = _one(judged(a_house(one), [a_piece(weight=weight)], [hung()]), "9").row("loft block")
        assert row is not None
        return row.verdict

    ends = {verdict(f"{low} lb"), verdict(f"{low + more} lb")}
    assert (verdict(f"{low}..{low + more} lb") is Verdict.WITHIN) == (ends == {Verdict.WITHIN})


@given(purchase=purchases, lines=st.integers(2, 6), grams=st.integers(0, 400), bricks=st.integers(0, 60),
       at=st.floats(4.0, 58.0), other=st.floats(4.0, 58.0))  # fmt: skip
@few
def test_between_its_kinks_the_balance_rises_by_the_lift_lines_that_cross_sides(
    purchase: str, lines: int, grams: int, bricks: int, at: float, other: float
) -> None:
    """Common physics of a rope over a block, dΔ/dh = (1 + 1/r) n w: what the batten loses the arbor gains, over r."""
    places = [f"{6 * n + 1} ft" for n in range(lines)]
    found = rigged_set(a_set(purchase=purchase, lines={"at": places, "weight": f"{grams} g/m"}),
                       [a_piece(height="4 ft")], [hung()])  # fmt: skip
    rise = out_of_balance(found, Stack(bricks), other * FT).best - out_of_balance(found, Stack(bricks), at * FT).best
    r = 2 if purchase == "double" else 1
    rate = (1 + 1 / r) * lines * grams / 1000 * 9.80665  # [N/m]
    assert rise == pytest.approx(rate * (other - at) * FT, rel=1e-9, abs=GRAIN)


@given(weight=pounds, bricks=st.integers(0, 60), height=st.floats(4.0, 58.0))
@few
def test_the_range_of_the_balance_holds_its_best_figure(weight: int, bricks: int, height: float) -> None:
    one = rigged_set(a_set(arbor={"weight": "~64 lb"}), [a_piece(weight=f"~{weight} lb", height="12 ft")], [hung()])
    span = out_of_balance(one, Stack(bricks), height * FT)
    assert span.low <= span.best <= span.high
