import numpy as np
import pytest

from counterpoise.errors import OutOfRange
from counterpoise.statics import Beam, Hanging, Line, Load, PointLoad, Segment, SpreadLoad, Tips, hang
from counterpoise.statics.chances import Chances, percentiles
from counterpoise.statics.doubts import Doubt, at_factors, trimmed, weighing
from counterpoise.statics.ranges import Extremes, extremes

EI, L, W = 25_000.0, 3.0, 100.0
BEAM = Beam(length=2 * L, segments=(Segment(start=0.0, end=2 * L, stiffness=EI),))
LINES = [Line(x=0.0), Line(x=L), Line(x=2 * L)]
PIPE: list[Load] = [SpreadLoad(start=0.0, end=2 * L, per_length=W)]


def drawn(doubts: list[Doubt] | tuple[Doubt, ...], draws: int = 20_000, **more: object) -> Chances:
    generator = np.random.default_rng(7)
    found = percentiles(BEAM, LINES, PIPE, doubts, draws=draws, generator=generator, **more)  # type: ignore[arg-type]
    assert isinstance(found, Chances)
    return found


def test_one_trim_drawn_evenly_gives_the_percentiles_of_a_straight_line() -> None:
    # Kassimali, eq. D.10: the middle pull is 10/8 w l - 6 EI d / l3, so its percentiles are those of d, mirrored
    t = 0.001
    found = drawn([Doubt(low=-t, high=t, offsets=(0.0, 1.0, 0.0))], shares=(0.05, 0.5, 0.95))
    for percentile in found.percentiles[1]:
        true = 10 / 8 * W * L + 6 * EI / L**3 * t * (2 * percentile.share - 1)
        assert percentile.low <= true <= percentile.high
        assert percentile.high - percentile.low < 0.05 * 2 * 6 * EI / L**3 * t
    assert found.words == "of 20000 draws"
    assert found.choices == 1


def test_bell_trims_of_every_line_add_up_as_variances() -> None:
    # the middle pull moves by 6 EI / l3 (-d2 + d1/2 + d3/2), each d normal with a quarter of the width: the variances
    # add (any text on probability); 0.8413 of a bell lies below one standard deviation
    t = 0.001
    found = drawn(trimmed(LINES, t), draws=100_000, scatter="bell", shares=(0.5, 0.841344746))
    one = 6 * EI / L**3 * (t / 2) * (1 + 0.25 + 0.25) ** 0.5
    middle, upper = found.percentiles[1]
    assert middle.low <= 10 / 8 * W * L <= middle.high
    assert upper.low <= 10 / 8 * W * L + one <= upper.high


def test_every_draw_is_the_answer_for_its_own_trims_and_weights() -> None:
    doubts = [*trimmed(LINES, 0.06), weighing([PointLoad(x=1.0, force=200.0)], 0.2, 1.5)]
    draws = 300
    found = drawn(doubts, draws=draws, shares=[(k + 0.5) / draws for k in range(draws)])
    places = np.random.default_rng(7)
    columns = [places.random(draws) for _ in doubts]  # the same chances in the same order
    pulls = []
    for k in range(draws):
        factors = [d.low + float(u[k]) * (d.high - d.low) for d, u in zip(doubts, columns, strict=True)]
        hung = hang(BEAM, *at_factors(LINES, PIPE, doubts, factors))
        assert isinstance(hung, Hanging)
        pulls.append(hung.tensions)
    assert found.choices > 2
    for i in range(3):
        mine = sorted(pull[i] for pull in pulls)
        assert [p.value for p in found.percentiles[i]] == pytest.approx(mine, abs=1e-7)
        assert found.slack[i] == pytest.approx(sum(pull[i] == 0.0 for pull in pulls) / draws)


def test_trims_alone_pull_as_each_of_them_does() -> None:
    draws, tolerance = 300, 0.05
    found = drawn(trimmed(LINES, tolerance), draws, shares=[(k + 0.5) / draws for k in range(draws)])
    places = np.random.default_rng(7)
    columns = [places.random(draws) for _ in LINES]
    pulls = []
    for k in range(draws):
        lines = [Line(x=n.x, offset=tolerance * (2 * float(u[k]) - 1)) for n, u in zip(LINES, columns, strict=True)]
        hung = hang(BEAM, lines, PIPE)
        assert isinstance(hung, Hanging)
        pulls.append(hung.tensions)
    assert found.choices == 3  # all; the outer two; or the middle one, with a neighbour that just holds the balance
    for i in range(3):
        assert [p.value for p in found.percentiles[i]] == pytest.approx(sorted(p[i] for p in pulls), abs=1e-7)


def test_the_same_seed_gives_the_same_answer_and_another_seed_another() -> None:
    doubts = trimmed(LINES, 0.005)
    assert drawn(doubts, 500) == drawn(doubts, 500)
    other = percentiles(BEAM, LINES, PIPE, doubts, draws=500, generator=np.random.default_rng(8))
    assert other != drawn(doubts, 500)


def test_no_percentile_lies_beyond_the_proven_extremes() -> None:
    doubts = [*trimmed(LINES, 0.01), weighing([PointLoad(x=1.0, force=200.0)], 0.2, 1.5)]
    proven = extremes(BEAM, LINES, PIPE, doubts)
    assert isinstance(proven, Extremes)
    found = drawn(doubts, shares=(1e-6, 0.5, 1 - 1e-6))
    for percentile, low, high in zip(found.percentiles, proven.low, proven.high, strict=True):
        assert low.value - 1e-6 <= percentile[0].value
        assert percentile[-1].value <= high.value + 1e-6


def test_the_band_of_a_percentile_narrows_with_the_root_of_the_draws() -> None:
    doubts = trimmed(LINES, 0.001)
    few, many = (drawn(doubts, draws, shares=(0.5,)).percentiles[1][0] for draws in (1_000, 100_000))
    assert (many.high - many.low) / (few.high - few.low) == pytest.approx(0.1, rel=0.35)


def test_draws_that_tip_are_counted_apart() -> None:
    lines = [Line(x=1.0), Line(x=3.0), Line(x=5.0)]
    tip = weighing([PointLoad(x=6.0, force=1000.0)], 0.0, 2.4)  # tips beyond 1.2: see the extremes
    generator = np.random.default_rng(3)
    found = percentiles(BEAM, lines, PIPE, [tip], draws=10_000, generator=generator)
    assert isinstance(found, Chances)
    assert found.tipped / found.draws == pytest.approx(0.5, abs=0.02)
    every = weighing([PointLoad(x=6.0, force=1000.0)], 2.0, 2.4)
    assert isinstance(percentiles(BEAM, lines, PIPE, [every], draws=100, generator=generator), Tips)


def test_a_bell_weight_stops_at_nothing() -> None:
    doubt = weighing([PointLoad(x=3.0, force=100.0)], 0.0, 1.0)
    found = drawn([doubt], 5_000, scatter="bell", shares=(0.001,), rows=[(1.0, 1.0, 1.0)])
    assert found.percentiles[0][0].value == pytest.approx(2 * W * L)  # the pipe alone


@pytest.mark.parametrize(("draws", "share"), [(10, 0.5), (1000, 0.0), (1000, 1.0)])
def test_draws_and_shares_that_say_nothing_are_refused(draws: int, share: float) -> None:
    with pytest.raises(OutOfRange):
        drawn(trimmed(LINES, 0.001), draws, shares=(share,))
