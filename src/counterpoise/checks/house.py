"""The whole hang: each set's stack, forces, rows, verdict and findings, and the one unknown to measure first."""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date

from counterpoise.balance import Span, Stack, out_of_balance, pipe_weight
from counterpoise.checks.bridge_rows import bridge_findings, bridge_rows
from counterpoise.checks.findings import (
    Finding,
    findings_of,
    missing_findings,
    nothing_checked,
    out_of_service_finding,
)
from counterpoise.checks.left_out import left_out
from counterpoise.checks.limits import flying_heights, rows_asked, stack_of, verdict_of
from counterpoise.checks.pipe_weight import PIPE_WEIGHT
from counterpoise.checks.rows import Check, Verdict
from counterpoise.checks.unknowns import Unknown, Waiting, unknowns_of
from counterpoise.documents import COUNTERWEIGHT, LineSet, NotChecked, Speech
from counterpoise.loadpath import Forces, SteelPulls, Tipping, forces_of, steel_pulls
from counterpoise.rigging import RiggedBatten, RiggedHouse, RiggedSet
from counterpoise.units import Style

FOUND_BY_FEEL = ("lock", "tension block")  # what the rail finds out by feeling the balance, within the lock
OF_NO_LOAD = ("lock", "hand line", "tension block", "top stop", "bottom stop", "crew", "bags", "clamp size",
              "fleet angle", "roll", "fire curtain")  # these say nothing of how much may hang  # fmt: skip
FITS = ("clamp size", "fire curtain")  # a size that fits and a path that is clear govern nothing
BALANCE_STATIONS = 33  # heights at which the balance is drawn; it is straight between the kinks, which are added


@dataclass(frozen=True, slots=True, kw_only=True)
class SetResult:
    """One set. `stack_basis` says where the count is from.

    `batten` and `forces` are None where a figure is missing without which no pull can be computed; `rigged` where the
    balance can not be, or where the set is none of counterweight.
    """

    label: str
    batten: RiggedBatten | None
    rigged: RiggedSet | None
    stack: Stack | None
    stack_basis: str
    forces: Forces | None
    rows: tuple[Check, ...]
    balance: tuple[tuple[float, Span], ...]
    verdict: Verdict
    out_of_service: str
    findings: tuple[Finding, ...]
    written: LineSet
    hung: tuple[str, ...]  # the names of what is hung on it

    @property
    def governing(self) -> Check | None:
        """The row that is nearest its limit, or farthest past it; None where no row has a figure."""
        known = [
            row
            for row in self.rows
            if row.limit is not None and not row.lacks and (row.link not in FITS or row.verdict is Verdict.OVER)
        ]  # a size that fits governs nothing
        return max(known, key=lambda row: row.use, default=None)

    @property
    def posted(self) -> tuple[Check, Check] | None:
        """The posted capacity nearest its limit and the computed row that is, the one that governs first.

        None where one of the two has no figure: of a posted and a computed one the lowest governs, and the other is
        shown beside it.
        """
        known = [row for row in self.rows if row.limit is not None and not row.lacks and row.link not in OF_NO_LOAD]
        kinds = [[row for row in known if (row.link == "posted capacity") is posted] for posted in (True, False)]
        if not all(kinds):
            return None
        first, second = sorted((max(rows, key=lambda row: row.use) for rows in kinds), key=lambda row: -row.use)
        return first, second

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
        can_load = self.forces is not None and (self.rigged is not None or self.written.rigged != COUNTERWEIGHT)
        return "" if can_load and felt else "unknown"

    @property
    def slack(self) -> tuple[int, ...]:
        """The lines that carry nothing at the best figures, counted from 1."""
        if self.forces is None:
            return ()
        return tuple(i + 1 for i in range(len(self.forces.best.tensions)) if i not in self.forces.best.carrying)

    @property
    def bricks(self) -> str:
        """The count on the arbor in words, "43+1" with 1 small; about so many (~) where a weight is not one figure."""
        if self.stack is None or self.rigged is None:
            return ""
        certain = self.stack_basis == "stated" or all(piece.is_certain for piece in self.rigged.pieces)
        return f"{'' if certain else '~'}{_counted(self.stack)}"

    @property
    def add(self) -> str:
        """What goes on beside pipe weight, as `bricks` says it; "" where there is no count."""
        if self.stack is None or self.rigged is None:
            return ""
        own = pipe_weight(self.rigged)
        large, small = self.stack.bricks - own.bricks, self.stack.small - own.small
        about = "~" if self.bricks.startswith("~") else ""
        return f"{about}{large:+d}" + (f"{small:+d}" if self.rigged.small and (small or own.small) else "")

    @property
    def telling(self) -> Check | None:
        """The row that decides the verdict: what governs where that has this verdict, else one that has."""
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
class HouseResult:
    """The whole hang. `bridges` are rows of the house, of no set; `left_out` is what was not computed, in words."""

    house: RiggedHouse
    sets: tuple[SetResult, ...]
    findings: tuple[Finding, ...]
    verdict: Verdict
    unknowns: tuple[Unknown, ...]
    not_checked: tuple[NotChecked, ...]
    bridges: tuple[Check, ...] = ()
    left_out: tuple[str, ...] = ()

    def set_called(self, label: str) -> SetResult | None:
        """The result of this set, None where the house has none."""
        return next((one for one in self.sets if one.label == label), None)

    def speech(self) -> Speech:
        """What turns a sentence about it into the house's own words."""
        return Speech(self.house.house, self.house.hang)

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
    found = {one.label: (one, forces_of(one)) for one in house.battens}
    pulls = {label: steel_pulls(rigged, one, house.bay_of(label))
             for label, (rigged, one) in found.items() if isinstance(one, Forces) and not rigged.taut}  # fmt: skip
    hung: dict[str, list[str]] = {}
    for piece in house.hang.hung:
        hung.setdefault(piece.label, []).append(piece.piece)
    results = []
    for written in house.house.sets:
        rigged, what = found.get(written.label, (None, None))
        names = tuple(hung.get(written.label, ()))
        if rigged is not None and rigged.twins:
            names = tuple(piece.name for piece in rigged.pieces)
        if rigged is None or not isinstance(what, Forces):
            results.append(_uncomputed(house, written, rigged, what, names))
        else:
            results.append(_computed(house, rigged, what, pulls, names))
    bridges = tuple(bridge_rows(house))
    everything = [finding for one in results for finding in one.findings]
    everything += bridge_findings(bridges, Style(house.house.units))  # type: ignore[arg-type]  # one of these two words
    order = {Verdict.OVER: 0, Verdict.UNKNOWN: 1, Verdict.WITHIN: 2}
    everything.sort(key=lambda one: (order[one.verdict], one.code != PIPE_WEIGHT))
    return HouseResult(house=house, sets=tuple(results), findings=tuple(everything), verdict=_all(results, bridges),
                       unknowns=unknowns_of(house, [Waiting(one.label, one.forces is not None, one.rows, one.written)
                                              for one in results]), not_checked=standing, bridges=bridges,
                       left_out=_left_out(house, results))  # fmt: skip


def _left_out(house: RiggedHouse, results: Sequence[SetResult]) -> tuple[str, ...]:
    return left_out(house, [(one.written, bool(one.hung), one.rows) for one in results if one.forces is not None])


def _counted(stack: Stack) -> str:
    return f"{stack.bricks}+{stack.small}" if stack.small else f"{stack.bricks}"


def _all(results: list[SetResult], bridges: Sequence[Check]) -> Verdict:
    said = {*(one.verdict for one in results), *(row.verdict for row in bridges)}
    for worse in (Verdict.OVER, Verdict.UNKNOWN):
        if worse in said:
            return worse
    return Verdict.WITHIN


def _computed(
    house: RiggedHouse, batten: RiggedBatten, own: Forces, pulls: Mapping[str, SteelPulls], hung: tuple[str, ...]
) -> SetResult:
    rigged = batten if isinstance(batten, RiggedSet) else None
    stack, basis = stack_of(rigged) if rigged is not None else (None, "")
    asked = rows_asked(house, batten, stack, own, pulls)
    findings = [*findings_of(house, batten, asked, pulls), *missing_findings(house, batten.label, None)]
    findings += [] if asked else [nothing_checked(batten.label)]
    verdict = verdict_of(batten, asked)
    if verdict is Verdict.WITHIN and findings:
        verdict = Verdict.UNKNOWN
    return SetResult(
        label=batten.label, batten=batten, rigged=rigged, stack=stack, stack_basis=basis, forces=own, rows=asked,
        balance=_balance(rigged, stack) if rigged is not None and stack is not None else (), verdict=verdict,
        out_of_service=batten.out_of_service, findings=tuple(findings), written=batten.written, hung=hung,
    )  # fmt: skip


def _uncomputed(
    house: RiggedHouse, written: LineSet, batten: RiggedBatten | None, found: object, hung: tuple[str, ...]
) -> SetResult:
    label, out = written.label, written.out_of_service
    tips = found if isinstance(found, Tipping) else None
    findings = [*([out_of_service_finding(label, hung[0], out)] if out and hung else []),
                *missing_findings(house, label, tips)]  # fmt: skip
    over = (tips is not None and tips.is_certain) or bool(out and hung)
    return SetResult(
        label=label, batten=batten, rigged=batten if isinstance(batten, RiggedSet) else None, stack=None,
        stack_basis="", forces=None, rows=(), balance=(), verdict=Verdict.OVER if over else Verdict.UNKNOWN,
        out_of_service=out, findings=tuple(findings), written=written, hung=hung,
    )  # fmt: skip


def _balance(rigged: RiggedSet, stack: Stack) -> tuple[tuple[float, Span], ...]:
    step = (rigged.high - rigged.low) / (BALANCE_STATIONS - 1)
    heights = {rigged.low + i * step for i in range(BALANCE_STATIONS)} | set(flying_heights(rigged))
    heights |= {at for one in rigged.pieces for at in one.changes if rigged.low < at < rigged.high}
    return tuple((height, out_of_balance(rigged, stack, height)) for height in sorted(heights))
