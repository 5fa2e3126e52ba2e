"""One set judged anew with other things hung on it, its neighbours on the same steel as they are."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from counterpoise.checks.house import HouseResult, SetResult
from counterpoise.checks.limits import rows_asked, stack_of, verdict_of
from counterpoise.checks.rows import Verdict
from counterpoise.documents import Hung, Piece, Show
from counterpoise.loadpath import Forces, SteelPulls, forces_of, steel_pulls
from counterpoise.rigging import RiggedSet, rig


def judge_again(
    result: HouseResult, label: str, hung: Sequence[tuple[Hung, Piece]], pulls: dict[str, SteelPulls] | None = None
) -> SetResult:
    """The set of this label with these pieces hung on it and nothing else; all else of the house stays as it is.

    Args:
        result: the whole hang as judged.
        label: of a set of its house.
        hung: what hangs on it then.
        pulls: what `neighbours_of` gives, for one who asks many times.

    Returns:
        The set with its rows and forces, without findings. Without forces where its batten would tip (over), or where
        it can not be computed (unknown).

    Raises Unproven where statics can not prove an answer.
    """
    house = result.house.house
    written = next(one for one in house.sets if one.label == label)
    pieces = {piece.piece: piece for _, piece in hung}
    show = Show(counterpoise="show 1", name=result.house.show, pieces=tuple(pieces.values()))
    hang = replace(result.house.hang, hung=tuple(one for one, _ in hung))
    alone = replace(rig(replace(house, sets=(written,)), show, hang), not_checked=result.house.not_checked)
    batten = alone.batten_called(label)
    forces = None if batten is None else forces_of(batten)
    empty = SetResult(
        label=label, batten=batten, rigged=batten if isinstance(batten, RiggedSet) else None, stack=None,
        stack_basis="", forces=None, rows=(), balance=(), findings=(), written=written,
        verdict=Verdict.UNKNOWN if batten is None else Verdict.OVER, out_of_service=written.out_of_service,
        hung=tuple(one.piece for one, _ in hung),
    )  # fmt: skip
    if batten is None or not isinstance(forces, Forces):
        return empty
    stack, basis = stack_of(batten) if isinstance(batten, RiggedSet) else (None, "")
    rows = rows_asked(alone, batten, stack, forces, neighbours_of(result, label) if pulls is None else pulls)
    verdict = verdict_of(batten, rows)
    if verdict is Verdict.WITHIN and alone.missing_of(label):
        verdict = Verdict.UNKNOWN  # its balance waits for a figure: no row tells of that
    return replace(empty, stack=stack, stack_basis=basis, forces=forces, rows=rows, verdict=verdict)


def neighbours_of(result: HouseResult, label: str) -> dict[str, SteelPulls]:
    """What the other sets of its bay put on the steel that this one shares; those that are not known are left out."""
    bay = result.house.bay_of(label)
    others = [one for one in result.sets if bay is not None and one.label in bay.sets and one.label != label]
    return {one.label: steel_pulls(one.batten, one.forces, bay) for one in others
            if one.batten is not None and one.forces is not None and not one.batten.taut}  # fmt: skip


def hung_on(result: HouseResult, label: str) -> tuple[tuple[Hung, Piece], ...]:
    """What hangs on a set, as it is written."""
    one = result.set_called(label)
    return () if one is None or one.batten is None else tuple((each.hung, each.written) for each in one.batten.pieces)
