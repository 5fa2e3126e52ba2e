"""Pages of the manual as markup: the little of Markdown that they are written in, every word of it escaped."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator, Sequence

from htpy import (
    Element,
    Node,
    a,
    b,
    blockquote,
    code,
    div,
    em,
    fragment,
    h1,
    h2,
    h3,
    h4,
    li,
    ol,
    p,
    pre,
    table,
    tbody,
    td,
    th,
    thead,
    tr,
    ul,
)

LEVELS = (h1, h2, h3, h4)
_HEADING = re.compile(r"(#{1,4})\s+(.*?)\s*#*\Z")
_ITEM = re.compile(r"(\s*)([-*]|\d+\.)\s+(.*)\Z")
_INLINE = re.compile(
    r"`([^`]+)`|\*\*(.+?)\*\*|(?<![\w*])\*([^*\s](?:[^*]*[^*\s])?)\*(?![\w*])|\[([^\]]+)\]\(([^)\s]+)\)"
)
_WEB = re.compile(r"https?://")

Address = Callable[[str], str]  # where a link of the page leads; "" where that is not shown here


def written(text: str, address: Address) -> Node:
    """The page: headings with ids, paragraphs, lists, tables, quotes, formulas and code."""
    lines = text.expandtabs(4).split("\n")
    found: list[Node] = []
    at = 0
    while at < len(lines):
        if not lines[at].strip():
            at += 1
            continue
        node, at = _block(lines, at, address)
        found.append(node)
    return fragment[found]


def slug(heading: str) -> str:
    """The id of a heading, as links name it: "Head beam, sideways" is head-beam-sideways."""
    plain = re.sub(r"[`*]", "", heading).lower()
    return re.sub(r"\s", "-", re.sub(r"[^\w\s-]", "", plain).strip())


def _block(lines: Sequence[str], at: int, address: Address) -> tuple[Node, int]:
    line = lines[at]
    heading = _HEADING.match(line)
    if heading:
        level = LEVELS[len(heading[1]) - 1]
        return level(id=slug(heading[2]))[list(_said(heading[2], address))], at + 1
    if line.startswith("```"):
        end = next((i for i in range(at + 1, len(lines)) if lines[i].startswith("```")), len(lines))
        return _formula(lines[at + 1 : end]), end + 1
    if line.startswith("    "):
        end = _until(lines, at, lambda one: bool(one.strip()) and not one.startswith("    "))
        return _formula([one[4:] for one in lines[at:end]]), end
    if line.startswith("|"):
        end = _until(lines, at, lambda one: not one.startswith("|"))
        return _table(lines[at:end], address), end
    if line.startswith(">"):
        end = _until(lines, at, lambda one: not one.startswith(">"))
        said = " ".join(one[1:].strip() for one in lines[at:end])
        return blockquote[p[list(_said(said, address))]], end
    if _ITEM.match(line):
        return _list(lines, at, address)
    end = _until(lines, at + 1, lambda one: not one.strip() or _begins(one))
    return p[list(_said(" ".join(one.strip() for one in lines[at:end]), address))], end


def _until(lines: Sequence[str], at: int, ends: Callable[[str], bool]) -> int:
    return next((i for i in range(at, len(lines)) if ends(lines[i])), len(lines))


def _begins(line: str) -> bool:
    return bool(_HEADING.match(line) or _ITEM.match(line)) or line.startswith(("```", "|", ">"))


def _formula(lines: Sequence[str]) -> Element:
    """As it is written; wider than a window it is scrolled, and by keyboard too."""
    return pre(tabindex="0")[code["\n".join(lines).rstrip()]]


def _table(lines: Sequence[str], address: Address) -> Element:
    rows = [[cell.strip() for cell in re.split(r"(?<!\\)\|", line.strip().strip("|"))] for line in lines]
    head, body = rows[0], [row for row in rows[1:] if not all(re.fullmatch(r":?-+:?", cell) for cell in row)]
    return div(".wide-table", tabindex="0")[table[
        thead[tr[[th[list(_said(cell, address))] for cell in head]]],
        tbody[[tr[[td[list(_said(cell.replace("\\|", "|"), address))] for cell in row]] for row in body]],
    ]]  # fmt: skip


def _list(lines: Sequence[str], at: int, address: Address) -> tuple[Node, int]:
    """Items of one depth, each with what is set further in below it."""
    first = _ITEM.match(lines[at])
    assert first is not None  # the caller looked
    depth, kind = len(first[1]), ol if first[2][0].isdigit() else ul
    items: list[Node] = []
    while at < len(lines):
        item = _ITEM.match(lines[at])
        if item is None or len(item[1]) != depth:
            break
        end = _until(lines, at + 1, lambda one: _ends_item(one, depth))
        inner = [item[3], *lines[at + 1 : end]]
        items.append(li[_item(inner, address)])
        at = end
        if at + 1 < len(lines) and not lines[at].strip() and _ITEM.match(lines[at + 1]):
            at += 1
    return kind[items], at


def _ends_item(line: str, depth: int) -> bool:
    return not line.strip() or len(line) - len(line.lstrip()) <= depth


def _item(lines: Sequence[str], address: Address) -> list[Node]:
    nested = _until(lines, 1, lambda one: bool(_ITEM.match(one)))
    said: list[Node] = list(_said(" ".join(one.strip() for one in lines[:nested]), address))
    return said if nested == len(lines) else [*said, _list(lines, nested, address)[0]]


def _said(text: str, address: Address) -> Iterator[Node]:
    """Words with what stands out among them."""
    last = 0
    for found in _INLINE.finditer(text):
        yield text[last : found.start()]
        last = found.end()
        quoted, strong, leaning, named, to = found.groups()
        if quoted is not None:
            yield code[quoted]
        elif strong is not None:
            yield b[list(_said(strong, address))]
        elif leaning is not None:
            yield em[leaning]
        else:
            yield _linked(named, to, address)
    yield text[last:]


def _linked(named: str, to: str, address: Address) -> Node:
    href = to if _WEB.match(to) or to.startswith("#") else address(to)
    said = list(_said(named, address))
    return a(href=href)[said] if href else said
