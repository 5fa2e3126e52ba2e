"""A small invented house of eight sets with its show and its hang, for tests that name a set and a figure."""

from __future__ import annotations

from pathlib import Path

from counterpoise.app import Texts

_THERE = Path(__file__).parent / "eight"


def eight_sets() -> Texts:
    """Its three documents."""
    house, show, hang = ((_THERE / f"{name}.yaml").read_text("utf-8") for name in ("house", "show", "hang"))
    return Texts(house=house, show=show, hang=hang)
