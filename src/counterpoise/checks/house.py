"""The whole hang: each set's stack, forces, rows, verdict and findings, and the one unknown to measure first."""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date

from counterpoise.balance import Span, Stack, best_stack, out_of_balance
from counterpoise.checks.findings import Finding, findings_of, missing_findings, out_of_service_finding
from counterpoise.checks.limits import flying_heights, rows_of
from counterpoise.checks.rows import Check, Verdict, where
from counterpoise.documents import LineSet, NotChecked
from counterpoise.loadpath import Forces, SteelPulls, Tipping, forces_of, links_of, steel_pulls
from counterpoise.rigging import RiggedHouse, RiggedSet

FOUND_BY_FEEL = ("lock", "tension block")  # what the rail finds out by feeling the balance, within the lock
BALANCE_STATIONS = 33  # heights at which the balance is drawn; it is straight between the kinks, which are added


@dataclass(frozen=True, slots=True, kw_only=True)
class SetResult:
    """One set. `rigged` and `forces` are None where a figure is missing; `stack_basis` says where the count is from."""

    label: str
    rigged: RiggedSet | None
    stack: Stack | None
    stack_basis: str
    forces: Forces | None
    rows: tuple[Check, ...]
    balance: tuple[tuple[float, Span], ...]
    verdict: Verdict
    out_of_service: str
    findings: tuple[Finding, ...]

    @property
    def governing(self) -> Check | None:
        """The row that is nearest its limit, or farthest past it; None where no row has a figure."""
        known = [row for row in self.rows if row.limit is not None and not row.lacks]
        return max(known, key=lambda row: row.use, default=None)

    @property
    def hold(self) -> str:
        """Why nothing is to be loaded as it is drawn, in a word; "" where the crew may be told what to do.

        A weight known only within a range is no hold where it is just the balance that waits for it: the steps then
        stop where even the lightest balances, and feel.
        """
        if self.out_of_service:
            return "out of service"
        if self.verdict is Verdict.OVER:
            return "over"
        open_ = [row for row in self.rows if row.verdict is Verdict.UNKNOWN]
        felt = all(row.limit is not None and not row.lacks and row.link in FOUND_BY_FEEL for row in open_)
        return "unknown" if self.rigged is None or self.forces is None or not felt else ""

    @property
    def bricks(self) -> str:
        """The count on the arbor in words: about so many (~) where a weight on it is not one figure."""
        if self.stack is None or self.rigged is None:
            return ""
        certain = self.stack_basis == "stated" or all(piece.is_certain for piece in self.rigged.pieces)
        return f"{'' if certain else '~'}{self.stack.bricks}"

    @property
    def telling(self) -> Check | None:
        """The row that decides the verdict: what governs, or what keeps the set from being within."""
        governing = self.governing
        if governing is not None and governing.verdict is self.verdict:
            return governing
        same = [row for row in self.rows if row.verdict is self.verdict]
        return max(same, key=lambda row: row.value.high, default=governing)

    def row(self, link: str, line: int | None = None) -> Check | None:
        """The row of a link; of several lines the one nearest its limit, unless the line is named."""
        found = [row for row in self.rows if row.link == link and line in (None, row.line)]
        return max(found, key=lambda row: row.use, default=None)


@dataclass(frozen=True, slots=True, kw_only=True)
class Unknown:
    """A figure to find out: what, where it stands, and the sets whose verdict waits for it."""

    what: str
    path: str
    where: str
    sets: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class HouseResult:
    """The whole hang."""

    house: RiggedHouse
    sets: tuple[SetResult, ...]
    findings: tuple[Finding, ...]
    verdict: Verdict
    unknowns: tuple[Unknown, ...]
    not_checked: tuple[NotChecked, ...]

    def set_called(self, label: str) -> SetResult | None:
        """The result of this set, None where the house has none."""
        return next((one for one in self.sets if one.label == label), None)

    def counted(self) -> tuple[int, int, int, int]:
        """How many sets are within, over, unknown and out of service."""
        counts = Counter("out" if one.out_of_service else one.verdict.value for one in self.sets)
        return counts["within"], counts["over"], counts["unknown"], counts["out"]


def check(house: RiggedHouse, on: date | None = None) -> HouseResult:
    """Judge every set of the house under its hang.

    Args:
        house: the sets as rigged.
        on: the day it is judged for; what is not checked here only until an earlier day is asked for again. Without
            a day that is not looked at.

    Raises:
        Unproven: statics cannot prove an answer.
    """
    standing = tuple(one for one in house.not_checked if not one.has_lapsed(on))
    house = replace(house, not_checked=standing)  # so that whoever plans from this result sees the same
    found = {one.label: (one, forces_of(one)) for one in house.sets}
    pulls = {label: steel_pulls(rigged, one) for label, (rigged, one) in found.items() if isinstance(one, Forces)}
    results = []
    for written in house.house.sets:
        rigged, what = found.get(written.label, (None, None))
        if rigged is None or not isinstance(what, Forces):
            results.append(_uncomputed(house, written, rigged, what))
        else:
            results.append(_computed(house, rigged, what, pulls))
    everything = [finding for one in results for finding in one.findings]
    order = {Verdict.OVER: 0, Verdict.UNKNOWN: 1, Verdict.WITHIN: 2}
    everything.sort(key=lambda one: order[one.verdict])
    return HouseResult(house=house, sets=tuple(results), findings=tuple(everything), verdict=_all(results),
                       unknowns=_unknowns(house, results), not_checked=standing)  # fmt: skip


def stack_of(rigged: RiggedSet) -> tuple[Stack, str]:
    """The stack a set is judged with: stated in the hang, else the count that balances it best."""
    if rigged.stated_bricks is not None:
        return Stack(rigged.stated_bricks), "stated"
    return best_stack(rigged), "proposed"


def _all(results: list[SetResult]) -> Verdict:
    said = {one.verdict for one in results}
    for worse in (Verdict.OVER, Verdict.UNKNOWN):
        if worse in said:
            return worse
    return Verdict.WITHIN


def rows_asked(
    house: RiggedHouse, rigged: RiggedSet, stack: Stack, forces: Forces, pulls: Mapping[str, SteelPulls]
) -> tuple[Check, ...]:
    """The limit rows of one set, less what a person says is not checked here.

    What is found to be over can not be signed away. `pulls` are what sets put on the steel they share, by label.
    """
    bay = next((one for one in house.bays if rigged.label in one.sets), None)
    others = {label: pulls.get(label) for label in (bay.sets if bay else ()) if label != rigged.label}
    rows = rows_of(house, rigged, stack, forces, links_of(rigged, bay, others))
    return tuple(row for row in rows if row.verdict is Verdict.OVER
                 or not any(one.covers(row.link, row.label) for one in house.not_checked))  # fmt: skip


def verdict_of(rigged: RiggedSet, rows: Sequence[Check]) -> Verdict:
    """The worst of its rows; over where a piece hangs on a set that is out of service."""
    if rigged.out_of_service and rigged.pieces:
        return Verdict.OVER
    said = {row.verdict for row in rows}
    for worse in (Verdict.OVER, Verdict.UNKNOWN):
        if worse in said:
            return worse
    return Verdict.WITHIN


def _computed(
    house: RiggedHouse,
    rigged: RiggedSet,
    own: Forces,
    pulls: Mapping[str, SteelPulls],
) -> SetResult:
    stack, basis = stack_of(rigged)
    asked = rows_asked(house, rigged, stack, own, pulls)
    return SetResult(
        label=rigged.label, rigged=rigged, stack=stack, stack_basis=basis, forces=own, rows=asked,
        balance=_balance(rigged, stack), verdict=verdict_of(rigged, asked),
        out_of_service=rigged.out_of_service, findings=tuple(findings_of(house, rigged, asked)),
    )  # fmt: skip


def _uncomputed(house: RiggedHouse, written: LineSet, rigged: RiggedSet | None, found: object) -> SetResult:
    label, out = written.label, written.out_of_service
    tips = found if isinstance(found, Tipping) else None
    hung = next((one.piece for one in house.hang.hung if one.label == label), None)
    findings = [*([out_of_service_finding(label, hung, out)] if out and hung else []),
                *missing_findings(house, label, tips)]  # fmt: skip
    over = (tips is not None and tips.is_certain) or bool(out and hung)
    return SetResult(
        label=label, rigged=rigged, stack=None, stack_basis="", forces=None, rows=(), balance=(),
        verdict=Verdict.OVER if over else Verdict.UNKNOWN, out_of_service=out, findings=tuple(findings),
    )  # fmt: skip


def _balance(rigged: RiggedSet, stack: Stack) -> tuple[tuple[float, Span], ...]:
    step = (rigged.high - rigged.low) / (BALANCE_STATIONS - 1)
    heights = {rigged.low + i * step for i in range(BALANCE_STATIONS)} | set(flying_heights(rigged))
    heights |= {one.height for one in rigged.pieces if rigged.low < one.height < rigged.high}
    return tuple((height, out_of_balance(rigged, stack, height)) for height in sorted(heights))


def _unknowns(house: RiggedHouse, results: list[SetResult]) -> tuple[Unknown, ...]:
    """Figures to find out, the one on which most sets wait first."""
    waiting: dict[tuple[str, str, str], list[str]] = {}
    for lacking in house.missing:
        place = where(lacking.path, lacking.line)
        waiting.setdefault((lacking.what, lacking.path, place), []).append(lacking.label)
    for one in results:
        for row in one.rows:
            if row.verdict is not Verdict.UNKNOWN:
                continue
            for figure in row.inputs:
                if figure.is_unknown or (row.limit is not None and not row.lacks and figure.how.value == "estimate"):
                    sets = waiting.setdefault((figure.name, figure.path, figure.where), [])
                    if one.label not in sets:
                        sets.append(one.label)
    found = [Unknown(what=what, path=path, where=place, sets=tuple(sets))
             for (what, path, place), sets in waiting.items()]  # fmt: skip
    return tuple(sorted(found, key=lambda one: -len(one.sets)))
