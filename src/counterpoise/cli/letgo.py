"""`counterpoise letgo`: speed and energy of one set that is let go, for a risk file."""

from __future__ import annotations

import argparse
import json
from typing import TYPE_CHECKING, Any

from counterpoise.cli.answer import Answer, today
from counterpoise.errors import Misuse

if TYPE_CHECKING:
    from counterpoise.balance import Stack
    from counterpoise.rigging import RiggedHouse, RiggedSet


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """What the command takes after the three files."""
    parser.add_argument("set", metavar="SET", help="label of the set")
    parser.add_argument("--bricks", type=int, metavar="N", help="on the arbor, with pipe weight; left out: its count")
    parser.add_argument(
        "--from", dest="start", metavar="HEIGHT", help='of the batten, as in "20 ft"; left out: where it is worst'
    )
    parser.add_argument("--struck", action="store_true", help="with nothing hung")
    parser.add_argument("--json", action="store_true", help="print data instead (see: counterpoise schema letgo)")


def letgo(asked: argparse.Namespace) -> Answer:
    """Tell what a set does that is let go."""
    from counterpoise.app import judge
    from counterpoise.app.files import read_texts
    from counterpoise.balance import Stack, best_stack, stated_stack
    from counterpoise.cli.say import CAUTION
    from counterpoise.planning import tell
    from counterpoise.planning.let_go import worst_start
    from counterpoise.planning.risk import told_let_go

    apart = judge(read_texts(asked.house, asked.show, asked.hang), today()).house
    house = apart.as_one  # married hand lines are let go together
    rigged = house.set_called(apart.label_of(asked.set))
    if rigged is None:
        raise _no_arbor(house, asked.set)
    if asked.bricks is not None and asked.bricks < 0:
        raise Misuse(f"{asked.bricks} bricks are asked.", "Give a count of 0 or more.")
    stack = stated_stack(rigged) or best_stack(rigged) if asked.bricks is None else Stack(asked.bricks)
    pieces = () if asked.struck else rigged.pieces
    start = worst_start(rigged, stack, pieces) if asked.start is None else _height(asked.start)
    if not rigged.low <= start <= rigged.high:
        reach = f"{tell.height(house, rigged.low)} to {tell.height(house, rigged.high)}"
        raise Misuse(f"{asked.start} is outside the travel of set {asked.set}.", f"Give a height from {reach}.")
    if asked.json:
        data = _as_data(rigged, stack, start, is_struck=asked.struck)
        return Answer(json.dumps(data, indent=1, ensure_ascii=True, allow_nan=False))
    return Answer("\n".join([*told_let_go(house, rigged, stack, start, is_struck=asked.struck), "", CAUTION]))


def _no_arbor(house: RiggedHouse, label: str) -> Misuse:
    """Why there is nothing to let go: no such set, a figure that is lacking, or a set without an arbor."""
    lacking = ", ".join(one.what for one in house.missing_of(label))
    if lacking:
        return Misuse(f'Set "{label}" cannot be computed.', f"Find out first: {lacking}.")
    written = house.house.set_called(label)
    if written is None:
        return Misuse(f'There is no set "{label}".', "Use a label that is in the house.")
    return Misuse(f'Set "{label}" is {written.rigged}: it has no arbor to be let go.',
                  "Name a counterweight set. What this one carries is told by `counterpoise check`.")  # fmt: skip


def _as_data(rigged: RiggedSet, stack: Stack, start: float, *, is_struck: bool) -> dict[str, Any]:
    """As `counterpoise letgo 1`: SI figures, without friction and with the band of it."""
    from counterpoise.cli.say import CAUTION
    from counterpoise.planning.let_go import let_go
    from counterpoise.planning.risk import FRICTION

    pieces = () if is_struck else rigged.pieces
    runs = [(share, let_go(rigged, stack, start, pieces, friction=share)) for share in (0.0, *FRICTION)]
    return {
        "schema": "counterpoise letgo 1", "set": rigged.label, "bricks": stack.bricks, "small": stack.small,
        "hung": [one.name for one in pieces], "start": start, "balance": runs[0][1].balance,
        "runs": [{"friction": share, "end": one.end, "is_stopped": one.is_stopped, "acceleration": one.acceleration,
                  "speed": one.speed, "arbor_speed": one.arbor_speed, "energy": one.energy, "time": one.time,
                  "moving": one.moving, "moved": one.moved, "strikes": [
                      {"name": each.name, "height": each.height, "speed": each.speed, "energy": each.energy}
                      for each in one.strikes]} for share, one in runs],
        "caution": CAUTION,
    }  # fmt: skip


def _height(words: str) -> float:
    from counterpoise.units import Kind, read

    found = read(words, Kind.LENGTH)
    if found.best is None:
        raise Misuse(f'"{words}" is not a height.', 'Write it like "20 ft" or "6 m".')
    return found.best
