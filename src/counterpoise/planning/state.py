"""What stands where: the state of every set, brick and hand as one step after another is done, and what a step is.

Knows no rule: what a step may do is judged in `replay`.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from enum import Enum

from counterpoise.balance import Stack
from counterpoise.planning.windows import hung_pieces
from counterpoise.rigging import RiggedHouse, RiggedPiece, RiggedSet


class Act(Enum):
    """What is done in one step."""

    HOLD_ON = "hold on"
    HOLD_OFF = "hold off"
    HANG = "hang"
    STRIKE = "strike"
    COLLARS_UP = "collars up"
    COLLARS_DOWN = "collars down"
    BRICKS_ON = "bricks on"
    BRICKS_OFF = "bricks off"
    COUNT = "count"
    LOCK_OPEN = "lock open"
    FEEL = "feel"
    MOVE = "move"
    LOCK_ON = "lock on"
    RIG = "rated hold on"
    CLEAR = "rated hold off"


@dataclass(frozen=True, slots=True, kw_only=True)
class Step:
    """One thing done to one set.

    `piece` is for hang and strike, of a section as in `windows.joins_of`; `hold` names a rated hold of the house;
    `bricks` and `small` for bricks on and off and for the count that the bridge
    reports: small ones go on last and come off first; `bridge` for bricks; `height` [m above stage] for a move.
    """

    act: Act
    set: str
    piece: str = ""
    bricks: int = 0
    small: int = 0
    bridge: str = ""
    height: float = 0.0
    hold: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class SetState:
    """One set as it stands: batten height [m], names of the pieces on it, bricks on its arbor, and what holds it.

    `blocked` says why it may not move, "" where it may; `counted` is the last count that did not agree.
    """

    height: float
    hung: tuple[str, ...]
    bricks: int
    locked: bool = True
    held: bool = False
    collars_down: bool = True
    felt: bool = False
    blocked: str = ""
    counted: Stack | None = None
    small: int = 0
    rated: tuple[str, ...] = ()  # the rated holds of the house that are on it

    @property
    def stack(self) -> Stack:
        """What is on its arbor."""
        return Stack(self.bricks, self.small)

    def pieces(self, rigged: RiggedSet) -> tuple[RiggedPiece, ...]:
        """The pieces that hang on it now, each with the sections that are bolted on."""
        return hung_pieces(rigged, self.hung)


@dataclass(frozen=True, slots=True, kw_only=True)
class State:
    """Every set by its label, and the loose bricks: kind, then place, then how many."""

    sets: Mapping[str, SetState]
    stock: Mapping[str, Mapping[str, int]]

    def with_set(self, label: str, on: SetState) -> State:
        """The same house with one set changed."""
        return State(sets={**self.sets, label: on}, stock=self.stock)

    def with_stock(self, kind: str, place: str, count: int) -> State:
        """The same house with another count of bricks at a place."""
        places = {**self.stock.get(kind, {}), place: count}
        return State(sets=self.sets, stock={**self.stock, kind: places})


def start(house: RiggedHouse) -> State:
    """Before anything is done: every set at low trim, empty, in pipe weight, locked, collars down."""
    sets = {
        one.label: SetState(height=one.low, hung=(), bricks=one.pipe_bricks, small=one.small_pipe_bricks)
        for one in house.as_one.sets
    }
    return State(sets=sets, stock={name: dict(kind.stock) for name, kind in house.bricks.items()})


@dataclass(frozen=True, slots=True, kw_only=True)
class Refusal:
    """Why a step, or a plan, is not allowed: what was asked, what is wrong, what to do instead, and a code.

    Codes: NO-SET, MISSING, SERVICE, BLOCKED, ORDER, BATTEN-FIRST, ARBOR-FIRST, HOLD, STOP, UNKNOWN-STOP, PIPE-WEIGHT,
    REACH, STACK, STOCK, BRIDGE-FLOOR, DECK-REACH, TRAVEL, FOULS, CURTAIN, WEIGH, NO-HOLD, TIPS, TALL, TWINS; of a log
    READ, LOG, OPEN, LEFT-OFF, OUT, COUNT, OVER.
    """

    code: str
    says: str
    mend: str
    step: Step | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Replayed:
    """The state before the first step and after each one that was allowed; and the refusal that ended it, if any."""

    states: tuple[State, ...]
    refusal: Refusal | None

    @property
    def last(self) -> State:
        """The state after the last step that was allowed."""
        return self.states[-1]
