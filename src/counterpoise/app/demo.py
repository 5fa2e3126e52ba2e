"""The demo: a large house with its show and its hang, a small metric house, a minimal one, and a line schedule."""

from __future__ import annotations

from importlib.resources import files

from counterpoise.app.judge import Texts

NAMES = ("house.yaml", "show.yaml", "hang.yaml")
OTHERS = ("other-night.yaml", "metric/house.yaml", "metric/hang.yaml", "minimal/house.yaml", "schedule.csv")


def demo_texts() -> Texts:
    """The large house as text."""
    house, show, hang = (demo_text(name) for name in NAMES)
    return Texts(house=house, show=show, hang=hang)


def demo_text(name: str) -> str:
    """One of the demo's files as text, by its name in the folder that the demo is written to."""
    return files("counterpoise.app").joinpath("demo_files", *name.split("/")).read_text("utf-8")


def blank_house(name: str, units: str, count: int, purchase: str) -> str:
    """A house file to begin with: as many sets as there are, of one kind, and every figure to find out in its place.

    Args:
        name: of the house.
        units: us or metric.
        count: how many sets, 1 to 999.
        purchase: single or double, of most of its sets.
    """
    sets = "\n".join(f'  - {{set: "{number}", kind: usual}}' for number in range(1, count + 1))
    text = demo_text("blank.yaml")
    for word, said in (("NAME", name), ("UNITS", units), ("PURCHASE", purchase), ("SETS", sets)):
        text = text.replace(f"<{word}>", said)
    return text
