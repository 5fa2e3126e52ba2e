"""What the bridge does on each set: so many on, at which visit; or nothing, or HOLD with no count at all."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace

from counterpoise.balance import Stack, pipe_weight
from counterpoise.checks import HouseResult, SetResult, Verdict
from counterpoise.documents import COUNTERWEIGHT
from counterpoise.drawing import reason_of
from counterpoise.drawing.telling import AT_ONCE
from counterpoise.planning import Act, Plan
from counterpoise.rigging import RiggedSet


@dataclass(frozen=True, slots=True, kw_only=True)
class Visit:
    """Bricks put on in one go, with the batten at `height` [m]; counts before and after are of the whole stack."""

    height: float
    bridge: str
    before: int
    add: int
    plates: int
    small_before: int = 0
    small_add: int = 0
    held_by: tuple[str, ...] = ()  # the rated holds that are on meanwhile

    @property
    def after(self) -> int:
        """What is on when it is done."""
        return self.before + self.add

    @property
    def small_after(self) -> int:
        """And of the small ones."""
        return self.small_before + self.small_add


@dataclass(frozen=True, slots=True, kw_only=True)
class Held:
    """Rated holds without which a set may not be worked: on and off at these heights of the batten [m].

    `before` is the brick before which they go on, counted with what is on; None where no brick comes after. `on` is
    what is on when they come off.
    """

    holds: tuple[str, ...]
    start: float
    end: float
    before: int | None
    on: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Row:
    """One set on the sheet. With `hold` there are no visits: a set on hold is given no count to load."""

    label: str
    piece: str
    brick: str
    on_now: int | None
    plates_now: int | None = None
    visits: tuple[Visit, ...] = ()
    hold: str = ""
    why: str = ""  # of the hold; or what the bridge is to know of the count
    changed: str = ""
    small: str = ""  # the small brick, where the set takes one
    small_now: int = 0
    only_with: tuple[Held, ...] = ()


def rows_of(result: HouseResult, plans: Mapping[str, Plan], changed: Mapping[str, str]) -> Iterator[Row]:
    """Every set with an arbor in the order of the house; one that is out of service and empty gets no row."""
    for one in result.sets:
        if one.written.rigged == COUNTERWEIGHT and not (one.out_of_service and not one.hung):
            yield _row(one, plans.get(one.label), changed.get(one.label, ""))


def _row(one: SetResult, plan: Plan | None, changed: str) -> Row:
    rigged = one.rigged
    piece = ", ".join(one.hung)
    hold, why = _hold(one, plan)
    small = rigged.small.name if rigged and rigged.small else ""
    row = Row(label=one.label, piece=piece, brick=rigged.brick.name if rigged else "", small=small, changed=changed,
              on_now=rigged.pipe_bricks if rigged else None,
              small_now=rigged.small_pipe_bricks if rigged else 0)  # fmt: skip
    if hold or rigged is None or plan is None:
        return replace(row, hold=hold, why=why)
    return replace(row, plates_now=pipe_weight(rigged).plates(rigged), visits=tuple(_visits(rigged, plan)),
                   why=_then_feel(one), only_with=tuple(_held(rigged, plan)))  # fmt: skip


def _then_feel(one: SetResult) -> str:
    """Where the count is a first one: it stops where even the lightest piece balances."""
    doubtful = [each.name for each in one.rigged.pieces if not each.is_certain] if one.rigged else []
    return (
        f"A first count: the weight of {', '.join(doubtful)} is not one figure. Then wait: the rail feels."
        if (doubtful)
        else ""
    )


def _hold(one: SetResult, plan: Plan | None) -> tuple[str, str]:
    """Why nothing may be loaded, in a word and in a sentence; both empty where the set may be loaded."""
    if one.out_of_service:
        return one.hold, one.out_of_service
    if one.hold and not (plan is not None and plan.steps and _by_turns(one)):
        says, mend = reason_of(one) if one.hold == "over" else (_waits_for(one), "")
        return one.hold, f"{says} {mend}".strip()
    if plan is None:
        return "no plan", "No steps were made for this set."
    if plan.refusal is not None:
        return "no plan", plan.refusal.says
    return "", ""


def _by_turns(one: SetResult) -> bool:
    """True where it is over in its top stop alone, before a brick is on: pieces and bricks by turns mend that."""
    over = [each for each in one.findings if each.verdict is Verdict.OVER and each.code != AT_ONCE]
    return one.hold == "over" and all(each.key.endswith("/top stop") for each in over)


def _waits_for(one: SetResult) -> str:
    worst = next((each for each in one.findings if each.verdict is one.verdict), None)
    where = worst.place.partition(", ")[2] if worst else ""
    return f"{where}: {worst.says}" if worst and where else worst.says if worst else ""


def without_row(result: HouseResult) -> tuple[tuple[str, str], ...]:
    """The sets that have no arbor to load, each with how it is rigged; those out of service are told elsewhere."""
    return tuple((one.label, one.written.rigged.partition(":")[0]) for one in result.sets
                 if one.written.rigged != COUNTERWEIGHT and not one.out_of_service)  # fmt: skip


def _held(rigged: RiggedSet, plan: Plan) -> Iterator[Held]:
    """The rated holds of the plan, from the step that puts them on to the one that takes them off."""
    height, bricks = rigged.low, pipe_weight(rigged).bricks
    begun: dict[str, tuple[float, int | None]] = {}
    found: dict[tuple[float, int | None, float, int], list[str]] = {}
    for at, step in enumerate(plan.steps):
        if step.act is Act.MOVE:
            height = step.height
        elif step.act in (Act.BRICKS_ON, Act.BRICKS_OFF):
            bricks += step.bricks if step.act is Act.BRICKS_ON else -step.bricks
        elif step.act is Act.RIG:
            more = any(each.act is Act.BRICKS_ON for each in plan.steps[at:])
            begun[step.hold] = height, bricks + 1 if more else None
        elif step.act is Act.CLEAR:
            found.setdefault((*begun.pop(step.hold), height, bricks), []).append(step.hold)
    for hold, since in begun.items():  # it stays on
        found.setdefault((*since, height, bricks), []).append(hold)
    for (start, before, end, on), holds in found.items():
        yield Held(holds=tuple(sorted(holds)), start=start, end=end, before=before, on=on)


def _visits(rigged: RiggedSet, plan: Plan) -> Iterator[Visit]:
    on, height, holds = pipe_weight(rigged), rigged.low, dict[str, None]()
    for step in plan.steps:
        if step.act is Act.MOVE:
            height = step.height
        elif step.act is Act.RIG:
            holds[step.hold] = None
        elif step.act is Act.CLEAR:
            holds.pop(step.hold, None)
        elif step.act in (Act.BRICKS_ON, Act.BRICKS_OFF):
            sign = 1 if step.act is Act.BRICKS_ON else -1
            after = Stack(on.bricks + sign * step.bricks, on.small + sign * step.small)
            yield Visit(height=height, bridge=step.bridge, before=on.bricks, add=sign * step.bricks,
                        plates=after.plates(rigged), small_before=on.small, small_add=sign * step.small,
                        held_by=tuple(holds))  # fmt: skip
            on = after
