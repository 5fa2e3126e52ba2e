"""Shapes of a picture, in its own units (one is a pixel at full size), and a player that writes them as SVG.

No `style` attribute is ever written: the page's policy forbids it, and a class lets day and dark share one drawing.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field, replace
from html import escape
from textwrap import wrap

from counterpoise.drawing.ink import ink_of
from counterpoise.drawing.widths import width_of

Value = str | float | int
TOUCHED = frozenset({"handle", "hit", "readouts"})
ROW, LETTER = 20.0, 8.0  # of the caption
_NAME = re.compile(r"[a-z][a-zA-Z0-9-]*\Z")
# XML 1.0 has no place for these, not even escaped.
_NEVER = re.compile("[\x00-\x08\x0b\x0c\x0e-\x1f\ufffe\uffff\ud800-\udfff]")


@dataclass(frozen=True, slots=True)
class Shape:
    """One element. `attrs` may hold `data-key`, by which a page finds what moves."""

    tag: str
    attrs: Mapping[str, Value] = field(default_factory=dict)
    inner: tuple[Shape, ...] = ()
    words: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Picture:
    """Shapes on a sheet of this size. `title` is read aloud; `is_roomy` is not shrunk to a window.

    `caption` is what a file of its own says below it: of what it is, what was judged, and what was not.
    """

    name: str
    width: float
    height: float
    title: str
    shapes: tuple[Shape, ...]
    data: Mapping[str, Value] = field(default_factory=dict)
    is_roomy: bool = False
    caption: tuple[str, ...] = ()


def number(value: float) -> str:
    """A coordinate: at most two digits after the point, no exponent, no minus zero. Refuses what is not finite."""
    text = f"{value:.2f}".rstrip("0").rstrip(".")
    if "n" in text:
        raise ValueError(f"a coordinate is {value}")
    return "0" if text == "-0" else text


def _attrs(given: Mapping[str, Value]) -> dict[str, Value]:
    return {name.rstrip("_").replace("_", "-"): value for name, value in given.items()}


def line(x1: float, y1: float, x2: float, y2: float, **more: Value) -> Shape:
    """A straight line."""
    return Shape("line", {"x1": x1, "y1": y1, "x2": x2, "y2": y2, **_attrs(more)})


def box(x: float, y: float, width: float, height: float, **more: Value) -> Shape:
    """A rectangle; a negative size is drawn as nothing."""
    return Shape("rect", {"x": x, "y": y, "width": max(0.0, width), "height": max(0.0, height), **_attrs(more)})


def circle(x: float, y: float, r: float, **more: Value) -> Shape:
    """A circle."""
    return Shape("circle", {"cx": x, "cy": y, "r": r, **_attrs(more)})


def path(points: list[tuple[float, float]], *, closed: bool = False, **more: Value) -> Shape:
    """Straight lines from point to point."""
    d = "M" + "L".join(f"{number(x)} {number(y)}" for x, y in points) + ("Z" if closed else "")
    return Shape("path", {"d": d, **_attrs(more)})


def words(x: float, y: float, said: str, **more: Value) -> Shape:
    """Words on the drawing."""
    return Shape("text", {"x": x, "y": y, **_attrs(more)}, words=said)


def group(*inner: Shape, **more: Value) -> Shape:
    """Shapes that belong together."""
    return Shape("g", _attrs(more), inner)


def link(to: str, *inner: Shape, **more: Value) -> Shape:
    """Shapes that lead somewhere."""
    return Shape("a", {"href": to, **_attrs(more)}, inner)


def hatch(name: str) -> Shape:
    """The pattern of what is over: told by its lines, not by its colour."""
    ruled = line(0, 0, 0, 6, class_="hatching")
    pattern = Shape("pattern", {"id": f"hatch-{name}", "width": 5, "height": 6, "patternUnits": "userSpaceOnUse",
                                "patternTransform": "rotate(45)"}, (ruled,))  # fmt: skip
    return Shape("defs", {}, (pattern,))


def svg_file(picture: Picture, *, dark: bool = False) -> str:
    """The picture as an SVG document of its own, its look and its caption with it and no addresses of pages in it.

    Every word is given its width, so that another face than ours runs into nothing.
    """
    rows = [row for said in picture.caption for row in wrap(said, max(24, int(picture.width / LETTER)))]
    foot = [words(14, picture.height + 20 + ROW * i, row, class_="small") for i, row in enumerate(rows)]
    tall = picture.height + (ROW * len(rows) + 16 if rows else 0)
    shapes = tuple(_only_seen((*picture.shapes, *foot)))
    head, _, body = svg(replace(picture, shapes=shapes, height=tall)).partition(">")
    return f"{head}><style>{_escaped_rules(ink_of(dark))}</style>{body}\n"


def _only_seen(shapes: tuple[Shape, ...]) -> Iterator[Shape]:
    """Shapes without what a page needs to be touched: fields to take hold of, what they write, addresses."""
    for shape in shapes:
        if not TOUCHED.isdisjoint(str(shape.attrs.get("class", "")).split()):
            continue
        attrs = {name: value for name, value in shape.attrs.items() if name != "href"}
        if shape.tag == "text" and shape.words:
            wide = width_of(shape.words, str(attrs.get("class", "")))
            attrs |= {"textLength": wide, "lengthAdjust": "spacingAndGlyphs"}
        yield Shape("g" if shape.tag == "a" else shape.tag, attrs, tuple(_only_seen(shape.inner)), shape.words)


def _escaped_rules(rules: str) -> str:
    return rules.replace("&", "&amp;").replace("<", "&lt;")


def svg(picture: Picture) -> str:
    """The picture as an SVG element to be put into a page."""
    data = "".join(_attribute(f"data-{name}", value) for name, value in picture.data.items())
    roomy = " roomy" if picture.is_roomy else ""
    head = (f'<svg xmlns="http://www.w3.org/2000/svg" class="picture{roomy}" viewBox="0 0 {number(picture.width)} '
            f'{number(picture.height)}" width="{number(picture.width)}" height="{number(picture.height)}" '
            f'role="group" aria-label="{_escaped(picture.title)}"{data}>')  # fmt: skip
    return head + "".join(map(_written, picture.shapes)) + "</svg>"


def keyed(picture: Picture) -> dict[str, dict[str, str]]:
    """What a page must set to turn one picture into another of the same kind: key -> attributes, and `text`."""
    found: dict[str, dict[str, str]] = {}
    for shape in _all(picture.shapes):
        key = shape.attrs.get("data-key")
        if key is not None:
            said = {name: _plain(value) for name, value in shape.attrs.items() if name != "data-key"}
            if shape.tag == "text":
                said["text"] = shape.words
            found[str(key)] = said
    return found


def _all(shapes: tuple[Shape, ...]) -> Iterator[Shape]:
    for shape in shapes:
        yield shape
        yield from _all(shape.inner)


def _plain(value: Value) -> str:
    return value if isinstance(value, str) else number(value)


def _escaped(said: str) -> str:
    return escape(_NEVER.sub("\ufffd", said), quote=True)


def _attribute(name: str, value: Value) -> str:
    if not _NAME.match(name) or name == "style" or name.startswith("on"):
        raise ValueError(f"{name} is no attribute of a drawing")
    return f' {name}="{_escaped(_plain(value))}"'


def _written(shape: Shape) -> str:
    head = shape.tag + "".join(_attribute(name, value) for name, value in shape.attrs.items())
    body = _escaped(shape.words) + "".join(map(_written, shape.inner))
    return f"<{head}>{body}</{shape.tag}>" if body else f"<{head}/>"
