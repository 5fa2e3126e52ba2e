"""Random battens for the tests of the statics: loads an inch apart, lines two inches apart, long overhangs, offsets."""

from itertools import pairwise
from random import Random

from counterpoise.statics import Beam, Line, Load, PointLoad, Segment, SpreadLoad

INCH = 0.0254

Batten = tuple[Beam, list[Line], list[Load]]


def adversarial(seed: int, *, rigid: bool | None = None) -> Batten:
    """A batten built to be difficult; the same seed gives the same batten."""
    random = Random(seed)
    length, places = _lines(random)
    stiff = random.random() < 0.3 if rigid is None else rigid
    uneven = random.random() < 0.6
    lines = [
        Line(
            x=x,
            flexibility=0.0 if stiff else random.uniform(1e-6, 2e-5),
            offset=random.uniform(-2 * INCH, 2 * INCH) if uneven else 0.0,
        )
        for x in places
    ]
    return _beam(random, length), lines, _loads(random, length)


def _lines(random: Random) -> tuple[float, list[float]]:
    length = random.uniform(6.0, 20.0)
    right, left = (random.choice([0.0, 0.3, random.uniform(0.0, length / 3)]) for _ in range(2))
    inner = [random.uniform(right, length - left) for _ in range(random.randint(0, 4))]
    places = sorted([right, *inner, length - left])
    for k in range(len(places) - 1):
        if places[k + 1] - places[k] < 2 * INCH or random.random() < 0.1:
            places[k + 1] = places[k] + 2 * INCH
            places.sort()
    for k in range(len(places) - 1):  # sorting may have brought others close
        places[k + 1] = max(places[k + 1], places[k] + INCH)
    return max(length, places[-1]), places


def _beam(random: Random, length: float) -> Beam:
    cuts = sorted(random.uniform(0.1, length - 0.1) for _ in range(random.choice([0, 0, 1, 2])))
    ends = [0.0, *cuts, length]
    stiffness = random.choice([12_500.0, 25_000.0, 100_000.0])
    return Beam(
        length=length,
        segments=tuple(
            Segment(start=a, end=b, stiffness=stiffness * random.choice([1, 1, 2])) for a, b in pairwise(ends)
        ),
    )


def _loads(random: Random, length: float) -> list[Load]:
    loads: list[Load] = [SpreadLoad(start=0.0, end=length, per_length=random.uniform(30.0, 60.0))]
    for _ in range(random.randint(0, 6)):
        x, force = random.uniform(0.0, length - 2 * INCH), random.uniform(50.0, 3000.0)
        loads.append(PointLoad(x=x, force=force))
        if random.random() < 0.4:
            loads.append(PointLoad(x=x + INCH, force=force))
    if random.random() < 0.3:
        start = random.uniform(0.0, 0.7 * length)
        end = random.uniform(start + 0.1, length)
        loads.append(SpreadLoad(start=start, end=end, per_length=random.uniform(20.0, 800.0)))
    return loads
