"""Laws that hold for every batten on lines that only pull.

Sources: equilibrium, and the Maxwell-Betti theorem of reciprocal displacements (any text on structural analysis); the
mirror and scale laws follow from the equations being blind to direction and linear within one set of slack lines.
"""

import math
from random import Random

import pytest
from hypothesis import assume, given
from hypothesis.strategies import floats, integers

from counterpoise.statics import (
    Beam,
    Hanging,
    Limits,
    Line,
    Load,
    PointLoad,
    Row,
    Segment,
    Splice,
    SpreadLoad,
    Strength,
    StrengthSegment,
    Tips,
    follow,
    greatest_shear,
    hang,
    response,
    room_left,
    segment_stresses,
    splice_moments,
)
from counterpoise.statics.model import set_at
from tests.battens import adversarial

seeds = integers(0, 10**9)
shares = floats(0.0, 1.0)
margins = floats(1.001, 3.0)  # at exactly 1 the limit is met already, to rounding


def at_rest(seed: int) -> tuple[Beam, list[Line], list[Load], Hanging]:
    beam, lines, loads = adversarial(seed)
    answer = hang(beam, lines, loads)
    assume(isinstance(answer, Hanging))
    assert isinstance(answer, Hanging)
    return beam, lines, loads, answer


def weigh(loads: list[Load]) -> tuple[float, float]:
    weight = sum(load.force for load in loads)
    first = sum(load.force * (load.x if isinstance(load, PointLoad) else (load.start + load.end) / 2) for load in loads)
    return weight, first


@given(seeds)
def test_the_lines_together_carry_everything_about_its_centre(seed: int) -> None:
    beam, lines, loads, answer = at_rest(seed)
    weight, first = weigh(loads)
    assert sum(answer.tensions) == pytest.approx(weight, rel=1e-11)
    lever = sum(t * line.x for t, line in zip(answer.tensions, lines, strict=True))
    assert lever == pytest.approx(first, abs=1e-11 * weight * beam.length)


@given(seeds)
def test_a_line_pulls_where_the_batten_stretches_it_and_only_there(seed: int) -> None:
    _, lines, loads, answer = at_rest(seed)
    weight = weigh(loads)[0]
    scale = max(0.01, *(abs(answer.deflection(line.x)) for line in lines))
    for line, pull, gap in zip(lines, answer.tensions, answer.gaps, strict=True):
        assert pull >= 0.0
        assert gap >= 0.0
        assert min(pull / weight, gap) == 0.0
        level = line.offset + line.flexibility * pull - gap
        assert answer.deflection(line.x) == pytest.approx(level, abs=1e-9 * scale)


@given(seeds, shares)
def test_moment_and_shear_are_those_of_the_forces_to_the_stage_right(seed: int, share: float) -> None:
    beam, lines, loads, answer = at_rest(seed)
    x = share * beam.length
    moment = sum(t * max(0.0, x - line.x) for t, line in zip(answer.tensions, lines, strict=True))
    for load in loads:
        if isinstance(load, PointLoad):
            moment -= load.force * max(0.0, x - load.x)
        else:
            moment -= 0.5 * load.per_length * (max(0.0, x - load.start) ** 2 - max(0.0, x - load.end) ** 2)
    assert answer.moment(x) == pytest.approx(moment, abs=1e-10 * weigh(loads)[0] * beam.length)


@given(seeds)
def test_no_sampled_moment_or_sag_exceeds_the_largest_and_a_close_sample_comes_near(seed: int) -> None:
    beam, _, _, answer = at_rest(seed)
    xs = [beam.length * k / 2000 for k in range(2001)]
    largest, at = answer.largest_moment
    assert max(abs(answer.moment(x)) for x in xs) <= abs(largest) * (1 + 1e-9) + 1e-9
    assert answer.moment(at) == pytest.approx(largest, rel=1e-9, abs=1e-9)
    for start, end, sag, x in answer.largest_sags:
        inside = [abs(answer.sag(start + (end - start) * k / 500)) for k in range(501)]
        assert max(inside) <= abs(sag) * (1 + 1e-9) + 1e-13
        assert max(inside) >= 0.99 * abs(sag) - 1e-13
        assert answer.sag(x) == pytest.approx(sag, rel=1e-9, abs=1e-13)


@given(seeds, shares)
def test_the_batten_has_no_kink_and_bends_by_moment_over_stiffness(seed: int, share: float) -> None:
    beam, _, loads, answer = at_rest(seed)
    step = 1e-3 * beam.length
    x = step + share * (beam.length - 2 * step)
    bent = (answer.deflection(x - step) - 2 * answer.deflection(x) + answer.deflection(x + step)) / step**2
    # a second difference is a weighted mean of the curvature around x: it lies between its least and its greatest
    around = [x + step * k / 400 for k in range(-400, 401)]
    curvatures = [
        -answer.moment(at) / segment.stiffness
        for at in around
        for segment in beam.segments
        if segment.start <= at <= segment.end
    ]
    slack = 1e-3 * max(map(abs, curvatures)) + 2.0 * weigh(loads)[0] * (step / 400) / 12_500 + 1e-6
    assert min(curvatures) - slack <= bent <= max(curvatures) + slack


@given(seeds)
def test_a_batten_seen_from_the_other_side_hangs_the_same(seed: int) -> None:
    beam, lines, loads, answer = at_rest(seed)
    turn = beam.length
    turned = Beam(
        length=turn,
        segments=tuple(
            Segment(start=turn - s.end, end=turn - s.start, stiffness=s.stiffness) for s in reversed(beam.segments)
        ),
    )
    turned_lines = [Line(x=turn - n.x, flexibility=n.flexibility, offset=n.offset) for n in reversed(lines)]
    turned_loads: list[Load] = [
        PointLoad(x=turn - p.x, force=p.force)
        if isinstance(p, PointLoad)
        else SpreadLoad(start=turn - p.end, end=turn - p.start, per_length=p.per_length)
        for p in loads
    ]
    mirrored = hang(turned, turned_lines, turned_loads)
    assert isinstance(mirrored, Hanging)
    assert mirrored.tensions[::-1] == pytest.approx(answer.tensions, abs=1e-8 * answer.weight)
    assert abs(mirrored.largest_moment[0]) == pytest.approx(abs(answer.largest_moment[0]), rel=1e-7)


@given(seeds, floats(0.1, 10.0))
def test_on_level_lines_all_loads_times_k_is_all_pulls_times_k(seed: int, k: float) -> None:
    beam, lines, loads = adversarial(seed)
    level = [Line(x=n.x, flexibility=n.flexibility) for n in lines]
    one = hang(beam, level, loads)
    assume(isinstance(one, Hanging))
    assert isinstance(one, Hanging)
    more: list[Load] = [
        PointLoad(x=p.x, force=k * p.force)
        if isinstance(p, PointLoad)
        else SpreadLoad(start=p.start, end=p.end, per_length=k * p.per_length)
        for p in loads
    ]
    many = hang(beam, level, more)
    assert isinstance(many, Hanging)
    assert many.tensions == pytest.approx([k * t for t in one.tensions], abs=1e-10 * many.weight)
    assert many.largest_moment[0] == pytest.approx(k * one.largest_moment[0], rel=1e-8)


@given(seeds, shares, shares)
def test_a_load_here_lowers_there_as_much_as_one_there_lowers_here(seed: int, here: float, there: float) -> None:
    beam, lines, loads, base = at_rest(seed)
    a, b = here * beam.length, there * beam.length
    force = 0.01 * base.weight
    with_a = hang(beam, lines, [*loads, PointLoad(x=a, force=force)])
    with_b = hang(beam, lines, [*loads, PointLoad(x=b, force=force)])
    assume(isinstance(with_a, Hanging) and isinstance(with_b, Hanging))
    assert isinstance(with_a, Hanging)
    assert isinstance(with_b, Hanging)
    assume(base.carrying == with_a.carrying == with_b.carrying)  # the law is one of linear structures
    lowered_there, lowered_here = with_a.deflection(b) - base.deflection(b), with_b.deflection(a) - base.deflection(a)
    scale = max(abs(base.deflection(x)) for x in (0.0, a, b, beam.length)) + 0.05
    assert lowered_there == pytest.approx(lowered_here, abs=1e-10 * scale)


def moved(lines: list[Line], changes: dict[int, float]) -> list[Line]:
    """The same lines, some of them longer."""
    return [Line(x=n.x, flexibility=n.flexibility, offset=n.offset + changes.get(i, 0.0)) for i, n in enumerate(lines)]


@given(seeds, integers(0, 5), integers(0, 5), floats(1e-6, 1e-4))
def test_a_longer_line_relieves_another_as_much_as_that_one_would_relieve_it(
    seed: int, one: int, other: int, longer: float
) -> None:
    beam, lines, loads, base = at_rest(seed)
    one, other = one % len(lines), other % len(lines)
    with_one, with_other = (hang(beam, moved(lines, {k: longer}), loads) for k in (one, other))
    assert isinstance(with_one, Hanging)
    assert isinstance(with_other, Hanging)
    assume(base.carrying == with_one.carrying == with_other.carrying)  # the law is one of linear structures
    relieved = base.tensions[other] - with_one.tensions[other]
    assert relieved == pytest.approx(base.tensions[one] - with_other.tensions[one], abs=1e-9 * base.weight)


@given(seeds, integers(0, 5), shares, floats(0.001, 0.1))
def test_a_load_pulls_on_a_line_as_far_as_that_line_longer_would_lower_the_load(
    seed: int, which: int, share: float, part: float
) -> None:
    # Betti: pull of the line under a unit load at x = drop at x when the line is made one unit longer
    beam, lines, loads, base = at_rest(seed)
    which, x, longer = which % len(lines), share * beam.length, 1e-5
    loaded = hang(beam, lines, [*loads, PointLoad(x=x, force=part * base.weight)])
    lowered = hang(beam, moved(lines, {which: longer}), loads)
    assume(isinstance(loaded, Hanging) and isinstance(lowered, Hanging))
    assert isinstance(loaded, Hanging)
    assert isinstance(lowered, Hanging)
    assume(base.carrying == loaded.carrying == lowered.carrying)
    pull = (loaded.tensions[which] - base.tensions[which]) / (part * base.weight)
    drop = (lowered.deflection(x) - base.deflection(x)) / longer
    scale = max(abs(base.deflection(v)) for v in (0.0, x, beam.length)) + 0.05
    assert pull == pytest.approx(drop, abs=1e-11 * scale / longer + 1e-9 / part)


@given(seeds, floats(-0.05, 0.05), floats(-0.01, 0.01))
def test_all_lines_longer_along_a_straight_line_change_no_pull(seed: int, all_by: float, slope: float) -> None:
    beam, lines, loads, base = at_rest(seed)
    tilted = hang(beam, moved(lines, {i: all_by + slope * n.x for i, n in enumerate(lines)}), loads)
    assert isinstance(tilted, Hanging)
    assert tilted.tensions == pytest.approx(base.tensions, abs=1e-8 * base.weight)


@given(seeds, floats(0.1, 10.0))
def test_loads_and_offsets_times_k_are_pulls_and_gaps_times_k(seed: int, k: float) -> None:
    beam, lines, loads, base = at_rest(seed)
    more: list[Load] = [
        PointLoad(x=p.x, force=k * p.force)
        if isinstance(p, PointLoad)
        else SpreadLoad(start=p.start, end=p.end, per_length=k * p.per_length)
        for p in loads
    ]
    further = [Line(x=n.x, flexibility=n.flexibility, offset=k * n.offset) for n in lines]
    many = hang(beam, further, more)
    assert isinstance(many, Hanging)
    assert many.tensions == pytest.approx([k * t for t in base.tensions], abs=1e-9 * many.weight)
    assert many.gaps == pytest.approx([k * g for g in base.gaps], abs=1e-9 * k)


@given(seeds, integers(0, 10**9))
def test_between_any_two_trims_what_grew_longer_lost_pull_on_the_whole(seed: int, other: int) -> None:
    # The least complementary energy is concave in the offsets and the pulls are its slopes, so the sum of (change of
    # pull) x (change of offset) is never above nothing: across slack events too (any text on convex functions).
    beam, lines, loads, base = at_rest(seed)
    random = Random(other)
    changes = {i: random.uniform(-0.05, 0.05) for i in range(len(lines))}
    after = hang(beam, moved(lines, changes), loads)
    assert isinstance(after, Hanging)
    total = sum((t - s) * changes[i] for i, (t, s) in enumerate(zip(after.tensions, base.tensions, strict=True)))
    assert total <= 1e-9 * base.weight


@given(seeds, shares, floats(1.0, 5000.0), floats(0.0, 0.2))
def test_the_quick_answer_at_many_places_is_the_answer_of_each(
    seed: int, share: float, force: float, spread: float
) -> None:
    beam, lines, loads, _ = at_rest(seed)
    moved: list[Load] = [PointLoad(x=0.0, force=force)]
    if spread > 0.01:
        moved.append(SpreadLoad(start=0.0, end=spread * beam.length, per_length=force))
    reach = (1.0 - (spread if spread > 0.01 else 0.0)) * beam.length
    xs = [min(reach, reach * k / 12) for k in range(13)] + [share * reach]
    strength = two_sections(beam, share)
    for x, quick in zip(xs, response(beam, lines, loads, moved, xs, strength=strength), strict=True):
        slow = hang(beam, lines, [*loads, *set_at(moved, x)])
        if isinstance(slow, Tips) or isinstance(quick, Tips):
            assert type(slow) is type(quick)
            continue
        assert quick.tensions == pytest.approx(slow.tensions, abs=1e-9 * slow.weight)
        assert abs(quick.moment) == pytest.approx(abs(slow.largest_moment[0]), rel=1e-8)
        assert abs(slow.moment(quick.moment_x)) == pytest.approx(abs(quick.moment), rel=1e-8)
        assert abs(quick.shear) == pytest.approx(abs(greatest_shear(slow)[0]), rel=1e-8)
        stresses = segment_stresses(slow, strength)
        assert quick.stress == pytest.approx(max(one.stress for one in stresses), rel=1e-8)
        spliced = [one.moment for one in splice_moments(slow, strength)]
        assert quick.splices == pytest.approx(spliced, abs=1e-8 * abs(quick.moment))
        if quick.carrying == slow.carrying:  # at the very event both are right, and count their spans differently
            tall = 1e-9 * (1.0 + max(abs(slow.deflection(0.0)), abs(slow.deflection(beam.length))))
            assert quick.gaps == pytest.approx(slow.gaps, abs=tall)
            assert quick.tips == pytest.approx(slow.tip_drops, abs=tall)
            ratio = max(abs(sag) / (end - start) for start, end, sag, _ in slow.largest_sags)
            assert quick.sag_ratio == pytest.approx(ratio, rel=1e-7, abs=1e-12)
            assert abs(quick.sag) == pytest.approx(max(abs(s[2]) for s in slow.largest_sags), rel=1e-7, abs=1e-12)
            assert slow.sag(quick.sag_x) == pytest.approx(quick.sag, rel=1e-7, abs=1e-12)


def two_sections(beam: Beam, share: float) -> Strength:
    """The batten with a weaker pipe from somewhere on, spliced there and at its end."""
    middle = beam.length * min(max(share, 0.01), 0.99)
    sections = ((0.0, middle, 5.0e-6), (middle, beam.length, 3.0e-6))
    return Strength(
        segments=tuple(StrengthSegment(start=a, end=b, elastic_modulus=s, area=5.0e-4) for a, b, s in sections),
        splices=(Splice(x=middle), Splice(x=beam.length)),
    )


@given(seeds, shares)
def test_a_growing_load_goes_through_the_answer_for_each_of_its_weights(seed: int, share: float) -> None:
    beam, lines, loads, base = at_rest(seed)
    extra: list[Load] = [PointLoad(x=share * beam.length, force=base.weight)]
    path = follow(beam, lines, loads, extra, 3.0)
    assert [p.t1 for p in path.pieces[:-1]] == [p.t0 for p in path.pieces[1:]]
    for piece in path.pieces:
        middle = 0.5 * (piece.t0 + piece.t1)
        direct = hang(beam, lines, [*loads, PointLoad(x=share * beam.length, force=middle * base.weight)])
        assert isinstance(direct, Hanging)
        halfway = [
            0.5 * (p + q) for p, q in zip(piece.hanging0.tensions, piece.hanging1.tensions, strict=True)
        ]  # straight in between
        assert direct.tensions == pytest.approx(halfway, abs=1e-7 * direct.weight)
    if path.tips_at is None:
        assert path.pieces[-1].t1 == 3.0
    else:
        beyond = hang(
            beam, lines, [*loads, PointLoad(x=share * beam.length, force=path.tips_at * (1 + 1e-6) * base.weight)]
        )
        assert isinstance(beyond, Tips)


def within(answer: Hanging | Tips, limits: Limits) -> bool:
    if isinstance(answer, Tips):
        return False
    assert limits.moment is not None
    assert limits.sag_ratio is not None
    return (
        all(row.value(answer.tensions) <= row.limit for row in limits.rows)
        and abs(answer.largest_moment[0]) <= limits.moment
        and all(abs(sag) <= limits.sag_ratio * (end - start) for start, end, sag, _ in answer.largest_sags)
    )


@given(seeds, shares, margins, margins, margins)
def test_room_left_is_within_limits_and_a_little_more_is_not(
    seed: int, share: float, lines_margin: float, moment_margin: float, sag_margin: float
) -> None:
    beam, lines, loads, base = at_rest(seed)
    ratio = max(abs(sag) / (end - start) for start, end, sag, _ in base.largest_sags)
    top = max(base.tensions) * lines_margin
    rows = [Row(coefficients=tuple(float(k == i) for k in range(len(lines))), limit=top) for i in range(len(lines))]
    rows.append(Row(coefficients=(1.0,) * len(lines), constant=10.0, limit=3.0 * base.weight + 10.0))
    limits = Limits(
        rows=tuple(rows), moment=abs(base.largest_moment[0]) * moment_margin + 1e-6, sag_ratio=ratio * sag_margin + 1e-6
    )
    x = share * beam.length
    (room,) = room_left(beam, lines, loads, limits, [x])
    assert math.isfinite(room.force)
    assert room.which is not None  # the last row bounds the total
    a_little = 1e-6 * base.weight
    assert (
        not within(hang(beam, lines, [*loads, PointLoad(x=x, force=room.force + a_little)]), limits) or room.force == 0
    )
    for share_of_it in (0.0, 0.25, 0.5, 0.75, 0.9, 1.0):
        force = share_of_it * max(0.0, room.force - a_little)
        assert within(hang(beam, lines, [*loads, PointLoad(x=x, force=force)]), limits), (room, force)
