"""Battens to time: a steel pipe on five or seven wire ropes. All invented; nothing here is anybody's house."""

from random import Random

from counterpoise.statics import Beam, Line, Load, PointLoad, Segment, SpreadLoad

STIFFNESS = 25_000.0  # EI [N m2], about that of a 1-1/2 in steel pipe
Batten = tuple[Beam, list[Line], list[Load]]


def dice(seed: int) -> Random:
    """Chance that comes out the same on every run."""
    return Random(seed)


def batten(random: Random, *, pieces: int, count: int = 5, short: int | None = None) -> Batten:
    """A batten of 12 to 14 m with point loads, two in five on a pair of picks.

    Short: this line is 120 mm too long.
    """
    length = random.uniform(12.0, 14.0)
    beam = Beam(length=length, segments=(Segment(start=0.0, end=length, stiffness=STIFFNESS),))
    step = (length - 0.8) / (count - 1)
    lines = [
        Line(x=0.4 + step * k, flexibility=(6.0 + 0.5 * k) * 1e-6, offset=0.12 if k == short else 0.0)
        for k in range(count)
    ]
    loads: list[Load] = [SpreadLoad(start=0.0, end=length, per_length=40.0)]
    while len(loads) < pieces:
        x, force = random.uniform(0.2, length - 1.2), random.uniform(50.0, 400.0)
        loads.append(PointLoad(x=x, force=force))
        if random.random() < 0.4 and len(loads) < pieces:
            loads.append(PointLoad(x=x + 1.0, force=force))
    return beam, lines, loads
