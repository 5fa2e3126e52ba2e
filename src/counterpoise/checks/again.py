"""Sets judged anew with other things hung on them, or another count on: with their twins, and their neighbours."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field, replace

from counterpoise.balance import Stack
from counterpoise.checks.limits import rows_asked, stack_of, verdict_of
from counterpoise.checks.result import HouseResult, SetResult
from counterpoise.checks.rows import Check, Verdict
from counterpoise.checks.steel_waits import OF_STEEL
from counterpoise.documents import Hang, Hung, Known, LineSet, Piece, Show
from counterpoise.loadpath import Forces, SteelPulls, are_pulls_known, forces_of, steel_pulls, whole_pulls
from counterpoise.rigging import RiggedHouse, RiggedSet, rig, twins_of
from counterpoise.units import Form, Kind

_Hung = tuple[Hung, Piece]


@dataclass(frozen=True, slots=True, kw_only=True)
class Change:
    """What hangs otherwise on sets, and counts stated otherwise: a stack, or None where the hang states none."""

    hung: Mapping[str, Sequence[_Hung]] = field(default_factory=dict)
    stated: Mapping[str, Stack | None] = field(default_factory=dict)

    @property
    def labels(self) -> set[str]:
        """The sets it is made on."""
        return {*self.hung, *self.stated}


@dataclass(frozen=True, slots=True, kw_only=True)
class Changed:
    """What a change comes to: the sets it is made on with all that carry their pieces with them, and steel beside.

    `beside` are rows of shared steel of the other sets of their bays.
    """

    sets: Mapping[str, SetResult]
    beside: tuple[Check, ...]


def judge_changed(result: HouseResult, change: Change, *, beside: bool = True) -> Changed:
    """Every set that a change touches, judged with all of the change made; all else of the house stays as it is.

    The sets have their rows and forces, without findings. Without rows where the batten would tip (over), or where it
    can not be computed (unknown). `beside` False leaves the other sets of their bays out, for one who tries many.

    Raises Unproven where statics can not prove an answer.
    """
    house = result.house.house
    twins = twins_of(house)
    labels = {each for label in change.labels for each in (label, *twins.get(label, ()))}
    on = {label: change.hung[label] if label in change.hung else _own(result, label) for label in labels}
    pieces = {piece.piece: piece for hung in on.values() for _, piece in hung}
    show = Show(counterpoise="show 1", name=result.house.show, pieces=tuple(pieces.values()))
    hang = replace(
        _stated(result.house.hang, change.stated), hung=tuple(one for hung in on.values() for one, _ in hung)
    )
    written = tuple(one for one in house.sets if one.label in labels)
    alone = replace(rig(replace(house, sets=written), show, hang), not_checked=result.house.not_checked)
    forces = {one.label: forces_of(one) for one in alone.battens}
    pulls = {one.label: steel_pulls(one, own, alone.bay_of(one.label)) for one in alone.battens
             if isinstance(own := forces[one.label], Forces) and are_pulls_known(one, own)}  # fmt: skip
    pulls |= _wholes(alone, labels)
    around = {label: {**_pulls_beside(result, label, labels), **pulls} for label in labels}
    sets = {one.label: _judged(alone, one, forces.get(one.label), around[one.label], on[one.label]) for one in written}
    return Changed(sets=sets, beside=tuple(_steel_beside(result, labels, pulls)) if beside else ())


def judge_again(
    result: HouseResult, label: str, hung: Sequence[_Hung], pulls: Mapping[str, SteelPulls] | None = None
) -> SetResult:
    """The set of this label with these pieces hung on it and its twins, and nothing else; all else stays as it is.

    Args:
        result: the whole hang as judged.
        label: of a set of its house.
        hung: what it carries then; of sets that carry pieces together each piece on the set that it names.
        pulls: what `neighbours_of` gives, for one who asks many times of a set without twins.

    Returns:
        The set as `judge_changed` gives it.

    Raises Unproven where statics can not prove an answer.
    """
    twins = twins_of(result.house.house).get(label, ())
    if twins or pulls is None:
        by_set = {each: [one for one in hung if one[0].label == each] for each in twins}
        rest = [one for one in hung if one[0].label not in twins]
        return judge_changed(result, Change(hung={label: rest, **by_set}), beside=False).sets[label]
    house = result.house.house
    written = next(one for one in house.sets if one.label == label)
    pieces = {piece.piece: piece for _, piece in hung}
    show = Show(counterpoise="show 1", name=result.house.show, pieces=tuple(pieces.values()))
    hang = replace(result.house.hang, hung=tuple(one for one, _ in hung))
    alone = replace(rig(replace(house, sets=(written,)), show, hang), not_checked=result.house.not_checked)
    batten = alone.batten_called(label)
    return _judged(alone, written, None if batten is None else forces_of(batten), pulls, hung)


def neighbours_of(result: HouseResult, label: str) -> dict[str, SteelPulls]:
    """What the other sets of its bay put on the steel that this one shares; those that are not known are left out."""
    return _pulls_beside(result, label, {label})


def hung_on(result: HouseResult, label: str) -> tuple[_Hung, ...]:
    """What a set carries, as it is written; of sets that carry pieces together all that hangs on any of them."""
    one = result.set_called(label)
    return () if one is None or one.batten is None else tuple((each.hung, each.written) for each in one.batten.pieces)


def _own(result: HouseResult, label: str) -> list[_Hung]:
    """What hangs on a set itself."""
    return [each for each in hung_on(result, label) if each[0].label == label]


def _judged(
    alone: RiggedHouse, written: LineSet, forces: object, pulls: Mapping[str, SteelPulls], hung: Sequence[_Hung]
) -> SetResult:
    label = written.label
    batten = alone.batten_called(label)
    names = tuple(one.piece for one, _ in hung) if batten is None else tuple(one.name for one in batten.pieces)
    empty = SetResult(
        label=label, batten=batten, rigged=batten if isinstance(batten, RiggedSet) else None, stack=None,
        stack_basis="", forces=None, rows=(), balance=(), findings=(), written=written,
        verdict=Verdict.UNKNOWN if batten is None else Verdict.OVER, out_of_service=written.out_of_service, hung=names,
    )  # fmt: skip
    if batten is None or not isinstance(forces, Forces):
        return empty
    stack, basis = stack_of(batten) if isinstance(batten, RiggedSet) else (None, "")
    rows = rows_asked(alone, batten, stack, forces, pulls)
    verdict = verdict_of(batten, rows)
    if verdict is Verdict.WITHIN and alone.missing_of(label):
        verdict = Verdict.UNKNOWN  # its balance waits for a figure: no row tells of that
    return replace(empty, stack=stack, stack_basis=basis, forces=forces, rows=rows, verdict=verdict)


def _pulls_beside(result: HouseResult, label: str, without: set[str]) -> dict[str, SteelPulls]:
    """What the sets of its bay put on the steel, but for some."""
    bay = result.house.bay_of(label)
    others = [one for one in result.sets if bay is not None and one.label in bay.sets and one.label not in without]
    known = [(one.label, one.batten, one.forces) for one in others if one.batten is not None and one.forces is not None]
    found = {label: steel_pulls(batten, forces, bay) for label, batten, forces in known
             if are_pulls_known(batten, forces)}  # fmt: skip
    return found | _wholes(result.house, {one.label for one in others})


def _wholes(house: RiggedHouse, labels: set[str]) -> dict[str, SteelPulls]:
    """What sets put on the steel of which just the whole is known."""
    return {one.label: whole for one in house.wholes
            if one.label in labels and (whole := whole_pulls(one, house.bay_of(one.label)))}  # fmt: skip


def _steel_beside(result: HouseResult, labels: set[str], pulls: Mapping[str, SteelPulls]) -> Iterable[Check]:
    """Rows of shared steel of the other sets on it."""
    bays = [bay for bay in result.house.house.steel if labels & set(bay.sets)]
    for label in dict.fromkeys(label for bay in bays for label in bay.sets if label not in labels):
        one = result.set_called(label)
        if one is None or one.batten is None or one.forces is None:
            continue
        all_pulls = {**_pulls_beside(result, label, labels), **pulls}
        rows = rows_asked(result.house, one.batten, one.stack, one.forces, all_pulls)
        yield from (row for row in rows if row.formula in OF_STEEL)


def _stated(hang: Hang, stated: Mapping[str, Stack | None]) -> Hang:
    """The hang with other counts stated."""
    bricks, small = dict(hang.stated_bricks), dict(hang.stated_small_bricks)
    for label, stack in stated.items():
        bricks.pop(label, None)
        small.pop(label, None)
        if stack is not None:
            bricks[label] = _count(label, stack.bricks)
            small[label] = _count(label, stack.small)
    return replace(hang, stated_bricks=bricks, stated_small_bricks=small)


def _count(label: str, count: int) -> Known:
    return Known(text=str(count), kind=Kind.COUNT, low=count, best=count, high=count, form=Form.EXACT, source=None,
                 path=f"stated bricks.{label}", line=0)  # fmt: skip
