"""`counterpoise letgo`: speed and energy of one set that is let go, for a risk file."""

from __future__ import annotations

import argparse

from counterpoise.cli.answer import Answer
from counterpoise.errors import Misuse


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """What the command takes after the three files."""
    parser.add_argument("set", metavar="SET", help="label of the set")
    parser.add_argument("--bricks", type=int, metavar="N", help="on the arbor, with pipe weight; left out: its count")
    parser.add_argument("--from", dest="start", metavar="HEIGHT", help='of the batten, as in "20 ft"; else low trim')
    parser.add_argument("--struck", action="store_true", help="with nothing hung")


def letgo(asked: argparse.Namespace) -> Answer:
    """Tell what a set does that is let go."""
    from datetime import datetime

    from counterpoise.app import judge
    from counterpoise.app.files import read_texts
    from counterpoise.balance import Stack, best_stack, stated_stack
    from counterpoise.cli.say import CAUTION
    from counterpoise.planning import tell
    from counterpoise.planning.risk import told_let_go

    house = judge(read_texts(asked.house, asked.show, asked.hang), datetime.now().astimezone().date()).house
    rigged = house.set_called(asked.set)
    if rigged is None:
        lacking = ", ".join(one.what for one in house.missing_of(asked.set))
        mend = f"Find out first: {lacking}." if lacking else "Use a label that is in the house."
        raise Misuse(f'Set "{asked.set}" cannot be computed.', mend)
    if asked.bricks is not None and asked.bricks < 0:
        raise Misuse(f"{asked.bricks} bricks are asked.", "Give a count of 0 or more.")
    stack = stated_stack(rigged) or best_stack(rigged) if asked.bricks is None else Stack(asked.bricks)
    start = rigged.low if asked.start is None else _height(asked.start)
    if not rigged.low <= start <= rigged.high:
        reach = f"{tell.height(house, rigged.low)} to {tell.height(house, rigged.high)}"
        raise Misuse(f"{asked.start} is outside the travel of set {asked.set}.", f"Give a height from {reach}.")
    return Answer("\n".join([*told_let_go(house, rigged, stack, start, is_struck=asked.struck), "", CAUTION]))


def _height(words: str) -> float:
    from counterpoise.units import Kind, read

    found = read(words, Kind.LENGTH)
    if found.best is None:
        raise Misuse(f'"{words}" is not a height.', 'Write it like "20 ft" or "6 m".')
    return found.best
