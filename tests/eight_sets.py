"""A small invented house of eight sets with its show and its hang, for tests that name a set and a figure."""

from __future__ import annotations

import re
from dataclasses import replace
from pathlib import Path

from counterpoise.app import Texts

_THERE = Path(__file__).parent / "eight"


def eight_sets() -> Texts:
    """Its three documents."""
    house, show, hang = ((_THERE / f"{name}.yaml").read_text("utf-8") for name in ("house", "show", "hang"))
    return Texts(house=house, show=show, hang=hang)


def two_sizes() -> Texts:
    """The same with a second, invented size of brick, the half, which every set may take."""
    eight = eight_sets()
    house = re.sub(r"(?m)^( *)brick: full$", r"\1brick: full\n\1small brick: half", eight.house)
    half = "bricks:\n  - {brick: half, source: scale, weight: 12 lb, thickness: 1/2 in, stock: {loading bridge: 60}}\n"
    return replace(eight, house=house.replace("bricks:\n", half, 1))
