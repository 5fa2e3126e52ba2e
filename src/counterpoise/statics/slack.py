"""Which lines carry: a search that adds or drops one line at a time and never lets one push.

Starts from the two lines beside the centre of gravity, which are statically determinate and both pull. The
complementary energy falls with every step, so no choice of lines comes twice; rounding is met by a step limit and,
up to twelve lines, by trying every choice. There is no solution exactly when the centre of gravity lies outside the
outer lines. Source of the method: primal active sets for a convex quadratic, any text on optimisation.
"""

from collections.abc import Callable, Sequence
from itertools import combinations
from typing import Protocol, TypeVar

from counterpoise.statics.chain import hang_plainly
from counterpoise.statics.field import Field
from counterpoise.statics.grid import Grid, Span, cut
from counterpoise.statics.hanging import Hanging, Tips, proven, settle
from counterpoise.statics.model import Beam, Line, Load, check_lines, check_loads, check_weight
from counterpoise.statics.proof import Unproven, drop_scale
from counterpoise.statics.three_moment import Carried, carry

TRIFLE = 1.0e-12  # of the load, or of the deflection: below this a push or a stretch is rounding
EXHAUSTIVE = 12  # lines up to which every choice is tried when the search fails


def hang(beam: Beam, lines: Sequence[Line], loads: Sequence[Load]) -> Hanging | Tips:
    """How the batten hangs on its lines under its loads.

    Args:
        beam: the batten.
        lines: two or more, from stage right to stage left, 5 mm or more apart.
        loads: everything that hangs, the batten's own weight included; together more than nothing.

    Returns:
        Hanging, or Tips when the centre of gravity lies outside the outer lines.

    Raises:
        OutOfRange: lines or loads off the batten, lines out of order or at one place, no load at all.
        Unproven: the answer did not stand its proof (equilibrium, no push, no gap under pull, no kink).

    Assumes small deflections, vertical lines that only pull, a linear batten, no shear deformation.
    Source: three-moment equation with elastic supports; Kassimali, Structural Analysis, eq. D.10 for settlements.
    """
    check_loads(beam, loads)
    answer = hang_plainly(beam, lines, loads)
    if answer is not None:
        return answer
    check_lines(beam, lines)
    grid = cut(beam, lines, loads)
    check_weight(grid.weight)
    return hang_on(grid, lines, loads)


def hang_on(grid: Grid, lines: Sequence[Line], loads: Sequence[Load]) -> Hanging | Tips:
    """As hang, on a batten already checked and cut."""
    places = [grid.xs[s] for s in grid.at]
    slip = TRIFLE * grid.xs[-1]
    if not places[0] - slip <= grid.centre <= places[-1] + slip:
        return Tips(centre=grid.centre, first=places[0], last=places[-1])
    known: dict[tuple[int, int], Span] = {}
    found = search(grid, lines, known)
    if found is None:
        failed = Unproven("the search for the carrying lines", float(len(lines)), float(EXHAUSTIVE))
    else:
        try:
            return proven(grid, lines, loads, *found)
        except Unproven as miss:
            failed = miss
    if len(lines) > EXHAUSTIVE:
        raise failed
    return _try_every_choice(grid, lines, loads, known, failed)


Found = tuple[Carried, Field, list[float]]


def search(grid: Grid, lines: Sequence[Line], known: dict[tuple[int, int], Span]) -> Found | None:
    """Carrying lines and their solution, or None when the step limit is reached."""

    def solve(carrying: tuple[int, ...]) -> Carried:
        return carry(grid, lines, carrying, known)

    def look(carried: Carried) -> tuple[Field, list[float], float]:
        field, gaps = settle(grid, lines, carried)
        return field, gaps, drop_scale(grid, lines, field)

    start = beside_the_centre([grid.xs[s] for s in grid.at], grid.centre)
    return find_carrying(len(lines), grid.weight, start, solve, look)


class Solved(Protocol):
    """What the search asks of a solution for one choice of carrying lines."""

    @property
    def carrying(self) -> tuple[int, ...]:
        """Lines that carry."""

    @property
    def pulls(self) -> list[float]:
        """Of the carrying lines [N]; one may come out negative."""


S = TypeVar("S", bound=Solved)
F = TypeVar("F")


def find_carrying(
    count: int,
    weight: float,
    start: tuple[int, int],
    solve: Callable[[tuple[int, ...]], S],
    look: Callable[[S], tuple[F, list[float], float]],
) -> tuple[S, F, list[float]] | None:
    """The search itself, for whatever hangs on the lines.

    Args:
        count: number of lines.
        weight: of all loads [N].
        start: the two neighbouring lines beside the centre of gravity.
        solve: pulls where exactly these lines act, in both directions.
        look: the shape of a solution, the gap of every line (negative: stretched), and the size of a drop [m].

    Returns:
        Solution, shape and gaps; None when the step limit is reached.
    """
    carried = solve(start)
    pulls = dict(zip(start, carried.pulls, strict=True))
    excused: set[int] = set()  # lines dropped at once after being added: at their place the gap is rounding
    for _ in range(20 * count):
        field, gaps, drop = look(carried)
        worst = min((i for i in range(count) if i not in excused), key=lambda i: gaps[i], default=None)
        if worst is None or gaps[worst] >= -TRIFLE * drop:
            return carried, field, gaps
        pulls[worst] = 0.0
        moved = False
        while True:
            carried = solve(tuple(sorted(pulls)))
            step, blocking = _reach(weight, pulls, carried)
            if blocking is None:
                break
            moved = moved or step > 0.0
            target = dict(zip(carried.carrying, carried.pulls, strict=True))
            pulls = {i: max(0.0, p + step * (target[i] - p)) for i, p in pulls.items() if i != blocking}
            if blocking == worst and not moved:
                excused.add(worst)
        pulls = {i: max(0.0, p) for i, p in zip(carried.carrying, carried.pulls, strict=True)}
        if worst in pulls and pulls[worst] > TRIFLE * weight:
            excused.clear()
    return None


def beside_the_centre(places: Sequence[float], centre: float) -> tuple[int, int]:
    """The neighbouring lines that hold the centre of gravity between them."""
    for i in range(1, len(places) - 1):
        if centre <= places[i]:
            return i - 1, i
    return len(places) - 2, len(places) - 1


def _reach(weight: float, pulls: dict[int, float], carried: Solved) -> tuple[float, int | None]:
    """How far toward the new pulls one may go before a line would push, and which line that is."""
    step, blocking = 1.0, None
    if len(carried.carrying) == 2:
        return step, blocking  # statically determinate, with the centre of gravity between them
    for i, target in zip(carried.carrying, carried.pulls, strict=True):
        if target < -TRIFLE * weight:
            share = pulls[i] / (pulls[i] - target)
            if blocking is None or share < step:
                step, blocking = share, i
    return step, blocking


def _try_every_choice(
    grid: Grid,
    lines: Sequence[Line],
    loads: Sequence[Load],
    known: dict[tuple[int, int], Span],
    failed: Unproven,
) -> Hanging:
    """The first choice of carrying lines that stands its proof; if none does, what the search's own answer misses."""
    every = range(len(lines))
    for size in range(len(lines), 1, -1):
        for carrying in combinations(every, size):
            carried = carry(grid, lines, carrying, known)
            try:
                return proven(grid, lines, loads, carried, *settle(grid, lines, carried))
            except Unproven:  # of a choice that is not the true one; what it misses tells nobody anything
                continue
    raise failed
