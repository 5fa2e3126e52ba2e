"""What can be written for a figure that is asked for: a choice of words, sizes that are published, or a like of it."""

from __future__ import annotations

import dataclasses
import re
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from typing import Any

from counterpoise.catalogue import rows
from counterpoise.checks import Unknown
from counterpoise.documents import Bay, Brick, Bridge, House, Hung, LineSet, Piece, Stage
from counterpoise.units import Kind

ROOTS: dict[str, type[Any]] = {
    "kinds": LineSet, "sets": LineSet, "pieces": Piece, "hung": Hung, "steel": Bay, "bricks": Brick,
    "bridges": Bridge, "stage": Stage,
}  # fmt: skip
LIKE: dict[Kind, tuple[str, str]] = {  # in feet and pounds, in metres and kilograms
    Kind.LENGTH: ('42\' 6" or 3-1/2"', "12.8 m or 90 mm"),
    Kind.MASS: ("25 lb", "12 kg"),
    Kind.FORCE: ("500 lb", "2.2 kN"),
    Kind.LINE_MASS: ("2.72 lb/ft", "3.56 kg/m"),
    Kind.STRESS: ("21,000 psi", "145 MPa"),
    Kind.FLOOR_LOAD: ("75 psf", "5 kN/m2"),
    Kind.RATIO: ("80 %", "80 %"),
    Kind.ANGLE: ("90 deg", "90 deg"),
    Kind.COUNT: ("3", "3"),
}
SIZES = {"pipe": "pipe", "rope": "wire rope", "chain": "chain", "shackle size": "shackle"}  # field: family
_WORDS = re.compile(r"\[\d+\]")


@dataclass(frozen=True, slots=True, kw_only=True)
class Asked:
    """How a figure is asked for: words to choose from, sizes to begin with, and what one writes, in words."""

    choices: tuple[str, ...] = ()
    sizes: tuple[str, ...] = ()
    like: str = ""


def asked_as(path: str, house: House) -> Asked:
    """What the field at this path takes. Nothing is told where it is not one of a set, a piece or the house's steel."""
    is_us = house.units == "us"
    last = path.rpartition(".")[2]
    if last in SIZES:
        named = tuple(dict.fromkeys(row.name for row in rows(SIZES[last])))
        return Asked(sizes=named, like=f"a size, as in {named[0]}" if named else "")
    if last == "brick":
        return Asked(choices=tuple(one.brick for one in house.bricks))
    if path.endswith(".lines.at"):
        return Asked(like="places from the centre line: 20' SR, 10' SR, CL, 10' SL, 20' SL" if is_us
                     else "places from the centre line: 6 m SR, 3 m SR, CL, 3 m SL, 6 m SL")  # fmt: skip
    reads = _reads(path)
    if "choice" in reads:
        return Asked(choices=tuple(word for word in reads["choice"] if word != "unknown"))
    if "kind" in reads:
        us, metric = LIKE.get(reads["kind"], ("", ""))
        said = us if is_us else metric
        return Asked(like=f"a {reads['kind'].value}, as in {said}" if said else "")
    return Asked()


def _reads(path: str) -> dict[str, Any]:
    """What the reader of the field at a path says of itself."""
    first, *rest = _WORDS.sub("", path).split(".")
    shape = ROOTS.get(first)
    names = rest[1:] if first == "kinds" else rest
    reads: dict[str, Any] = {}
    for name in names:
        if shape is None:
            return {}
        reads = _of_field(shape, name)
        shape = reads.get("record")
    while "record" in reads and "word" in reads:  # one word may stand for the whole of it
        reads = _of_field(reads["record"], reads["word"])
    return reads


def _of_field(shape: type[Any], name: str) -> dict[str, Any]:
    found = next((one for one in dataclasses.fields(shape) if one.name.rstrip("_").replace("_", " ") == name), None)
    return {} if found is None else dict(getattr(found.metadata.get("reader"), "reads", {}))


def for_which(one: Unknown, sets: Iterable[LineSet]) -> str:
    """For which sets it is written: all that share the place, however few of them wait for it."""
    waits = f"set {one.sets[0]}" if len(one.sets) == 1 else f"{len(one.sets)} sets"
    shared = [(path.split(".")[1], count) for path, count in _sharing(one.paths, list(sets))]
    total = sum(count for _, count in shared)
    if not shared or total <= len(one.sets):
        return f"for {waits}"
    names = ", ".join(dict.fromkeys(name for name, _ in shared))
    return f"{waits} wait{'s' if len(one.sets) == 1 else ''} for it; written once for all {total} sets of kind {names}"


def _sharing(paths: Iterable[str], sets: list[LineSet]) -> Iterator[tuple[str, int]]:
    for path in paths:
        if path.startswith("kinds."):
            yield path, sum(1 for one in sets if one.home and path.startswith(f"{one.home}."))
