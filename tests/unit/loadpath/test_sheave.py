"""Bending efficiency of a wire rope over a sheave, against the common table of it (wire rope users' manuals)."""

from __future__ import annotations

import pytest

from counterpoise.loadpath import bending_efficiency


@pytest.mark.parametrize(("ratio", "share"), [(40, 0.95), (20, 0.91), (10, 0.86), (1, 0.50)])
def test_a_rope_keeps_the_share_of_its_strength_that_the_table_prints(ratio: float, share: float) -> None:
    assert bending_efficiency(ratio) == pytest.approx(share)


# An 8 in sheave on 1/4 in rope: 32, three fifths of the way from 20 to 40.
def test_between_two_rows_of_the_table_it_is_as_far_between_their_shares() -> None:
    assert bending_efficiency(32) == pytest.approx(0.91 + 0.6 * 0.04)


def test_a_larger_sheave_never_leaves_less() -> None:
    shares = [bending_efficiency(ratio / 4) for ratio in range(240)]
    assert shares == sorted(shares)
    assert bending_efficiency(1000) == pytest.approx(0.95)
    assert shares[0] == 0.0
