"""Pages in the house's own words: what people read and what is read to them, and nothing else of the markup."""

from __future__ import annotations

import html
import re

from counterpoise.documents import Speech

_TAG = re.compile(r"(<[^>]*>)")
_READ_TO = re.compile(r'(aria-label|aria-valuetext|title)="([^"]*)"')
_ADDRESS = re.compile(r'(href)="(/(?:(?:set|explain|text)/[^"]*|load-in[^"]*)?)"')
_READ = frozenset({"says", "text", "at", "note"})  # of the tables that a page is sent


def in_words(markup: str, speech: Speech) -> str:
    """Markup with its texts, and the texts of its labels, in the house's words."""
    parts = _TAG.split(markup)
    return "".join(_tag(part, speech) if i % 2 else _text(part, speech) for i, part in enumerate(parts))


def rooted(markup: str, root: str) -> str:
    """Markup whose addresses of a house's pages begin with `root`; scripts find it on the body."""
    if not root:
        return markup
    markup = _ADDRESS.sub(lambda found: f'{found[1]}="{root}{found[2]}"', markup)
    return markup.replace("<body>", f'<body data-root="{html.escape(root)}">', 1)


def _text(part: str, speech: Speech) -> str:
    if not part or part.isspace():
        return part
    plain = html.unescape(part)
    said = speech(plain)
    return part if said == plain else html.escape(said, quote=False)


def _tag(part: str, speech: Speech) -> str:
    return _READ_TO.sub(lambda found: f'{found[1]}="{html.escape(speech(html.unescape(found[2])))}"', part)


def table_in_words(table: object, speech: Speech, *, is_read: bool = False) -> object:
    """A table for a page with those of its values that are read in the house's words."""
    if isinstance(table, dict):
        return {key: table_in_words(value, speech, is_read=is_read or key in _READ) for key, value in table.items()}
    if isinstance(table, list):
        return [table_in_words(value, speech, is_read=is_read) for value in table]
    return speech(table) if is_read and isinstance(table, str) else table
