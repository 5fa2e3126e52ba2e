"""The families of the catalogue: what each is, which kind of quantity its fields are, and the module of its rows."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from counterpoise.errors import Misuse
from counterpoise.units import Kind


@dataclass(frozen=True, slots=True, kw_only=True)
class Family:
    """A family. `module` is imported when the first of its rows is asked for."""

    module: str
    about: str
    kinds: Mapping[str, Kind]


_PIPE = {"outside diameter": Kind.LENGTH, "wall": Kind.LENGTH, "design wall": Kind.LENGTH, "weight": Kind.LINE_MASS,
         "modulus": Kind.STRESS}  # fmt: skip
_ROPE = {"diameter": Kind.LENGTH, "weight": Kind.LINE_MASS, "breaking strength": Kind.FORCE}
_PER_AREA = {"weight": Kind.AREA_MASS}
_PER_LENGTH = {"weight": Kind.LINE_MASS}

FAMILIES: Mapping[str, Family] = {
    "pipe": Family(module="pipe", about="steel pipe by nominal size and schedule", kinds=_PIPE),
    "tube": Family(module="tube", about="round tube by diameter and wall, steel and aluminium", kinds=_PIPE),
    "wire rope": Family(module="wire_rope", about="wire rope for lift lines", kinds=_ROPE | {"stiffness": Kind.FORCE}),
    "termination": Family(
        module="termination",
        about="share of a rope's breaking strength that its end fitting leaves",
        kinds={"termination": Kind.RATIO, "clips": Kind.COUNT, "turn back": Kind.LENGTH, "torque": Kind.MOMENT},
    ),
    "chain": Family(
        module="chain",
        about="welded chain by grade, jack chain",
        kinds={"rating": Kind.FORCE, "weight": Kind.LINE_MASS},
    ),
    "shackle": Family(module="shackle", about="screw-pin anchor shackles", kinds={"rating": Kind.FORCE}),
    "turnbuckle": Family(module="turnbuckle", about="forged turnbuckles, open body", kinds={"rating": Kind.FORCE}),
    "fibre rope": Family(module="fibre_rope", about="hand lines and hemp", kinds=_ROPE | {"rating": Kind.FORCE}),
    "cloth": Family(module="cloth", about="cloth, weight per flat area before fullness", kinds=_PER_AREA),
    "board": Family(module="board", about="plywood and board, weight per area", kinds=_PER_AREA),
    "lumber": Family(module="lumber", about="softwood lumber, weight per length", kinds=_PER_LENGTH),
    "cable": Family(module="cable", about="electric cable, weight per length", kinds=_PER_LENGTH),
    "fixture": Family(module="fixture", about="stage lights, typical weights", kinds={"weight": Kind.MASS}),
    "brick": Family(
        module="brick", about="what bricks are made of, weight per plan area by thickness", kinds=_PER_AREA
    ),
}


def families() -> tuple[str, ...]:
    """The names of all families."""
    return tuple(FAMILIES)


def about(family: str) -> str:
    """What a family is, in a few words. Raises Misuse for a family that is not there."""
    return family_called(family).about


def kinds_of(family: str) -> Mapping[str, Kind]:
    """The fields that rows of a family may have, and what kind of quantity each is. Raises Misuse as `about` does."""
    return family_called(family).kinds


def family_called(name: str) -> Family:
    """A family by its name.

    Raises:
        Misuse: there is none; the near name is told.
    """
    if name in FAMILIES:
        return FAMILIES[name]
    import difflib

    close = difflib.get_close_matches(name.lower(), FAMILIES, n=1)
    mend = f"Did you mean {close[0]}?" if close else f"It has {', '.join(FAMILIES)}."
    raise Misuse(f'The catalogue has no family "{name}".', mend)
