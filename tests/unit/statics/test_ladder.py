"""Ladder trusses. Expected numbers are equilibrium by hand unless a source is named."""

import math
import pickle
from dataclasses import replace
from typing import Any

import pytest

from counterpoise.errors import OutOfRange
from counterpoise.statics import (
    Bar,
    Beam,
    ChordLoads,
    Hanger,
    Hanging,
    HangingLadder,
    Ladder,
    Line,
    Load,
    PointLoad,
    Section,
    Segment,
    SpreadLoad,
    Tips,
    Unproven,
    hang,
    hang_ladder,
    own_weight,
    pipe,
)
from counterpoise.statics.condensed import Condensed
from counterpoise.statics.frame_ends import end_forces

PIPE = Bar(section=pipe(0.0483, 0.0037), modulus=200e9)
LENGTH = 9.0
TRUSS = Ladder(
    length=LENGTH, depth=0.45, spacers=tuple(float(x) for x in range(10)), top=PIPE, bottom=PIPE, spacer=PIPE
)
OWN = own_weight(TRUSS, top=40.0, bottom=40.0, spacer=15.0)


def with_pieces(*pieces: Load) -> ChordLoads:
    return ChordLoads(bottom=(*OWN.bottom, *pieces), top=OWN.top)


def at_rest(ladder: Ladder, lines: list[Line], loads: ChordLoads) -> HangingLadder:
    answer = hang_ladder(ladder, lines, loads)
    assert isinstance(answer, HangingLadder)
    return answer


def stiff(inertia: float) -> Bar:
    """A bar that only bends."""
    return Bar(
        section=Section(area=1.0e3, second_moment=inertia, elastic_modulus=1.0, plastic_modulus=1.0), modulus=1e9
    )


def test_its_own_weight_is_chords_and_spacers() -> None:
    assert OWN.weight == pytest.approx(2 * 40 * 9 + 10 * 15)
    assert OWN.first / OWN.weight == pytest.approx(4.5)


def test_two_lines_share_by_the_lever() -> None:
    found = at_rest(TRUSS, [Line(x=1.5), Line(x=7.5)], with_pieces(PointLoad(x=3.0, force=800.0)))
    assert found.tensions == pytest.approx([435 + 600, 435 + 200])


def test_a_truss_whose_load_lies_beyond_the_outer_line_tips() -> None:
    answer = hang_ladder(TRUSS, [Line(x=3.0), Line(x=7.5)], with_pieces(PointLoad(x=0.0, force=900.0)))
    assert isinstance(answer, Tips)


@pytest.mark.parametrize("k", [0.2, 1.0, 4.0])
def test_one_bay_is_the_closed_rectangular_frame_of_the_handbooks(k: float) -> None:
    # Kleinlogel, Rahmenformeln, closed rectangular frame under a uniform load on one beam, from memory and rederived
    # by slope and deflection: with k = (I beam / I post) (h / l),
    # moments at the corners q l2/12 (2k + 3)/(k2 + 4k + 3) on the loaded beam, stretched on the inside as the load
    # pulls outward, and q l2/12 k/(k2 + 4k + 3) on the other, stretched on the outside: both beams hog there.
    length, depth, q = 2.0, 0.5, 100.0
    beam, post = stiff(1e-6), stiff(1e-6 * depth / (length * k))
    ring = Ladder(length=length, depth=depth, spacers=(0.0, length), top=beam, bottom=beam, spacer=post)
    loads = ChordLoads(bottom=(SpreadLoad(start=0.0, end=length, per_length=q),))
    found = at_rest(ring, [Line(x=0.0), Line(x=length)], loads)
    fixed = q * length**2 / 12
    whole = k * k + 4 * k + 3
    top, bottom = found.members[:2]
    assert bottom.moment_start == pytest.approx(-fixed * (2 * k + 3) / whole, rel=1e-6)
    assert bottom.moment_end == pytest.approx(bottom.moment_start)
    assert bottom.moment_high == pytest.approx(q * length**2 / 8 + bottom.moment_start)
    assert top.moment_start == pytest.approx(-fixed * k / whole, rel=1e-6)


def test_with_very_stiff_spacers_each_chord_takes_half_the_shear_with_its_bend_in_mid_bay() -> None:
    # The portal method for Vierendeel girders (any text on structural analysis) is exact for rigid spacers and loads
    # at joints only: chord end moments V l / 4, spacer moments from the two chords beside it.
    chord = stiff(1e-6)
    ladder = Ladder(
        length=6.0, depth=0.5, spacers=tuple(float(x) for x in range(7)), top=chord, bottom=chord, spacer=stiff(1.0)
    )
    found = at_rest(ladder, [Line(x=0.0), Line(x=6.0)], ChordLoads(bottom=(PointLoad(x=3.0, force=600.0),)))
    shear = 300.0
    for part in found.members[:3]:
        assert (part.moment_start, part.moment_end) == pytest.approx((-shear / 4, shear / 4), rel=1e-4)
    # the moment that the chords do not take is a pull and a push in them: M = V x less both chords, over the depth
    middle = found.members[2]  # top chord from 2 to 3 m: M at 2.5 m is 750 N m, and no chord bends there
    assert middle.axial == pytest.approx(-750.0 / 0.5, rel=1e-4)


def test_a_ladder_is_far_softer_than_one_deep_beam_and_shares_otherwise() -> None:
    lines = [Line(x=x, flexibility=2e-6) for x in (0.0, 3.0, 6.0, 9.0)]
    loads = with_pieces(PointLoad(x=1.5, force=2000.0))
    ladder = at_rest(TRUSS, lines, loads)
    section = PIPE.section
    deep = 2 * PIPE.modulus * (section.second_moment + section.area * (TRUSS.depth / 2) ** 2)  # both chords, no slip
    beam = Beam(length=LENGTH, segments=(Segment(start=0.0, end=LENGTH, stiffness=deep),))
    one = hang(beam, lines, [*loads.bottom, *loads.top])
    assert isinstance(one, Hanging)
    sag = max(abs(sag) for _, _, sag, _ in ladder.bottom.largest_sags)
    assert sag > 5 * max(abs(sag) for _, _, sag, _ in one.largest_sags)
    apart = max(abs(a - b) for a, b in zip(ladder.tensions, one.tensions, strict=True))
    assert apart > 0.03 * ladder.weight


def test_a_ladder_of_two_loose_chords_is_two_battens() -> None:
    # Spacers that bend like string join the drops of the chords and nothing else: EI adds up.
    string = Bar(
        section=Section(area=1.0e3, second_moment=1e-12, elastic_modulus=1.0, plastic_modulus=1.0), modulus=200e9
    )
    loose = replace(TRUSS, spacer=string)
    lines = [Line(x=1.0), Line(x=4.0), Line(x=8.0)]
    loads = ChordLoads(
        bottom=tuple(PointLoad(x=float(x), force=100.0 + 10 * x) for x in range(10)),
    )
    found = at_rest(loose, lines, loads)
    beam = Beam(length=LENGTH, segments=(Segment(start=0.0, end=LENGTH, stiffness=2 * PIPE.bending),))
    both = hang(beam, lines, list(loads.bottom))
    assert isinstance(both, Hanging)
    assert found.tensions == pytest.approx(both.tensions, rel=1e-4)
    assert found.top.deflection(2.0) == pytest.approx(both.deflection(2.0), rel=1e-3)


def test_local_bending_between_spacers_is_found_at_the_load() -> None:
    loads = with_pieces(PointLoad(x=4.4, force=500.0))
    found = at_rest(TRUSS, [Line(x=1.0), Line(x=8.0)], loads)
    bay = next(one for one in found.members if one.part == "bottom" and one.start == 4.0)
    sampled = [found.bottom.moment(4.0 + 1e-9 + k / 1000 * (1 - 2e-9)) for k in range(1001)]
    assert bay.moment_high == pytest.approx(max(sampled), rel=1e-9)
    assert bay.moment_high == pytest.approx(found.bottom.moment(4.4))
    assert bay.moment_low <= min(sampled) + 1e-6
    assert bay.stress == pytest.approx(PIPE.stress(bay.axial, bay.moment))


def test_the_same_load_on_the_top_chord_bends_the_bottom_chord_less() -> None:
    lines, load = [Line(x=1.0), Line(x=8.0)], PointLoad(x=4.5, force=500.0)
    below = at_rest(TRUSS, lines, with_pieces(load))
    above = at_rest(TRUSS, lines, ChordLoads(bottom=OWN.bottom, top=(*OWN.top, load)))
    assert above.tensions == pytest.approx(below.tensions)
    assert above.bottom.moment(4.5) < below.bottom.moment(4.5) - 50


def test_the_chords_push_and_pull_alike_and_every_joint_is_in_balance() -> None:
    found = at_rest(TRUSS, [Line(x=0.5), Line(x=4.2), Line(x=8.5)], with_pieces(PointLoad(x=2.3, force=700.0)))
    tops = [one for one in found.members if one.part == "top"]
    bottoms = [one for one in found.members if one.part == "bottom"]
    spacers = [one for one in found.members if one.part == "spacer"]
    for k in range(9):
        assert tops[k].axial == pytest.approx(-bottoms[k].axial)
    for k in range(1, 9):
        # bottom joint: along, down (half the spacer's weight hangs there) and turning
        assert spacers[k].shear_start == pytest.approx(bottoms[k].axial - bottoms[k - 1].axial, abs=1e-9)
        hung = 7.5 + bottoms[k].shear_start - bottoms[k - 1].shear_end
        assert spacers[k].axial == pytest.approx(hung, abs=1e-9)
        turning = bottoms[k].moment_start - bottoms[k - 1].moment_end
        assert spacers[k].moment_start == pytest.approx(turning, abs=1e-9)
        turning = tops[k].moment_start - tops[k - 1].moment_end
        assert spacers[k].moment_end == pytest.approx(-turning, abs=1e-9)


def test_sag_and_tip_drops_of_both_chords_are_told() -> None:
    found = at_rest(TRUSS, [Line(x=2.0), Line(x=7.0)], with_pieces(PointLoad(x=0.0, force=200.0)))
    for chord in (found.top, found.bottom):
        ((start, end, sag, at),) = chord.largest_sags
        assert (start, end) == (2.0, 7.0)
        share = (at - start) / (end - start)
        line = (1 - share) * chord.deflection(start) + share * chord.deflection(end)
        assert sag == pytest.approx(chord.deflection(at) - line)
        assert chord.tip_drops[0] == pytest.approx(chord.deflection(0.0) - chord.deflection(2.0))
        assert chord.tip_drops[0] > chord.tip_drops[1]
    stretch = found.spacers[2].axial * TRUSS.depth / PIPE.stretching
    assert found.bottom.deflection(2.0) - found.top.deflection(2.0) == pytest.approx(stretch, rel=1e-6)


def test_a_stiff_truss_with_one_line_too_short_hangs_on_few_lines() -> None:
    lines = [Line(x=float(x), flexibility=3e-6) for x in (0, 3, 6, 9)]
    even = at_rest(TRUSS, lines, OWN)
    assert even.carrying == (0, 1, 2, 3)
    lines[1] = replace(lines[1], offset=-0.02)
    short = at_rest(TRUSS, lines, OWN)
    assert len(short.carrying) < 4
    assert short.tensions[1] > 1.5 * even.tensions[1]
    assert all(gap > 0 for i, gap in enumerate(short.gaps) if i not in short.carrying)


def test_a_hanger_made_once_serves_other_trims_and_loads() -> None:
    lines = [Line(x=1.0, flexibility=1e-6), Line(x=4.5, flexibility=1e-6), Line(x=8.0, flexibility=1e-6)]
    hanger = Hanger(TRUSS, [line.x for line in lines])
    for offset in (-0.01, 0.0, 0.002):
        trimmed = [lines[0], replace(lines[1], offset=offset), lines[2]]
        again, fresh = hanger.hang(trimmed, OWN), hang_ladder(TRUSS, trimmed, OWN)
        assert again == fresh
    with pytest.raises(OutOfRange, match="x of line 2"):
        hanger.hang([lines[0], Line(x=5.0), lines[2]], OWN)
    with pytest.raises(OutOfRange, match="number of lines"):
        hanger.hang(lines[:2], OWN)


def test_an_answer_may_be_sent_to_another_process_before_its_shape_is_asked_for() -> None:
    found = at_rest(TRUSS, [Line(x=1.0), Line(x=8.0)], OWN)
    sent = pickle.loads(pickle.dumps(found))
    assert sent == found
    assert sent.members == found.members


def test_a_spacer_and_a_line_apart_by_rounding_are_at_one_place() -> None:
    lines = [Line(x=1.0 + 1e-12), Line(x=5.0 - 1e-13), Line(x=8.0)]
    found = at_rest(TRUSS, lines, OWN)
    even = at_rest(TRUSS, [Line(x=1.0), Line(x=5.0), Line(x=8.0)], OWN)
    assert found.tensions == pytest.approx(even.tensions, rel=1e-9)


def test_free_chord_ends_beyond_the_last_spacers_carry_loads_and_lines() -> None:
    short = replace(TRUSS, spacers=(1.0, 2.0, 3.0, 4.0, 5.0, 6.0, 7.0, 8.0))
    loads = ChordLoads(bottom=(PointLoad(x=0.0, force=100.0), PointLoad(x=9.0, force=100.0)), top=OWN.top)
    found = at_rest(short, [Line(x=0.5), Line(x=8.5)], loads)
    assert found.bottom.moment(0.5) == pytest.approx(-50.0)
    assert found.bottom.axial(0.5) == 0.0
    first = next(one for one in found.members if one.part == "bottom")
    assert (first.start, first.end, first.moment_end) == pytest.approx((0.0, 1.0, -100.0))


@pytest.mark.parametrize(
    ("change", "name"),
    [
        ({"spacers": (1.0,)}, "number of spacers"),
        ({"spacers": (1.0, 1.0)}, "x of spacer 2"),
        ({"spacers": (1.0, 9.5)}, "x of spacer 2"),
        ({"spacers": (-1.0, 5.0)}, "x of spacer 1"),
        ({"depth": 0.0}, "depth"),
        ({"length": math.nan}, "length"),
    ],
)
def test_a_ladder_that_cannot_be_is_refused(change: dict[str, object], name: str) -> None:
    with pytest.raises(OutOfRange, match=name):
        replace(TRUSS, **change)  # type: ignore[arg-type]


@pytest.mark.parametrize(
    ("lines", "pieces", "name"),
    [
        ([Line(x=1.0)], (), "number of lines"),
        ([Line(x=1.0), Line(x=1.0)], (), "x of line 2"),
        ([Line(x=1.0), Line(x=9.1)], (), "x of line 2"),
        ([Line(x=1.0), Line(x=8.0)], (PointLoad(x=9.1, force=1.0),), "load start"),
    ],
)
def test_lines_and_loads_off_the_truss_are_refused(lines: list[Line], pieces: tuple[Load, ...], name: str) -> None:
    with pytest.raises(OutOfRange, match=name):
        hang_ladder(TRUSS, lines, with_pieces(*pieces))


def test_a_truss_that_weighs_nothing_is_refused() -> None:
    with pytest.raises(OutOfRange, match="total load"):
        hang_ladder(TRUSS, [Line(x=1.0), Line(x=8.0)], ChordLoads())


@pytest.mark.parametrize(
    ("change", "law"),
    [
        ({"tensions": [1.0, 0.0, 0.0]}, "equilibrium of the truss"),
        ({"moments": [0.0, 50.0, 0.0]}, "equilibrium of the truss"),
    ],
)
def test_forces_at_the_ends_that_do_not_bear_out_the_pulls_are_refused(change: dict[str, Any], law: str) -> None:
    lines = [Line(x=1.0), Line(x=4.5), Line(x=8.0)]
    hanger = Hanger(TRUSS, [line.x for line in lines])
    loaded = hanger.condensed.loaded(OWN)
    found = hanger.borne(lines, loaded)
    assert found is not None
    assert end_forces(hanger.condensed, loaded, found[0])
    with pytest.raises(Unproven, match=law):
        end_forces(hanger.condensed, loaded, found[0]._replace(**change))


def test_a_ring_that_does_not_close_is_refused(monkeypatch: pytest.MonkeyPatch) -> None:
    lines = [Line(x=1.0), Line(x=4.5), Line(x=8.0)]
    found = at_rest(TRUSS, lines, with_pieces(PointLoad(x=2.3, force=700.0)))
    right = Condensed.rings_of
    monkeypatch.setattr(Condensed, "rings_of", lambda *given: [force * (1 + 1e-6) for force in right(*given)])
    with pytest.raises(Unproven, match="a ring that closes"):
        _ = found.end_forces
