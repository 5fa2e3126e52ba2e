"""Random battens of two kinds: as they hang in a house, and crowded ones that no house has, to break the search."""

from random import Random

from counterpoise.statics import Beam, Line, Load, PointLoad, Segment, SpreadLoad
from tests.battens import INCH, Batten

PIPE = 25_000.0  # EI of a 1-1/2 in schedule 40 pipe, about [N m2]


def ordinary(seed: int) -> Batten:
    """Four to seven lines two to four metres apart, trims within half an inch, a handful of loads."""
    random = Random(seed)
    spans = [random.uniform(2.0, 4.0) for _ in range(random.randint(3, 6))]
    x = random.uniform(0.1, 1.0)
    places = [x]
    for span in spans:
        places.append(places[-1] + span)
    length = places[-1] + random.uniform(0.1, 1.0)
    lines = [Line(x=x, flexibility=random.uniform(5e-6, 2e-5), offset=random.uniform(-0.5, 0.5) * INCH) for x in places]
    loads: list[Load] = [SpreadLoad(start=0.0, end=length, per_length=40.0)]
    pieces = random.randint(1, 8)
    loads += [PointLoad(x=random.uniform(0.0, length), force=random.uniform(50.0, 400.0)) for _ in range(pieces)]
    return Beam(length=length, segments=(Segment(start=0.0, end=length, stiffness=PIPE),)), lines, loads


def crowded(seed: int) -> Batten:
    """Up to eight lines, some an inch apart, most of them badly trimmed; loads an inch apart and far out."""
    random = Random(seed)
    length = random.uniform(4.0, 20.0)
    inset = random.choice([0.0, 0.1, 0.3]) * length * random.random()
    places = sorted(random.uniform(inset, length - inset) for _ in range(random.randint(3, 8)))
    near = random.choice([INCH, 2 * INCH, 0.3])
    for k in range(1, len(places)):
        if random.random() < 0.3:
            places[k] = places[k - 1] + near
        places[k] = max(places[k], places[k - 1] + 0.02)
    length = max(length, places[-1])
    trim = random.choice([0.0, 1e-4, 0.5 * INCH, 0.1, 1.0])
    give = random.choice([0.0, 1e-6, 1e-5, 1e-3])
    lines = [
        Line(x=x, flexibility=give * random.choice([0.5, 1.0, 2.0]), offset=random.uniform(-trim, trim)) for x in places
    ]
    return _pipe(random, length), lines, _loads(random, length)


def _pipe(random: Random, length: float) -> Beam:
    stiffness = random.choice([1e3, PIPE, 1e6])
    if random.random() < 0.6:
        return Beam(length=length, segments=(Segment(start=0.0, end=length, stiffness=stiffness),))
    cut = random.uniform(0.1, 0.9) * length
    halves = (
        Segment(start=0.0, end=cut, stiffness=stiffness),
        Segment(start=cut, end=length, stiffness=stiffness * random.choice([0.1, 10.0])),
    )
    return Beam(length=length, segments=halves)


def _loads(random: Random, length: float) -> list[Load]:
    loads: list[Load] = [SpreadLoad(start=0.0, end=length, per_length=random.choice([5.0, 40.0]))]
    for _ in range(random.randint(0, 8)):
        x, force = random.uniform(0.0, length - INCH), random.choice([1.0, 100.0, 3000.0]) * random.random()
        loads.append(PointLoad(x=x, force=force))
        if random.random() < 0.5:
            loads.append(PointLoad(x=x + INCH, force=force))
    return loads
