"""Random ladder trusses against two general-purpose frame libraries that share nothing with ours.

Pynite (PyNiteFEA, MIT) and pystran (MIT) solve by displacements, with nodes and springs; ours solves by forces. Which
lines carry is judged by the library's own pulls and gaps: none pushes and none is stretched while slack, and that
choice is the only one (complementary energy is strictly convex, any text on contact problems).
"""

import pytest

from counterpoise.statics import HangingLadder, hang_ladder
from tests.ladders import Solved, Truss, by_pynite, by_pystran, marks, random_ladder


def hanging(count: int, first: int) -> list[tuple[Truss, HangingLadder]]:
    found: list[tuple[Truss, HangingLadder]] = []
    seed = first
    while len(found) < count:
        truss = random_ladder(seed)
        answer = hang_ladder(*truss)
        if isinstance(answer, HangingLadder):
            found.append((truss, answer))
        seed += 1
    return found


def compare(truss: Truss, answer: HangingLadder, peer: Solved, xs: list[float]) -> None:
    weight = answer.weight
    drop = max(map(abs, [*peer.drops_top, *peer.drops_bottom]))
    assert answer.gaps == pytest.approx(peer.gaps, abs=1e-6 * drop)
    assert min(peer.gaps) >= -1e-6 * drop
    for x, top, bottom in zip(xs, peer.drops_top, peer.drops_bottom, strict=True):
        assert answer.top.deflection(x) == pytest.approx(top, abs=1e-6 * drop)
        assert answer.bottom.deflection(x) == pytest.approx(bottom, abs=1e-6 * drop)
    bent = max(abs(end) for one in peer.spacers for end in one[1:])
    for ours, (axial, foot, head) in zip(answer.spacers, peer.spacers, strict=True):
        assert ours.axial == pytest.approx(axial, abs=1e-6 * weight)
        assert (abs(ours.foot), abs(ours.head)) == pytest.approx((foot, head), abs=1e-6 * bent)


def test_a_frame_library_finds_the_same_pulls_slack_drops_and_forces_in_every_bar() -> None:
    slack = 0
    for truss, answer in hanging(25, first=0):
        peer, xs = by_pynite(truss, answer.carrying), marks(truss, loads=False)
        assert answer.tensions == pytest.approx(peer.pulls, abs=1e-6 * answer.weight)
        compare(truss, answer, peer, xs)
        bent = max(abs(end) for one in peer.chords for end in one[1:])
        cells = len(xs) - 1
        for k, (axial, start, end) in enumerate(peer.chords):
            chord = answer.top if k < cells else answer.bottom
            a, b = xs[k % cells], xs[k % cells + 1]
            near = 1e-9 * (b - a)  # at a spacer the moment steps
            assert chord.axial(0.5 * (a + b)) == pytest.approx(axial, abs=1e-6 * max(answer.weight, abs(axial)))
            assert chord.moment(a + near) == pytest.approx(start, abs=2e-6 * bent)
            assert chord.moment(b - near) == pytest.approx(end, abs=2e-6 * bent)
        slack += len(answer.carrying) < len(answer.tensions)
    assert slack >= 8  # or this would not be about slack lines


def test_a_second_frame_library_finds_the_same_drops_and_spacers() -> None:
    for truss, answer in hanging(15, first=1_000):
        compare(truss, answer, by_pystran(truss, answer.carrying), marks(truss, loads=True))


def test_a_frame_library_finds_the_same_forces_at_the_ends_of_every_bar() -> None:
    looked = 0
    for truss, answer in hanging(25, first=0):
        peer, xs = by_pynite(truss, answer.carrying), marks(truss, loads=False)
        bent = max(abs(end) for one in peer.chords for end in one[1:])
        names = [(part, k) for part in ("top", "bottom") for k in range(len(xs) - 1)]
        cells = dict(zip(names, peer.chords, strict=True))
        chords = [one for one in answer.end_forces if one.part != "spacer"]
        for one in chords:  # between two spacers the library may have several members, split at lines
            first = cells[one.part, xs.index(one.start)]
            last = cells[one.part, xs.index(one.end) - 1]
            assert one.axial == pytest.approx(first[0], abs=1e-6 * max(answer.weight, abs(first[0])))
            assert (one.moment_start, one.moment_end) == pytest.approx((first[1], last[2]), abs=2e-6 * bent)
            looked += 1
        spacers = [one for one in answer.end_forces if one.part == "spacer"]
        for one, (axial, foot, head) in zip(spacers, peer.spacers, strict=True):
            assert one.axial == pytest.approx(axial, abs=1e-6 * answer.weight)
            assert (abs(one.moment_start), abs(one.moment_end)) == pytest.approx((foot, head), abs=2e-6 * bent)
    assert looked > 300
