"""The bridge sheet: few columns, big digits, a box to tick. What the crew loads, and what they must not."""

from __future__ import annotations

import math
import unicodedata
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import replace
from datetime import datetime
from itertools import groupby
from typing import Any

from counterpoise.checks import HouseResult
from counterpoise.documents import Speech
from counterpoise.planning import Plan
from counterpoise.rigging import BrickKind, RiggedBridge
from counterpoise.sheets.press import print_pdf
from counterpoise.sheets.rows import Held, Row, Visit, rows_of, without_row
from counterpoise.units import Style, length, mass, mass_up

PAPER = {"us": (215.9, 279.4), "metric": (210.0, 297.0)}  # [mm]: US Letter; ISO 216 A4
MARGIN, HEAD, ROW, VISIT, LINE, ONLY = 12.7, 24.0, 20.5, 17.0, 4.3, 7.0  # [mm]
ADD_ONE, ADD_MANY, BELOW = 14.5, 11.5, 4.9  # [mm]: a count to add, of one visit and of many; and a line below it
NOTED = 25.0  # [mm]: a row with a long note
MOST_VISITS = 6  # of one set on one page
FOOT_LETTERS = 116  # that surely fit on one line of the foot
MOST_NOTE, SHORT_NOTE = 140, 70  # letters of a note beneath a piece: four lines of its column, and two
MOST_NAME = 90  # letters of a house or show
LONG_WORD = 16  # letters after which a word may be broken
CAUTION = (
    "Manual sets, no people flown. Informs a qualified person; makers' data, local codes, the house's rules and a "
    "licensed engineer come first."
)

Stock = dict[tuple[str, str], int]  # (brick, bridge): loose bricks


def bridge_sheet(
    result: HouseResult, plans: Mapping[str, Plan], *, revision: str, when: datetime, changed: Mapping[str, str]
) -> bytes:
    """The load-in as the bridge works it, a PDF: US Letter for a house in feet, A4 for a metric one.

    Args:
        result: the hang as judged.
        plans: the load-in of each set by label; a set without one is on hold.
        revision: printed at the head; may be empty.
        when: the date printed; with a time zone.
        changed: by label, what changed since the last revision, as in "changed since revision 13: was +16".

    A set that is over, unknown or refused is printed as HOLD with no count. Out of service and empty: named at the
    foot only. Equal input gives equal bytes.
    """
    width, height = PAPER["metric" if result.house.units == "metric" else "us"]
    style = Style("metric" if result.house.units == "metric" else "us")
    stock = {
        (brick, where): count for brick, kind in result.house.bricks.items() for where, count in kind.stock.items()
    }
    rows = [part for row in _supplied(rows_of(result, plans, changed), stock) for part in _parts(row)]
    foot = max(_lines(_foot(result, rows, stock, stock, style)), 4)
    room = height - 2 * MARGIN - HEAD - 8.0 - foot * LINE
    names = len(result.house.bridges) > 1
    pages = list(_pages(rows, room, style, names))
    done: list[dict[str, Any]] = []
    for page in pages:
        after = _loaded(stock, page)
        done.append({"rows": [_row(row, style, names) for row in page],
                     "foot": [_clean(line) for line in _foot(result, rows, stock, after, style)]})  # fmt: skip
        stock = after
    said = [f"revision {revision}" if revision else "", f"{when:%Y-%m-%d}"]
    data = {"width": width, "height": height, "margin": MARGIN, "head": HEAD,
            "house": _broken(_short(_clean(result.house.name), MOST_NAME)),
            "show": _broken(_short(_clean(result.house.show), MOST_NAME)), "pages": done,
            "caution": CAUTION, "said": _clean(" · ".join(["load-in", *filter(None, said)]))}  # fmt: skip
    return print_pdf("bridge", _spoken(data, result.speech()), when)


def _spoken(data: Any, speech: Speech) -> Any:
    """The same with every text in the house's own words."""
    if isinstance(data, dict):
        return {key: _spoken(value, speech) for key, value in data.items()}
    if isinstance(data, list):
        return [_spoken(value, speech) for value in data]
    return speech(data) if isinstance(data, str) else data


def _supplied(rows: Iterable[Row], stock: Stock) -> Iterator[Row]:
    """The rows in the order of the sheet; one for which too few bricks are left is on hold."""
    for row in rows:
        left = _loaded(stock, [row])
        short = [(name, where, count) for (name, where), count in left.items() if count < 0]
        if short and row.visits:
            name, where, count = short[0]
            why = f"{where} is {-count} {name} bricks short after the sets above."
            yield replace(row, visits=(), hold="short", why=why)
        else:
            stock = left
            yield row


def _parts(row: Row) -> Iterator[Row]:
    """A row of more visits than a page takes, in parts."""
    if len(row.visits) <= MOST_VISITS:
        yield row
        return
    for at in range(0, len(row.visits), MOST_VISITS):
        yield replace(row, visits=row.visits[at : at + MOST_VISITS], on_now=row.visits[at].before,
                      small_now=row.visits[at].small_before)  # fmt: skip


def _work(row: Row, style: Style, names_bridges: bool) -> float:
    least = NOTED if len(_note(row)) > SHORT_NOTE else ROW
    visits = [_visit_tall(row, one, style, names_bridges) for one in row.visits]
    return max(least, 3.0 + sum(visits) if len(visits) > 1 else sum(visits))


def _visit_tall(row: Row, one: Visit, style: Style, names_bridges: bool) -> float:
    """How tall a visit is [mm]: its count to add and the lines below that."""
    lines = len(_below(row, one, style, names_bridges))
    return max(VISIT, (ADD_MANY if len(row.visits) > 1 else ADD_ONE) + BELOW * lines)


def _note(row: Row) -> str:
    return _sentences(_clean(row.why.removeprefix(f"Set {row.label}: ")), MOST_NOTE)


def _pages(rows: Sequence[Row], room: float, style: Style, names_bridges: bool) -> Iterator[list[Row]]:
    page: list[Row] = []
    left = room
    for row in rows:
        tall = _work(row, style, names_bridges) + ONLY * len(row.only_with)
        if page and tall > left:
            yield page
            page, left = [], room
        page.append(row)
        left -= tall
    yield page


def _loaded(stock: Stock, page: Iterable[Row]) -> Stock:
    left = dict(stock)
    for row in page:
        for visit in row.visits:
            for brick, add in ((row.brick, visit.add), (row.small, visit.small_add)):
                if add:
                    left[brick, visit.bridge] = left.get((brick, visit.bridge), 0) - add
    return left


def _row(row: Row, style: Style, names_bridges: bool) -> dict[str, Any]:
    return {
        "label": _broken(_clean(row.label), 8), "piece": _broken(_short(_clean(row.piece), 60)) or "—",
        "now": "" if row.on_now is None else _sizes(row.on_now, row.small_now), "hold": _clean(row.hold),
        "plates": "" if row.plates_now is None else str(row.plates_now),
        "note": _note(row),
        "changed": _short(_clean(row.changed), 90), "height": _work(row, style, names_bridges),
        "only": [_clean(_only(each, style)) for each in row.only_with], "tall": ONLY,
        "visits": [_visit(row, one, style, names_bridges) for one in row.visits],
    }  # fmt: skip


def _only(held: Held, style: Style) -> str:
    """Without which holds nothing is moved here, and from where to where."""
    first = f", before brick {held.before} goes on," if held.before is not None else ""
    says = f"ONLY WITH {' and '.join(held.holds)} ON: from batten at {length(held.start, style)}{first}"
    return f"{says} to {length(held.end, style)} with {held.on} on"


def _visit(row: Row, one: Visit, style: Style, names_bridges: bool) -> dict[str, Any]:
    both = [count for count in (one.add, one.small_add) if count]
    return {"below": [_clean(line) for line in _below(row, one, style, names_bridges)],
            "now": _sizes(one.before, one.small_before), "add": " ".join(map(_signed, both or [0])),
            "after": _sizes(one.after, one.small_after), "plates": str(one.plates),
            "tall": _visit_tall(row, one, style, names_bridges), "held": "hold on" if one.held_by else ""}  # fmt: skip


def _below(row: Row, one: Visit, style: Style, names_bridges: bool) -> list[str]:
    """What stands below a count to add, a line each: which bricks of two sizes, which bridge, of several how high."""
    sizes = [f"{abs(count)} {name}" for count, name in ((one.add, row.brick), (one.small_add, row.small)) if count]
    lines = [", ".join(sizes)] if one.small_add else []
    lines += [one.bridge] if names_bridges else []
    return [*lines, f"batten at {length(one.height, style)}"] if len(row.visits) > 1 else lines


def _signed(count: int) -> str:
    return f"{'+' if count >= 0 else '−'}{abs(count)}"


def _sizes(bricks: int, small: int) -> str:
    return f"{bricks} + {small}" if small else str(bricks)


# --- foot --------------------------------------------------------------------------------------------------------


def _foot(result: HouseResult, rows: Sequence[Row], before: Stock, after: Stock, style: Style) -> list[str]:
    holds = [row.label for row in rows if row.hold]
    out = [(one.label, one.out_of_service) for one in result.sets if one.out_of_service]
    open_ = dict.fromkeys(one.thing for one in result.not_checked)
    lines = [f"HOLD: put nothing on {_sets(holds)}." if holds else ""]
    lines += [f"No arbor, no count here: {_sets(labels)} ({how})." for how, labels in _by_rig(result)]
    lines.append(
        "Each count is of its set alone, in the order of the house. The load-in as it is called may take sets in "
        "another order, and so other bricks."
    )
    lines += list(_stock_lines(result, before, after, style))
    lines.append("Never below the painted bricks. Batten first, then arbor; strike the other way round.")
    lines.append(f"Out of service: {_sets([label for label, _ in out])}{_why(out)}." if out else "")
    lines.append(f"Not checked: {', '.join(open_)}." if open_ else "")
    lines.append(f"Not computed here: {'; '.join(result.left_out)}." if result.left_out else "")
    return [line for line in lines if line]


def _by_rig(result: HouseResult) -> Iterator[tuple[str, list[str]]]:
    """The sets without a row, by how they are rigged."""
    found = without_row(result)
    for how in dict.fromkeys(how for _, how in found):
        yield how, [label for label, one in found if one == how]


def _sets(labels: Sequence[str]) -> str:
    return f"set{'s' if len(labels) > 1 else ''} {', '.join(dict.fromkeys(labels))}"


def _why(out: Sequence[tuple[str, str]]) -> str:
    return f" ({_short(out[0][1], 60)})" if len(out) == 1 else ""


def _stock_lines(result: HouseResult, before: Stock, after: Stock, style: Style) -> Iterator[str]:
    bricks = result.house.bricks
    for where, group in groupby(sorted(before, key=lambda key: key[::-1]), key=lambda key: key[1]):
        keys = list(group)
        counts = "; ".join(f"{_brick(result, name, style)}: before this page {before[name, where]}, "
                           f"after it {after[name, where]}" for name, _ in keys)  # fmt: skip
        yield f"On {where}: {counts}."
        bridge = next((one for one in result.house.bridges if one.name == where), None)
        if bridge is not None:
            heaviest = max(bricks[name].mass + bricks[name].spread for name, _ in keys)
            one = max((bricks[name] for name, _ in keys), key=lambda kind: kind.mass)
            person = result.house.rules["person"].value
            yield _posting(bridge, heaviest, person, mass(one.mass, style))
            if (lies := _overload(bridge, [(bricks[name], before[name, where]) for name, _ in keys], person)) > 0.0:
                yield f"OVER the floor's posting before this page by {mass_up(lies, style)}: send bricks away first."


def _brick(result: HouseResult, name: str, style: Style) -> str:
    kind = result.house.bricks[name]
    return f"{mass(kind.mass, style)} bricks" if len(result.house.bricks) == 1 else f"{name} ({mass(kind.mass, style)})"


def _posting(bridge: RiggedBridge, heaviest: float, person: float, brick: str) -> str:
    """Of the whole floor by its posting; how the bricks are heaped is not checked."""
    if bridge.most is None:
        return f"Floor of {bridge.name}: posting not known."
    count = max(0, math.floor((bridge.most - bridge.people * person) / heaviest + 1e-9))
    people = f" with {bridge.people} {'person' if bridge.people == 1 else 'people'} on it" if bridge.people else ""
    return f"Floor posted: at most {count} of the {brick} bricks{people}, spread over it; heaps are not checked."


def _overload(bridge: RiggedBridge, piles: Iterable[tuple[BrickKind, int]], person: float) -> float:
    """How much more lies and stands on a bridge than its posting allows [kg]; 0 or less where it is within."""
    if bridge.most is None:
        return 0.0
    return sum(kind.mass * count for kind, count in piles) + bridge.people * person - bridge.most


def _lines(foot: Sequence[str]) -> int:
    return sum(math.ceil(len(line) / FOOT_LETTERS) for line in foot) + 1  # and the caution


# --- words -------------------------------------------------------------------------------------------------------


def _clean(words: str) -> str:
    """On one line, and without signs that steer: a name could else break the page or turn its neighbours round."""
    steers = {"Cc", "Cf", "Zl", "Zp", "Cs"}
    return " ".join("".join(" " if unicodedata.category(sign) in steers else sign for sign in words).split())


def _broken(words: str, every: int = LONG_WORD) -> str:
    """With places where a long word may go on in the next line: it is wrapped, not set smaller than can be read."""
    return " ".join("\u200b".join(word[i : i + every] for i in range(0, len(word), every))
                    for word in words.split(" "))  # fmt: skip


def _short(words: str, most: int) -> str:
    return words if len(words) <= most else f"{words[: most - 1].rstrip()}…"


def _sentences(words: str, most: int) -> str:
    """As many whole sentences as fit; of one that is too long, its beginning."""
    if len(words) <= most:
        return words
    end = words.rfind(". ", 0, most)
    return words[: end + 1] if end > 0 else _short(words, most)
