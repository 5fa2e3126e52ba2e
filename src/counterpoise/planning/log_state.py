"""How a log leaves a house, and the one line of it that is judged next."""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping
from dataclasses import dataclass, field

from counterpoise.documents import Done
from counterpoise.errors import Problem
from counterpoise.planning.state import Refusal, State
from counterpoise.rigging import RiggedHouse, RiggedSet


@dataclass(frozen=True, slots=True, kw_only=True)
class LeftOff:
    """A set that was left off in the middle of something: when, by whom, and whether its bricks are to be counted."""

    n: int
    why: str
    is_to_be_counted: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class Standing:
    """The whole house as a log leaves it: its state, the sets left off, and those locked out with the reason.

    `found` says of each set, by kind, how many more bricks its counts found than the log moved, below 0 how many
    fewer; `found_loose` likewise of what lies loose. `counted` are the sets, and `floors` the bridges, of which a count
    was believed that the log did not lead to: what stands there no step was judged for.
    """

    state: State
    left_off: Mapping[str, LeftOff] = field(default_factory=dict)
    locked_out: Mapping[str, str] = field(default_factory=dict)
    turned: frozenset[str] = frozenset()  # in a changeover: the sets on which what comes has begun to hang
    found: Mapping[str, Mapping[str, int]] = field(default_factory=dict)
    found_loose: Mapping[str, int] = field(default_factory=dict)
    counted: frozenset[str] = frozenset()
    floors: frozenset[str] = frozenset()

    @property
    def adrift(self) -> dict[str, int]:
        """By kind, what all counts together leave open: fewer than there were (below 0), or more."""
        total = Counter(self.found_loose)
        for kinds in self.found.values():
            total.update(kinds)
        return {kind: count for kind, count in total.items() if count}


@dataclass(frozen=True, slots=True, kw_only=True)
class Rehearsed:
    """How far a log was allowed, how all stands then, and what was refused at which line of the file (0: nowhere).

    `problems` are those of its text, where a line of it could not be read.
    """

    done: int
    of: int
    standing: Standing
    refusal: Refusal | None
    line: int = 0
    problems: tuple[Problem, ...] = ()
    over: Mapping[str, str] = field(default_factory=dict)  # by set or bridge: what is over as it stands


@dataclass(frozen=True, slots=True)
class At:
    """A line of a log, how all stands before it, and in a changeover the house with what is to hang."""

    house: RiggedHouse
    now: Standing
    done: Done
    coming: RiggedHouse | None

    def house_of(self, label: str) -> RiggedHouse:
        """The house by whose hang this set is judged just now."""
        return house_of(self.house, self.coming, self.now, label)

    def set_called(self, label: str) -> RiggedSet | None:
        """The set by the hang it is judged by just now."""
        return self.house_of(label).set_called(label)


def house_of(house: RiggedHouse, coming: RiggedHouse | None, standing: Standing, label: str) -> RiggedHouse:
    """The house by whose hang a set is judged: of a changeover the one that comes, once that has begun to hang."""
    return coming if coming is not None and label in standing.turned else house


def refused(says: str, mend: str, code: str = "LOG") -> Refusal:
    """A line of a log that is not allowed."""
    return Refusal(code=code, says=says, mend=mend)
