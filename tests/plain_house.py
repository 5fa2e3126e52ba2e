"""An invented house in plain maps, so that a test changes one thing and judges the whole hang.

Round figures and no lift-line weight unless a test asks for it. A batten of 42 ft weighs 114.24 lb (2.72 lb/ft, ASME
B36.10M 1-1/2 in schedule 40).
"""

from __future__ import annotations

from typing import Any

import yaml

from counterpoise.app import Texts
from counterpoise.checks import HouseResult, check
from counterpoise.documents import Hang, House, Show, read_hang, read_house, read_show
from counterpoise.rigging import RiggedHouse, RiggedSet, rig
from counterpoise.units.constants import NEWTONS_PER_POUND_FORCE

LB = NEWTONS_PER_POUND_FORCE  # [N]
FT = 0.3048  # [m]

Map = dict[str, Any]


def a_set(label: str = "9", **changes: Any) -> Map:
    """A set; a change of a map is laid over it, `_` stands for a space."""
    plain: Map = {
        "set": label, "distance": "3 ft", "purchase": "single", "hand line": "with the batten",
        "low trim": "4 ft", "high trim": "58 ft",
        "batten": {"length": "42 ft", "outside diameter": "1.900 in", "wall": "0.145 in", "design wall": "0.135 in",
                   "weight": "2.72 lb/ft", "modulus": "29,000 ksi", "hardware": "0 lb"},
        "lines": {"at": ["20' SR", "10' SR", "CL", "10' SL", "20' SL"], "weight": "0 lb/ft",
                  "breaking strength": "7,000 lb", "termination": "80 %", "stiffness": "446,000 lb",
                  "head block from end": "4 ft", "trim chain": "1,300 lb", "shackle": "1,000 lb"},
        "loft block": {"rating": "500 lb", "rating of": "line pull"},
        "head block": {"rating": "2,000 lb", "rating of": "line pull"},
        "arbor": {"weight": "64.24 lb", "rating": "1,500 lb", "usable height": "66 in", "seat at low trim": "50 ft",
                  "plate weight": "0 lb", "plate thickness": "0 in"},
        "brick": "full", "pipe weight": "2", "stops": {"top": "1500 lb", "bottom": "1500 lb"},
        "tension block": "400 lb",
    }  # fmt: skip
    return _over(plain, {name.rstrip("_").replace("_", " "): value for name, value in changes.items()})


def _over(under: Map, upper: Map) -> Map:
    merged = dict(under)
    for name, value in upper.items():
        below = merged.get(name)
        if value is None:
            merged.pop(name, None)
        else:
            merged[name] = _over(below, value) if isinstance(value, dict) and isinstance(below, dict) else value
    return merged


def a_house(*sets: Map, **changes: Any) -> Map:
    """A house of those sets, all in one bay of loft steel."""
    sets = sets or (a_set(),)
    plain: Map = {
        "counterpoise": "house 1", "name": "Plainfield Hall", "units": "us", "stage": {"loft blocks": "62 ft"},
        "bricks": [{"brick": "full", "weight": "25 lb", "thickness": "1 in", "stock": {"bridge": "200"}}],
        "steel": [{"bay": "A", "sets": [one["set"] for one in sets], "loft beam": "1,500 lb", "head beam": "6,000 lb",
                   "impact": "included"}],
        "sets": list(sets),
    }  # fmt: skip
    return _over(plain, {name.replace("_", " "): value for name, value in changes.items()})


def a_piece(name: str = "border", weight: str = "100 lb", **changes: Any) -> Map:
    """A piece, evenly spread over 40 ft unless it has picks."""
    plain: Map = {"piece": name, "weight": weight, "height": "3 ft"}
    if "picks" not in changes:
        plain["spread over"] = "40 ft"
    return plain | {word.replace("_", " "): value for word, value in changes.items()}


def hung(piece: str = "border", on: str = "9", centre: str = "CL", **trims: str) -> Map:
    """A piece on a set."""
    return {"piece": piece, "set": on, "centre": centre} | ({"trims": trims} if trims else {})


def written(tree: Map) -> str:
    """The map as a document."""
    return str(yaml.dump(tree, Dumper=_NoAliases, sort_keys=False, allow_unicode=True, width=200))


class _NoAliases(yaml.SafeDumper):
    def ignore_aliases(self, data: Any) -> bool:
        return True


def documents(house: Map, pieces: list[Map], places: list[Map], **hang: Any) -> tuple[House, Show, Hang]:
    """The three documents as read."""
    one = read_house(written(house))
    show = read_show(written({"counterpoise": "show 1", "name": "Gala", "pieces": pieces}))
    tree: Map = {"counterpoise": "hang 1", "house": house["name"], "show": "Gala", "hung": places}
    return one, show, read_hang(written(tree | {name.replace("_", " "): it for name, it in hang.items()}), one, show)


def rigged(house: Map, pieces: list[Map] | None = None, places: list[Map] | None = None, **hang: Any) -> RiggedHouse:
    """The house as rigged."""
    return rig(*documents(house, pieces or [], places or [], **hang))


def rigged_set(
    one: Map | None = None, pieces: list[Map] | None = None, places: list[Map] | None = None, **hang: Any
) -> RiggedSet:
    """Its one set as rigged."""
    found = rigged(a_house(one or a_set()), pieces, places, **hang)
    assert not found.missing
    return found.sets[0]


def judged(house: Map, pieces: list[Map] | None = None, places: list[Map] | None = None, **hang: Any) -> HouseResult:
    """The whole hang judged."""
    return check(rigged(house, pieces, places, **hang))


def texts_of(house: Map, pieces: list[Map] | None = None, places: list[Map] | None = None) -> Texts:
    """The three documents as texts."""
    show: Map = {"counterpoise": "show 1", "name": "Gala", "pieces": pieces or []}
    hang: Map = {"counterpoise": "hang 1", "house": house["name"], "show": "Gala", "hung": places or []}
    return Texts(house=written(house), show=written(show), hang=written(hang))
