"""Laws of the couple on the guides: equilibrium of moments and nothing else."""

from dataclasses import astuple

import pytest
from hypothesis import given
from hypothesis.strategies import SearchStrategy, builds, floats

from counterpoise.balance import Span, on_shoe


def _between(low: float, high: float) -> SearchStrategy[Span]:
    """A figure known within a range."""
    each = floats(low, high)
    return builds(lambda *three: Span(*sorted(three)), each, each, each)


LOADS, ASIDE, PULLS, TIED, APART = (_between(0, 1e4), _between(0, 0.2), _between(0, 1e3), _between(0, 0.5),
                                    _between(0.3, 5.0))  # fmt: skip


def _times(factor: float, one: Span) -> Span:
    return Span(*(factor * each for each in astuple(one)))


def _near(one: Span) -> object:
    return pytest.approx(astuple(one), rel=1e-9, abs=1e-9)


@given(load=LOADS, aside=ASIDE, pull=PULLS, tied=TIED, apart=APART)
def test_both_shoes_together_turn_it_back_as_much_as_load_and_hand_line_turn_it(
    load: Span, aside: Span, pull: Span, tied: Span, apart: Span
) -> None:
    found = on_shoe(load, aside, pull, tied, apart)
    assert found.best * apart.best == pytest.approx(load.best * aside.best + pull.best * tied.best, abs=1e-9)
    assert found.low <= found.best * (1 + 1e-12) <= found.high * (1 + 1e-11)


@given(load=LOADS, aside=ASIDE, pull=PULLS, tied=TIED, apart=APART, factor=floats(0.1, 10.0))
def test_twice_as_far_aside_bears_twice_and_shoes_twice_as_far_apart_bear_half(
    load: Span, aside: Span, pull: Span, tied: Span, apart: Span, factor: float
) -> None:
    found = on_shoe(load, aside, pull, tied, apart)
    farther = on_shoe(load, _times(factor, aside), pull, _times(factor, tied), apart)
    assert astuple(farther) == _near(_times(factor, found))
    assert astuple(on_shoe(load, aside, pull, tied, _times(factor, apart))) == _near(_times(1 / factor, found))


@given(load=LOADS, aside=ASIDE, pull=PULLS, tied=TIED, apart=APART)
def test_load_and_hand_line_add_up_and_either_alone_is_no_more(
    load: Span, aside: Span, pull: Span, tied: Span, apart: Span
) -> None:
    none = Span(0.0, 0.0, 0.0)
    first, second = on_shoe(load, aside, none, none, apart), on_shoe(none, none, pull, tied, apart)
    both = on_shoe(load, aside, pull, tied, apart)
    assert astuple(both) == _near(Span(*(a + b for a, b in zip(astuple(first), astuple(second), strict=True))))


@given(load=LOADS, aside=ASIDE, pull=PULLS, tied=TIED, apart=APART)
def test_load_and_hand_line_that_change_places_bear_the_same(
    load: Span, aside: Span, pull: Span, tied: Span, apart: Span
) -> None:
    assert astuple(on_shoe(load, aside, pull, tied, apart)) == _near(on_shoe(pull, tied, load, aside, apart))
