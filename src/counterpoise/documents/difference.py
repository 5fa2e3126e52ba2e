"""One difference between two readings of a document, and how it is said."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from enum import StrEnum

_NOT_WRITTEN = "not written"
# Fields whose words are told as what a thing now is, for `purchase single → double` is no way to speak.
_NOW = {"purchase": "{} purchase", "rigged": "{}", "comes": "comes {}", "out of service": "out of service: {}"}


class Form(StrEnum):
    """What kind of difference it is."""

    CHANGED = "changed"
    REWRITTEN = "rewritten"
    ADDED = "added"
    REMOVED = "removed"
    MOVED = "moved"
    RENUMBERED = "renumbered"


@dataclass(frozen=True, slots=True, kw_only=True)
class Difference:
    """One difference. `before` and `after` are the words of each side, "" where there are none."""

    form: Form
    where: str  # as in "set 14"; "" for the document itself
    what: str  # as in "loft block rating"; "" where the whole thing came or went
    before: str = ""
    after: str = ""
    sets: tuple[str, ...] = ()  # labels it touches, as they are now
    kind: str = ""  # the kind of set it was written for
    path: str = ""  # of a figure: where it stands in the document as it is now

    @property
    def says(self) -> str:
        """The difference as a sentence."""
        place = f"{self.where}: " if self.where else ""
        match self.form:
            case Form.ADDED | Form.REMOVED if not self.what:
                return f"{self.where} {self.form}" + (
                    f": {self.after or self.before}" * bool(self.after or self.before)
                )
            case Form.ADDED | Form.REMOVED:
                return f"{place}{self.what} {self.form}: {self.after or self.before}"
            case Form.MOVED:
                return f"{place}{self.what} moved from {self.before} to {self.after}"
            case Form.RENUMBERED:
                return f"{self.before} renumbered {self.after}"
            case Form.REWRITTEN:
                return f"{place}{self.what} only rewritten: {self.before} → {self.after}"
        last = self.what.rpartition(", ")[2]
        if last in _NOW and self.after and self.before:
            return f"{place}now {_NOW[last].format(self.after)} (was {self.before})"
        if not self.before or not self.after:
            return f"{place}{self.what} {self.before or _NOT_WRITTEN} → {self.after or _NOT_WRITTEN}"
        return f"{place}{self.what} {_arrow(self.before, self.after)}"


def _arrow(before: str, after: str) -> str:
    return f"{before} → {after}"


def labels_said(labels: Sequence[str], order: Sequence[str]) -> str:
    """Labels of sets in few words, runs of the house's order as `1-8`: "sets 1-8, 12A"."""
    at = {label: number for number, label in enumerate(order)}
    runs: list[list[str]] = []
    for label in sorted(labels, key=lambda one: at.get(one, len(at))):
        if runs and at.get(label, -1) == at.get(runs[-1][-1], -9) + 1:
            runs[-1].append(label)
        else:
            runs.append([label])
    said = ", ".join(f"{run[0]}-{run[-1]}" if len(run) > 2 else ", ".join(run) for run in runs)
    return f"set{'s' * (len(labels) > 1)} {said}"
