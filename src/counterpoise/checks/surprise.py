"""The sentence that teaches: a load that equal shares would pass and the real shares refuse, or the nearest to it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from counterpoise.balance import Span
from counterpoise.checks.result import HouseResult, SetResult
from counterpoise.checks.rows import Check, Verdict
from counterpoise.units import Style, force, limit, mass

TELLING = 1.15  # a line that carries less than this many equal shares surprises nobody


@dataclass(frozen=True, slots=True, kw_only=True)
class Surprise:
    """A set, its telling row where it has a limit, and the sentence. `equal` is what equal shares would say [N]."""

    label: str
    row: Check | None
    equal: float
    sentence: str


@dataclass(frozen=True, slots=True)
class _Line:
    number: int
    carries: float  # [N]
    row: Check | None


def surprise_of(result: HouseResult) -> Surprise | None:
    """The set where equal shares mislead most, told plainly; None where no set carries a load on three lines.

    One whose block is over comes before one that is not, and one whose block has a rating before one that has none.
    """
    traps = [found for one in result.sets if (found := _trap(one, result)) is not None]
    return max(traps, key=lambda each: each[0], default=((0, 0.0), None))[1]


def _trap(one: SetResult, result: HouseResult) -> tuple[tuple[int, float], Surprise] | None:
    rigged = one.batten
    if rigged is None or one.forces is None or not rigged.pieces or len(rigged.lines) < 3:
        return None
    lines = _lines(one, one.forces.tensions)
    most = max(lines, key=lambda line: line.carries)
    equal = sum(line.carries for line in lines) / len(lines)
    row = most.row
    if equal <= 0.0 or (row is not None and equal > (row.limit or 0.0)) or most.carries < TELLING * equal:
        return None
    rank = 0 if row is None else 2 if row.verdict is Verdict.OVER else 1
    style = Style(result.house.house.units)  # type: ignore[arg-type]
    surprise = Surprise(label=one.label, row=row, equal=equal, sentence=_told(one, lines, most, equal, style))
    return (rank, most.carries / equal), surprise


def _lines(one: SetResult, pulls: tuple[Span, ...]) -> list[_Line]:
    """What each line carries: on its block where all of these are rated by their line, else just above the batten."""
    rows = [row for row in one.rows if row.link == "loft block" and row.limit is not None]
    if len(rows) == len(pulls):
        return [_Line(row.line or 0, row.value.best, row) for row in rows]
    return [_Line(number, pull.best, None) for number, pull in enumerate(pulls, start=1)]


def _told(one: SetResult, lines: list[_Line], most: _Line, equal: float, style: Style) -> str:
    assert one.batten is not None  # the caller looked
    piece = max(one.batten.pieces, key=lambda each: each.mass[1])
    near = [line for line in lines if line is most or abs(line.carries - most.carries) < 0.02 * most.carries]
    figures = [force(line.carries, style) for line in near]
    alike = len(set(figures)) == 1
    carried = figures[0] if alike else " and ".join([*(figure.split()[0] for figure in figures[:-1]), figures[-1]])
    said = f"{piece.name}, {mass(piece.mass[1], style)}" + (", hangs evenly spread" if piece.spread else "")
    verb = "carry" if len(near) > 1 else "carries"
    told = (f"Set {one.label}: {said}. Equal shares would put {force(equal, style)} on every line; "
            f"{_numbered([line.number for line in near])} really {verb} {carried}")  # fmt: skip
    if most.row is not None and most.row.limit is not None:
        over = most.row.verdict is Verdict.OVER
        return f"{told}, {'on blocks rated' if over else 'and may carry'} {limit(most.row.limit, style)}."
    slack = f", and {_numbered(one.slack)} hang{'' if len(one.slack) > 1 else 's'} slack" if one.slack else ""
    return f"{told}{slack}. What its blocks may carry is not known."


def _numbered(lines: Sequence[int]) -> str:
    return f"line{'s' if len(lines) > 1 else ''} {' and '.join(map(str, lines))}"
