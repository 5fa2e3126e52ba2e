"""The sentence that teaches: a load that equal shares would pass and the real shares refuse, or the nearest to it."""

from __future__ import annotations

from dataclasses import dataclass

from counterpoise.checks.house import HouseResult, SetResult
from counterpoise.checks.rows import Check, Verdict
from counterpoise.units import Style, force, limit, mass


@dataclass(frozen=True, slots=True, kw_only=True)
class Surprise:
    """A set, its telling row, and the sentence. `equal` is what equal shares would say [N]."""

    label: str
    row: Check
    equal: float
    sentence: str


def surprise_of(result: HouseResult) -> Surprise | None:
    """The set where equal shares mislead most, told plainly; None where no set carries a load on three lines."""
    traps = [found for one in result.sets if (found := _trap(one, result)) is not None]
    return max(traps, key=lambda one: (one.row.verdict is Verdict.OVER, one.row.value.best / one.equal), default=None)


def _trap(one: SetResult, result: HouseResult) -> Surprise | None:
    if one.rigged is None or one.forces is None or not one.rigged.pieces or len(one.rigged.lines) < 3:
        return None
    rows = [row for row in one.rows if row.link == "loft block" and row.limit is not None]
    row = max(rows, key=lambda row: row.value.best, default=None)
    if row is None or row.limit is None:
        return None
    equal = sum(each.value.best for each in rows) / len(rows)
    if equal > row.limit or equal <= 0.0:
        return None
    style = Style(result.house.house.units)  # type: ignore[arg-type]
    piece = max(one.rigged.pieces, key=lambda each: each.mass[1])
    most = force(row.value.best, style)
    near = [each for each in rows if each is row or abs(each.value.best - row.value.best) < 0.02 * row.value.best]
    said_of = [force(each.value.best, style).split()[0] for each in near[:-1]] + [force(near[-1].value.best, style)]
    lines = f"{'lines' if len(near) > 1 else 'line'} {' and '.join(str(each.line) for each in near)}"
    carried = most if len(set(said_of)) == 1 else " and ".join(said_of)
    said = f"{piece.name}, {mass(piece.mass[1], style)}" + (", hangs evenly spread" if piece.spread else "")
    really = "really carry" if len(near) > 1 else "really carries"
    end = (f"on blocks rated {limit(row.limit, style)}." if row.verdict is Verdict.OVER
           else f"and may carry {limit(row.limit, style)}.")  # fmt: skip
    return Surprise(label=one.label, row=row, equal=equal,
                    sentence=f"Set {one.label}: {said}. Equal shares would put {force(equal, style)} on every line; "
                    f"{lines} {really} {carried}, {end}")  # fmt: skip
