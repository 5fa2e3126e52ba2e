"""Taking a field or an item out of a text: what goes with it, a comma, a dash, its line, and what stays, comments."""

from __future__ import annotations

import re

from counterpoise.documents.layout import (
    Change,
    break_of,
    comma_after,
    comments,
    end_of,
    line_end,
    line_start,
    past_break,
)
from counterpoise.documents.tree import Fields, Items


def name_out(text: str, tree: Fields, holder: Fields, name: str) -> list[Change]:
    """The changes that take a field out of a map."""
    names = list(holder.fields)
    at = names.index(name)
    starts = [holder.keys[one].start for one in names]
    ends = [max(end_of(holder.fields[one], text), holder.keys[one].end) for one in names]
    if holder.flow:
        return _out_of_brackets(text, starts, ends, at)
    return _out_of_lines(text, tree, starts, ends, at, "{}")


def item_out(text: str, tree: Fields, holder: Items, at: int) -> list[Change]:
    """The changes that take an item out of a list."""
    ends = [end_of(one, text) for one in holder.items]
    if holder.flow:
        return _out_of_brackets(text, [one.start for one in holder.items], ends, at)
    return _out_of_lines(text, tree, _dashes(text, holder, ends), ends, at, "[]")


def _dashes(text: str, holder: Items, ends: list[int]) -> list[int]:
    """Where the dash of each item stands; the first is where the list begins, the others begin their lines."""
    dash = re.compile(rf"(?m)^ {{{holder.column - 1}}}-(?=\s)")
    starts = [holder.start]
    for before in ends[:-1]:
        found = dash.search(text, before)
        starts.append(found.end() - 1 if found else before)
    return starts


def _out_of_brackets(text: str, starts: list[int], ends: list[int], at: int) -> list[Change]:
    """The entry and one comma: the one behind it, or for the last the one before."""
    start, end = starts[at], ends[at]
    comma = comma_after(text, end) if at + 1 < len(starts) else None
    if comma is None:
        before = comma_after(text, ends[at - 1]) if at else None
        gone = [] if before is None else [Change(before, before + 1, "")]
        quiet = before is not None and not text[before + 1 : start].strip(" \t")
        return [Change(before if quiet and before is not None else start, end, "")] + ([] if quiet else gone)
    behind = comma + 1
    while text[behind : behind + 1] in (" ", "\t"):
        behind += 1
    if text[behind : behind + 1] == "#":
        behind = comma + 1
    kept = text[end:comma]  # a comment may stand between a value and its comma
    return [Change(start, behind, kept.lstrip() if kept.strip() else "")]


def _out_of_lines(
    text: str, tree: Fields, starts: list[int], ends: list[int], at: int, nothing: str
) -> list[Change]:  # fmt: skip
    start, end = starts[at], ends[at]
    if len(starts) == 1:  # a map or a list must stay one
        gap = " " if nothing == "[]" else ""
        return [Change(start, end, gap + nothing + _kept(text, tree, start, end, " "))]
    begin = line_start(text, start)
    if text[begin:start].strip(" \ufeff"):  # the first of its map, behind a dash: the next one moves up to it
        if not text[end : starts[at + 1]].strip():
            return [Change(start, starts[at + 1], "")]
        return [Change(start, end, _kept(text, tree, start, end, ""))]
    behind = line_end(text, end)
    notes = comments(text, tree, start, behind)
    if notes:
        return [Change(start, behind, f"{break_of(text)}{text[begin:start]}".join(notes))]
    return [Change(begin + (text[begin] == "\ufeff"), past_break(text, behind), "")]


def _kept(text: str, tree: Fields, start: int, end: int, gap: str) -> str:
    """The comments that stood within what goes, each to the end of a line."""
    notes = comments(text, tree, start, end)
    return "".join(f"{gap}{one}{break_of(text)} " for one in notes)
