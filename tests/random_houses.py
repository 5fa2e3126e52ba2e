"""Invented hangs of three sets on shared steel, drawn by a seed: ratings met and not met, weights in doubt."""

from __future__ import annotations

import random
from typing import Any

from tests.plain_house import Map, a_house, a_piece, a_set, hung

Drawn = tuple[Map, list[Map], list[Map], dict[str, Any]]


def place(feet: float) -> str:
    """Feet from the centre line in the words of a document, to a hundredth."""
    return "CL" if abs(feet) < 0.005 else f"{abs(feet):.2f} ft {'SR' if feet < 0 else 'SL'}"


def drawn(seed: int, *, light: bool = False) -> Drawn:
    """House, pieces, places and what else the hang says; `light` hangs a quarter, so that most is within."""
    draw = random.Random(seed)
    count = draw.choice([3, 4, 5, 6])
    inner = [-20 + 40 * i / (count - 1) + draw.uniform(-1, 1) for i in range(1, count - 1)]
    common: Map = {
        "lines": {"at": [place(x) for x in (-20, *inner, 20)], "weight": "0.110 lb/ft",
                  "trim chain": f"{draw.randint(180, 600)} lb"},
        "loft block": {"rating": f"{draw.randint(120, 500)} lb", "rating of": _rated(draw)},
        "head block": {"rating": f"{draw.randint(400, 2500)} lb", "rating of": _rated(draw)},
        "arbor": {"rating": f"{draw.randint(300, 1200)} lb", "usable height": f"{draw.randint(12, 60)} in",
                  "plate weight": "4 lb", "plate thickness": "0.375 in"},
        "stops": {"top": f"{draw.randint(100, 800)} lb", "bottom": f"{draw.randint(30, 200)} lb"},
        "tension block": f"{draw.randint(100, 300)} lb",
    }  # fmt: skip
    if draw.random() < 0.5:
        common["posted"] = [{"load": f"{draw.randint(150, 900)} lb", "by": "an invented engineer",
                             "counts": draw.choice(["what is hung", "batten and all", "unknown"])}]  # fmt: skip
    if draw.random() < 0.4:
        common["batten"] = {"splices": [{"at": "6 ft SR", "strength": f"{draw.randint(15, 60)} %"}]}
    pieces, places = [], []
    for number in range(draw.choice([1, 1, 2, 3])):
        weight = draw.randint(20, 350) // (4 if light else 1) + 1
        said = draw.choice([f"{weight} lb", f"{weight} lb", f"~{weight} lb", f"{weight}..{weight * 6 // 5 + 1} lb"])
        how: Map = draw.choice([{"spread_over": f"{draw.randint(4, 30)} ft"}, {"picks": ["CL"]},
                                {"picks": [place(-draw.randint(1, 8)), place(draw.randint(1, 8))]}])  # fmt: skip
        if "picks" in how and draw.random() < 0.4:
            how["clamps"] = {"rating": f"{draw.randint(50, 500)} lb"}
        pieces.append(a_piece(f"P{number}", said, height="2 ft", **how))
        places.append(hung(f"P{number}", draw.choice(["2", "2", "2", "1"]), place(draw.uniform(-5, 5))))
    double: Map = {"purchase": "double", "hand_line": "with the arbor", "high_trim": "40 ft", "pipe_weight": "7"}
    second = double if draw.random() < 0.3 else {}
    sets = [a_set(label, distance=f"{1 + number} ft", **common, **(second if label == "2" else {}))
            for number, label in enumerate(("1", "2", "3"))]  # fmt: skip
    house = a_house(*sets, rules={"lock hold": draw.choice(["50 lb", "80 lb", "120 lb"])})
    house["steel"][0] |= {"loft beam": f"{draw.randint(150, 900)} lb", "head beam": f"{draw.randint(900, 4000)} lb",
                          "impact": draw.choice(["included", "add 25 %"])}  # fmt: skip
    stated = {"stated_bricks": {"2": str(draw.randint(7, 30))}} if not light and draw.random() < 0.25 else {}
    return house, pieces, places, stated


def _rated(draw: random.Random) -> str:
    return draw.choice(["line pull", "resultant", "unknown"])
