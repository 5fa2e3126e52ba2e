"""The chain of one line from batten to steel: each link with what it carries of what it may."""

from __future__ import annotations

from counterpoise.checks import Check, SetResult, Verdict
from counterpoise.drawing.along import story
from counterpoise.drawing.links import chain_of, of_text, told_line
from counterpoise.drawing.shapes import Picture, Shape, Value, box, hatch, line, link, words
from counterpoise.units import Style

MOST_ACROSS = 6  # links in a row beyond which a figure and its limit stand one below the other


def chain_picture(one: SetResult, style: Style, *, narrow: bool = False) -> Picture:
    """The chain of the line that is nearest a limit; in a row on a laptop, one below the other on a phone."""
    number = told_line(one)
    rows = chain_of(one, number)
    name = f"chain-{'narrow' if narrow else 'wide'}"
    if not rows:
        return Picture(name=name, width=358, height=1, title="No chain", shapes=())
    width = 358.0 if narrow else 960.0
    shapes: list[Shape] = [hatch(name), words(0 if narrow else 46, 14, f"from batten to steel, line {number}",
                                              class_="label", data_key="chain-line")]  # fmt: skip
    count = max(1, len(rows))
    for i, row in enumerate(rows):
        if narrow:
            shapes += _row(row, i, style, name)
        else:
            shapes += _pill(row, i, count, style, name)
    height = 34.0 + 52 * count if narrow else 110.0 if count > MOST_ACROSS else 92.0
    return Picture(name=name, width=width, height=height, shapes=tuple(shapes), title="The chain from batten to steel")


def _status(row: Check) -> str:
    return row.verdict.value


def _pill(row: Check, i: int, count: int, style: Style, name: str) -> list[Shape]:
    step = 868.0 / count
    x, wide, y = 46 + step * i, step - 18, 30.0
    said, bound = of_text(row, style), ""
    if count > MOST_ACROSS:
        said, between, bound = said.partition(" of ")
        bound = f"of {bound}" if between else ""
    cls = f"small middle word-{_status(row)}"
    shared = row.line is None or row.link.startswith("loft beam")
    tall = 84 if count > MOST_ACROSS else 66
    inner = [box(x - 4, y - 8, wide + 8, tall, class_="hit"), *_body(row, i, x, y, wide, name),
             words(x + wide / 2, y + 39, row.link, class_="small middle"),
             words(x + wide / 2, y + 57, said, class_=cls, data_key=f"link-{i}"),
             words(x + wide / 2, y + 74, bound, class_=cls, data_key=f"link-of-{i}")]  # fmt: skip
    joint = [] if i == count - 1 else [line(x + wide, y + 10, x + step, y + 10, class_="dashed" if shared else "hair")]
    return [*joint, link(story(row), *inner, data_story=row.key)]


def _row(row: Check, i: int, style: Style, name: str) -> list[Shape]:
    y = 30.0 + 52 * i
    inner = [box(0, y - 6, 358, 48, class_="hit"), *_body(row, i, 0, y + 8, 110, name),
             words(122, y + 14, row.link, class_="small"),
             words(122, y + 33, of_text(row, style), class_=f"small word-{_status(row)}", data_key=f"link-{i}"),
             ]  # fmt: skip
    return [link(story(row), *inner, data_story=row.key)]


def _body(row: Check, i: int, x: float, y: float, wide: float, name: str) -> list[Shape]:
    """A link as a rounded bar, filled as far as it is used; hatched whole where it is over, dotted where unknown."""
    over = row.verdict is Verdict.OVER
    share = 0.0 if row.limit is None else min(1.0, row.value.high / row.limit)
    fill: dict[str, Value] = {"fill": f"url(#hatch-{name})"} if over else {"fill": ""}
    return [box(x, y, wide * (1.0 if over else share), 20, rx=10, class_=f"used used-{_status(row)}",
                data_key=f"used-{i}", **fill),
            box(x, y, wide, 20, rx=10, class_=f"link link-{_status(row)}", data_key=f"body-{i}")]  # fmt: skip
