"""What a judged hang is: of each set its rows, verdict and findings; of the house all of them."""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass

from counterpoise.balance import Span, Stack, pipe_weight
from counterpoise.checks.finding import Finding
from counterpoise.checks.rows import Check, Verdict
from counterpoise.checks.unknowns import Unknown
from counterpoise.documents import COUNTERWEIGHT, LineSet, NotChecked, Speech
from counterpoise.loadpath import Forces
from counterpoise.rigging import RiggedBatten, RiggedHouse, RiggedSet

FOUND_BY_FEEL = ("lock", "tension block")  # what the rail finds out by feeling the balance, within the lock
OF_NO_LOAD = ("lock", "hand line", "tension block", "top stop", "bottom stop", "crew", "bags", "clamp size",
              "fleet angle", "roll", "fire curtain")  # these say nothing of how much may hang  # fmt: skip
FITS = ("clamp size", "fire curtain")  # a size that fits and a path that is clear govern nothing


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


def _counted(stack: Stack) -> str:
    return f"{stack.bricks}+{stack.small}" if stack.small else f"{stack.bricks}"
