"""An invented house in which every figure that can be written is written, and every set is within its limits."""

from __future__ import annotations

from typing import Any

from tests.plain_house import Map, a_house, a_set

ROWS: Map = {"pipe": {"house pipe": {"outside diameter": "1.900 in", "wall": "0.145 in", "design wall": "0.135 in",
                                     "weight": "2.72 lb/ft", "modulus": "29,000 ksi"}}}  # fmt: skip
BLOCK: Map = {"rating": "900 lb", "rating of": "resultant", "mounted": "upright", "diameter": "8 in", "bearing": "ball",
              "shaft": "2,000 lb", "base": "2,000 lb"}  # fmt: skip
MULE: Map = {"at": "12' SR", "upstage": "1 ft", "turn": "30 deg", "rating": "900 lb", "rating of": "resultant"}


def _own_line() -> Map:
    return {"at": "10' SR", "block at": "10' SR", "length": "110 ft", "trim error": "1/16 in",
            "loft block": dict(BLOCK), "mule blocks": [dict(MULE)],
            "rope": "1/4 in 7x19 galvanized", "stiffness": "446,000 lb",
            "breaking strength": "7,000 lb", "termination": "90 %", "trim chain": "1,300 lb", "shackle": "1,000 lb",
            "turnbuckle": "800 lb"}  # fmt: skip


def a_full_set(label: str = "9", **changes: Any) -> Map:
    """A counterweight set of which everything is written."""
    batten: Map = {"pipe": "house pipe", "hardware": "10 lb", "allowed stress": "21,000 psi",
                   "splices": [{"at": "4' SL", "strength": "80 %"}],
                   "attachments": [{"attachment": "track", "weight": "20 lb", "centre": "CL",
                                    "spread over": "30 ft"}]}  # fmt: skip
    lines: Map = {"at": ["20' SR", _own_line(), "CL", "10' SL", "20' SL"], "count": "5", "diameter": "1/4 in",
                  "weight": "0.11 lb/ft", "hitch": "straight", "clamp": "900 lb", "turnbuckle": "800 lb"}  # fmt: skip
    own: Map = {
        "key": f"key {label}", "use": "electric", "rail": "main", "batten": batten, "lines": lines,
        "loft_block": dict(BLOCK), "head_block": dict(BLOCK) | {"rating": "3,000 lb"},
        "hand_line": {"travels": "with the batten", "rope": "3/4 in manila", "diameter": "3/4 in", "rating": "400 lb"},
        "arbor": {"bricks in a layer": "1", "captive plates": "0", "plate weight": "1 lb", "plate thickness": "1/4 in"},
        "guides": {"rating": "200 lb", "shoes apart": "5 ft", "load aside": "0..1/2 in", "hand line aside": "4 in",
                   "friction": "15 %"},
        "pipe_weight": "5", "lock": {"hold": "60 lb", "note": "new"},
        "posted": [{"load": "900 lb", "counts": "what is hung", "by": "an invented engineer", "on": "2026-01-01"}],
        "condition": [{"part": "shackle", "line": "1", "found": "a pin without wire", "who": "an inspector",
                       "when": "2026-01-01", "carries": "900 lb"}],
        "note": "nothing",
    }  # fmt: skip
    made = a_set(label, **(own | changes))
    for name in ("outside diameter", "wall", "design wall", "weight", "modulus"):
        made["batten"].pop(name)
    return made


def a_full_house() -> Map:
    """Three sets: counterweight, hemp and dead-hung; each with a piece of `full_pieces`."""
    none: Map = {"purchase": None, "arbor": None, "pipe_weight": None, "stops": None, "tension_block": None,
                 "hand_line": None, "lock": None, "brick": None, "guides": None}  # fmt: skip
    hemp = a_full_set("20", rigged="hemp", bags={"weight": "100 lb", "pin": "300 lb", "hauls": "200 lb"}, **none)
    dead = a_full_set("30", rigged="dead-hung", low_trim="20 ft", high_trim=None, **none)
    house = a_house(a_full_set(), hemp, dead)
    house["stage"] = {"distances from": "plaster line", "proscenium height": "24 ft", "proscenium width": "40 ft",
                      "depth": "36 ft", "grid": "64 ft", "loft blocks": "62 ft",
                      "fire curtain": {"from": "-6 ft", "to": "-5 ft"}}  # fmt: skip
    house["catalogue"] = ROWS
    house["bricks"] = [{"brick": "full", "weight": "25 lb", "spread": "0.1 lb", "weighed": "20", "thickness": "1 in",
                        "stock": {"bridge": "200"}}]  # fmt: skip
    house["bridges"] = [{"bridge": "bridge", "floor": "49 ft", "reach from": "0 ft", "reach to": "7 ft",
                         "length": "30 ft", "width": "3 ft", "posting": "75 psf", "people": "2",
                         "heard from deck": "yes"}]  # fmt: skip
    house["rails"] = [{"rail": "main", "side": "stage left", "floor": "0 ft", "reach from": "0 ft", "reach to": "7 ft",
                       "pins": "50", "pin rating": "400 lb", "heard from deck": "yes"}]  # fmt: skip
    house["holds"] = [{"hold": "capstan", "does": "haul", "against": "both", "acts on": "hand line", "anchor": "floor",
                       "rating": "500 lb", "anchor rating": "900 lb", "count": "1"}]  # fmt: skip
    house["rules"] = {"adopted by": "an invented rigger", "adopted on": "2026-01-01", "lock hold": "50 lb",
                      "lift line factor": "8", "batten stress": "21,000 psi", "sag": "1/180", "plate every": "24 in",
                      "estimate spread": "20 %", "person": "200 lb"}  # fmt: skip
    house["steel"][0] |= {"loft beam sideways": "1,500 lb", "head beam sideways": "6,000 lb", "lift lines": "counted"}
    return house


def full_pieces() -> list[Map]:
    """An electric with cable, a drape by its takeoff and a wall in sections."""
    cable: Map = {"cable": "six-circuit multicable", "count": "1", "length": "66 ft", "weight": "0.3 lb/ft",
                  "box": "62 ft", "at": "CL"}  # fmt: skip
    electric: Map = {
        "piece": "electric", "weight": "100 lb", "picks": ["15' SR", "15' SL"], "centre of gravity": "1 ft SL",
        "height": "2 ft", "thickness": "1 ft", "ties": "1 ft", "lands": "3 ft", "cables": [cable], "comes": "free",
        "clamps": {"fit from": "1.5 in", "fit to": "2 in", "rating": "300 lb"},
        "wishes": {"distance": "3 ft", "clear by": "6 in"}, "looks": "lamps", "note": "new",
    }  # fmt: skip
    drape: Map = {
        "piece": "drape", "spread over": "38 ft", "height": "10 ft", "comes": "off the floor",
        "takeoff": [{"cloth": "velour, 16 oz per running yard of 54 in", "width": "38 ft", "height": "10 ft",
                     "fullness": "50 %", "count": "1"},
                    {"pipe": "1-1/2 in schedule 40", "length": "10 ft"},
                    {"what": "weights", "each": "5 lb", "count": "2"}],
    }  # fmt: skip
    parts: list[Map] = [{"part": "top", "weight": "40 lb", "height": "8 ft", "balance height": "4 ft"},
                        {"part": "foot", "weight": "40 lb", "height": "8 ft", "balance height": "4 ft",
                         "joins at": "9 ft"}]  # fmt: skip
    wall: Map = {"piece": "wall", "spread over": "38 ft", "ties": "1 ft", "comes": "in sections", "sections": parts}
    return [electric, drape, wall]


def full_places() -> list[Map]:
    """Where they hang."""
    return [{"piece": "electric", "set": "9", "centre": "CL", "trims": {"show": "30 ft", "dead": "40..45 ft"}},
            {"piece": "drape", "set": "20", "centre": "CL", "trims": {"show": "20 ft"}},
            {"piece": "wall", "set": "30", "centre": "CL"}]  # fmt: skip
