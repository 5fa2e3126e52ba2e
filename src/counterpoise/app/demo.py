"""The demo's three invented documents."""

from __future__ import annotations

from importlib.resources import files

from counterpoise.app.judge import Texts

NAMES = ("house.yaml", "show.yaml", "hang.yaml")


def demo_texts() -> Texts:
    """The demo as text."""
    house, show, hang = (files("counterpoise.app").joinpath("demo_files", name).read_text("utf-8") for name in NAMES)
    return Texts(house=house, show=show, hang=hang)
