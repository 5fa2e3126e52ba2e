"""Whole calls, changeovers and logs: what is asked of them, and which sets a verdict holds back."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date

from counterpoise.app.judge import Texts, read
from counterpoise.app.speaking import over_at_the_end, would_end_over
from counterpoise.checks import HouseResult
from counterpoise.documents import read_log_so_far
from counterpoise.errors import Misuse
from counterpoise.planning.call import Call, load_in_call, strike_call
from counterpoise.planning.changeover import changeover
from counterpoise.planning.log import Rehearsed, rehearse_so_far
from counterpoise.planning.state import Refusal
from counterpoise.planning.turns import Wanted
from counterpoise.rigging import rig

STEPS_A_SECOND = 20_000  # of the search, on a slow machine; the plan itself knows no clock


def whole_call(result: HouseResult, *, is_strike: bool, seconds: float, order: Sequence[str] = ()) -> Call:
    """The load-in of all that hangs, or its strike. A set that would end over is held at the load-in.

    Raises Misuse where the order names a set on which nothing hangs.
    """
    wanted = Wanted(order=tuple(order), held={} if is_strike else _over(result), budget=_steps(seconds))
    call = strike_call(result.house, wanted) if is_strike else load_in_call(result.house, wanted)
    _all_known(order, call)
    return call


def from_hang_to_hang(
    old: HouseResult, new: HouseResult, *, seconds: float, order: Sequence[str] = (), strip_first: bool = False
) -> Call:
    """The changeover from one hang to another. A set that would end over is held with what hangs on it now.

    Raises Misuse where the two are not of one house, or the order names a set that does not change.
    """
    if old.house.house.name != new.house.house.name:
        raise Misuse(f"{old.house.name} and {new.house.name} are two houses.", "Name two hangs of one house.")
    wanted = Wanted(order=tuple(order), held=_over(new), budget=_steps(seconds))
    call = changeover(old.house, new.house, wanted, strip_first=strip_first)
    _all_known(order, call)
    return call


def rehearsed(
    texts: Texts, log: str, log_name: str, coming: Texts | None = None, on: date | None = None
) -> tuple[HouseResult, Rehearsed]:
    """A log judged against its house, show and hang, of a changeover also against `coming`, what is to hang.

    `on` is the day for which it is judged: what is not checked only until an earlier one is asked for again. A line of
    the log that can not be read, or does not follow, is refused like one that is not allowed; all of them are among its
    `problems`. Raises BadDocument with every problem found where another document, or the head of the log, has one.
    """
    from counterpoise.checks import check

    house, show, hang = read(texts)
    later = None if coming is None else read(coming)
    written = read_log_so_far(log, house, show, log_name, coming=None if later is None else later[1])
    result = check(rig(house, show, hang), on)
    then = None if later is None else check(rig(*later), on).house
    return result, rehearse_so_far(result.house, written, then)


def _steps(seconds: float) -> int:
    return max(1, round(seconds * STEPS_A_SECOND))


def _over(result: HouseResult) -> dict[str, Refusal]:
    """The sets whose check says over, whatever the order of work, each with the worst of it."""
    found = ((one.label, over_at_the_end(one)) for one in result.sets)
    return {label: would_end_over(worst) for label, worst in found if worst is not None}


def _all_known(order: Sequence[str], call: Call) -> None:
    known = {turn.set for turn in call.turns} | {one.set for one in call.held}
    for label in order:
        if label not in known:
            worked = ", ".join(dict.fromkeys(turn.set for turn in call.turns)) or "none"
            raise Misuse(f'The order names set "{label}", on which nothing is to be done.', f"To be worked: {worked}.")
