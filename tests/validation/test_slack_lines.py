"""Which lines carry, on crowded battens: every answer judged in fifty digits.

Rule of judgement: a choice without a line that pushes and without a slack line that is stretched is the true one, and
pulls have only one true set, since the complementary energy is strictly convex (any text on contact problems). Where
two choices tie (a line at exactly nothing, unstretched) both are right.
"""

from dataclasses import replace
from itertools import combinations

import pytest

from counterpoise.statics import Hanging, PointLoad, Tips, hang
from tests.battens import Batten
from tests.crowded import crowded
from tests.fifty import Exact, mp, solve

ROUND = 1e-12  # of the greatest pull, of the greatest drop: a tie


def violation(batten: Batten, found: Exact) -> float:
    """How far a choice pushes or stretches a line that it must not; 0 or less is none."""
    pull = max(map(abs, found.pulls))
    drop = max(*(abs(found.drop(float(c.x + c.h / 2))) for c in found.cells), *(abs(n.offset) for n in batten[1]))
    return float(max(-min(found.pulls) / pull, -min(found.gaps) / drop))


def centre(batten: Batten) -> float:
    weight = first = mp.mpf(0)
    for load in batten[2]:
        weight += load.force
        first += load.force * (mp.mpf(load.x) if isinstance(load, PointLoad) else (mp.mpf(load.start) + load.end) / 2)
    return float(first / weight)


@pytest.mark.parametrize("block", range(4))
def test_every_crowded_batten_hangs_on_the_true_lines(block: int) -> None:
    looked = slack = 0
    for seed in range(400 * block, 400 * (block + 1)):
        batten = crowded(seed)
        answer = hang(*batten)
        if isinstance(answer, Tips):
            assert not batten[1][0].x <= centre(batten) <= batten[1][-1].x, seed
            continue
        found = solve(*batten, answer.carrying)
        assert violation(batten, found) <= ROUND, seed
        scale = max(found.pulls)
        assert max(abs(a - b) for a, b in zip(answer.tensions, found.pulls, strict=True)) < 1e-10 * scale, seed
        looked += 1
        slack += len(answer.carrying) < len(answer.tensions)
    assert looked > 250
    assert slack > 200


def test_of_all_choices_of_lines_one_stands_and_it_is_ours() -> None:
    # every choice tried in fifty digits, up to eight lines: there is no second answer that we might have missed
    sizes: list[int] = []
    for seed in range(2_000, 2_070):
        batten = crowded(seed)
        answer = hang(*batten)
        if not isinstance(answer, Hanging) or (len(batten[1]) > 6 and len([s for s in sizes if s > 6]) >= 4):
            continue
        every = range(len(batten[1]))
        standing = [
            carrying
            for size in range(2, len(every) + 1)
            for carrying in combinations(every, size)
            if violation(batten, solve(*batten, carrying)) <= ROUND
        ]
        assert standing == [answer.carrying], seed
        sizes.append(len(every))
    assert len(sizes) > 20
    assert max(sizes) == 8


def test_lines_hardly_more_than_a_rope_apart_hang_and_rightly() -> None:
    # lines nearer than a rope is thick are refused; from there on each answer is right, and none is kept back
    looked = 0
    for seed in range(200):
        beam, lines, loads = crowded(seed)
        near = [lines[0], *(replace(line, x=lines[0].x + 0.0051 * k) for k, line in enumerate(lines[1:3], start=1))]
        far = [line for line in lines[3:] if line.x > near[-1].x + 0.0051]
        batten = (beam, [*near, *far], loads)
        answer = hang(*batten) if near[-1].x <= beam.length else None
        if not isinstance(answer, Hanging):
            continue
        found = solve(*batten, answer.carrying)
        scale = max(found.pulls)
        assert violation(batten, found) <= ROUND, seed
        assert max(abs(a - b) for a, b in zip(answer.tensions, found.pulls, strict=True)) < 1e-9 * scale, seed
        looked += 1
    assert looked > 50
