"""What all pages share: head, theme, and drawings taken in as they are."""

from __future__ import annotations

from htpy import Element, Node, a, body, button, head, html, link, main, meta, script, title
from markupsafe import Markup

from counterpoise.drawing import CAUTION, Picture, svg

__all__ = ["CAUTION", "drawn", "page", "theme_button"]


def drawn(picture: Picture) -> Markup:
    """A drawing as part of a page; its player has escaped every word in it."""
    return Markup(svg(picture))  # noqa: S704


def page(heading: str, *inside: Node, scripts: tuple[str, ...] = ()) -> Element:
    """A whole page."""
    return html(lang="en")[
        head[
            meta(charset="utf-8"),
            meta(name="viewport", content="width=device-width, initial-scale=1"),
            title[f"{heading} · counterpoise"],
            link(rel="icon", href="/static/icon.svg", type="image/svg+xml"),
            link(rel="stylesheet", href="/drawing.css"),
            link(rel="stylesheet", href="/static/page.css"),
            script(src="/static/theme.js"),
            [script(src=f"/static/{name}", defer=True) for name in scripts],
        ],
        body[a(".skip", href="#main")["skip to the page"], main("#main", tabindex="-1")[inside]],
    ]


def theme_button() -> Element:
    """Day or dark."""
    return button(type="button", data_act="theme")["day / dark"]
