import math
from collections.abc import Callable

import pytest

from counterpoise.errors import OutOfRange
from counterpoise.statics import Beam, Line, PointLoad, Segment, SpreadLoad

NAN = math.nan


@pytest.mark.parametrize(
    "make",
    [
        lambda: Segment(start=0.0, end=5.0, stiffness=0.0),
        lambda: Segment(start=0.0, end=5.0, stiffness=-1.0),
        lambda: Segment(start=0.0, end=5.0, stiffness=NAN),
        lambda: Segment(start=5.0, end=5.0, stiffness=1.0),
        lambda: Segment(start=NAN, end=5.0, stiffness=1.0),
        lambda: Line(x=NAN),
        lambda: Line(x=-1.0),
        lambda: Line(x=1.0, flexibility=-1e-6),
        lambda: Line(x=1.0, flexibility=NAN),
        lambda: Line(x=1.0, offset=NAN),
        lambda: PointLoad(x=NAN, force=1.0),
        lambda: PointLoad(x=1.0, force=-1.0),
        lambda: PointLoad(x=1.0, force=NAN),
        lambda: PointLoad(x=1.0, force=math.inf),
        lambda: SpreadLoad(start=1.0, end=1.0, per_length=1.0),
        lambda: SpreadLoad(start=2.0, end=1.0, per_length=1.0),
        lambda: SpreadLoad(start=1.0, end=2.0, per_length=-1.0),
        lambda: SpreadLoad(start=1.0, end=NAN, per_length=1.0),
        lambda: Beam(length=0.0, segments=(Segment(start=0.0, end=5.0, stiffness=1.0),)),
        lambda: Beam(length=NAN, segments=(Segment(start=0.0, end=5.0, stiffness=1.0),)),
        lambda: Beam(length=5.0, segments=()),
    ],
)
def test_what_cannot_be_is_refused(make: Callable[[], object]) -> None:
    with pytest.raises(OutOfRange) as refusal:
        make()
    assert str(refusal.value).endswith(".")  # it ends with the mend, a sentence


@pytest.mark.parametrize(
    "ends", [[(0.0, 4.0)], [(0.0, 6.0)], [(1.0, 5.0)], [(0.0, 2.0), (3.0, 5.0)], [(0.0, 3.0), (2.0, 5.0)]]
)
def test_segments_that_do_not_cover_the_batten_end_to_end_are_refused(ends: list[tuple[float, float]]) -> None:
    segments = tuple(Segment(start=a, end=b, stiffness=1.0) for a, b in ends)
    with pytest.raises(OutOfRange, match="follow each other from end to end"):
        Beam(length=5.0, segments=segments)


def test_a_rounding_between_segments_is_no_gap() -> None:
    cut = 42 * 0.3048 / 3
    first = Segment(start=0.0, end=cut, stiffness=1.0)
    second = Segment(start=math.nextafter(cut, 9.0), end=5.0, stiffness=2.0)
    assert Beam(length=5.0, segments=(first, second)).length == 5.0


def test_a_spread_load_weighs_its_length_times_its_weight_per_length() -> None:
    assert SpreadLoad(start=1.0, end=3.5, per_length=4.0).force == 10.0
