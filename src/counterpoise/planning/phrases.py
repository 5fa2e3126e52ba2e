"""Parts of what is said: counts, places, pieces."""

from __future__ import annotations

import itertools
from collections.abc import Iterable, Iterator, Sequence
from typing import Literal

from counterpoise.balance import Stack
from counterpoise.planning import tell
from counterpoise.rigging import RiggedHouse, RiggedSet


def spoken_to(house: RiggedHouse, place: str) -> Literal["bridge", "rail"]:
    """Who moves bricks at a place."""
    return "rail" if place in {one.rail for one in house.house.rails} else "bridge"


def place_first(house: RiggedHouse, place: str) -> str:
    """From where, where more than one place could be meant."""
    return f"from {place} " if len(house.bridges) > 1 or spoken_to(house, place) == "rail" else ""


def each_arbor(rigged: RiggedSet) -> str:
    """A count is of one arbor, where several stand abreast."""
    return " each" if rigged.abreast > 1 else ""


def worth_at_batten(house: RiggedHouse, rigged: RiggedSet, mass: float) -> str:
    """What bricks of that mass [kg] balance where the batten travels twice as far, else ""."""
    return f" ({tell.mass_up(house, mass / 2)} at the batten)" if rigged.purchase == 2 else ""


def bricks(count: int, kind: str = "") -> str:
    """A count of bricks in words, of one kind where it is named."""
    return f"{count} {kind}{' ' if kind else ''}brick{'' if count == 1 else 's'}"


def stack_said(stack: Stack) -> str:
    """All bricks of a stack in words: "1 brick", "12 bricks", "12 and 1 small bricks"."""
    return f"{stack.said} brick{'' if stack.count == 1 else 's'}"


def plates_on_top(count: int) -> str:
    """What goes on after bricks have moved."""
    if count == 0:
        return "Collars down."
    if count == 1:
        return "One plate on top, collars down."
    return f"{count} plates, one on top, collars down."


def all_of(names: Iterable[str]) -> str:
    """Names in a row, the last after "and"."""
    return " and ".join(", ".join(names).rsplit(", ", 1))


def pieces_said(rigged: RiggedSet | None, names: Sequence[str]) -> str:
    """Pieces by name; lights of one piece that follow on each other by their numbers."""
    of = {unit: (one, number) for one in (rigged.pieces if rigged is not None else ()) if one.lights
          for number, unit in enumerate(one.units)}  # fmt: skip
    said: list[str] = []
    for piece, group in itertools.groupby(names, key=lambda name: of[name][0] if name in of else None):
        units = list(group)
        if piece is None:
            said += units
            continue
        if len(units) == len(piece.units):
            said.append(piece.name)
            continue
        lights = sorted(int(name.split()[1]) for name in units if name.startswith("light "))
        said += [name for name in units if not name.startswith("light ")]
        if len(lights) > 1 and lights[-1] - lights[0] == len(lights) - 1:
            said.append(f"lights {lights[0]} to {lights[-1]} of {piece.name}")
        else:
            said += [f"light {number} of {piece.name}" for number in lights]
    return all_of(said)


def married_note(rigged: RiggedSet) -> Iterator[str]:
    """What several sets in one plan rest on."""
    if rigged.abreast > 1:
        names = all_of(rigged.arbors)
        yield (f"Sets {names} as one: hand lines married, moved together, one voice, the same count on each arbor. "
               "Judged by their weights together, and by the weakest lock, stop and tension block as if it held all of "
               "it alone. What each carries is not known: with one fouled it may be all.")  # fmt: skip
