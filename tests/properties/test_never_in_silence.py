"""A house of which everything is written, with one thing at a time unknown or gone: never within in silence.

What may stay within although a figure of it is unknown is listed here by its word, with why. A word that is on no list
and stays within fails; so does one that is listed and never met, so that the lists can not rot.
"""

from __future__ import annotations

import copy
from collections.abc import Callable, Iterator
from functools import cache
from typing import Any

import pytest

from counterpoise.checks import Verdict
from counterpoise.errors import BadDocument
from tests.full_house import a_full_house, full_pieces, full_places
from tests.plain_house import Map, judged

Path = tuple[str | int, ...]
SETS = ("9", "20", "30")  # counterweight, hemp, dead-hung

# No check reads these. docs/limits.md is to name those that a reader might think are looked at.
NOT_READ = {
    "proscenium height", "proscenium width", "depth", "grid", "distance", "distances from",
    "fire curtain", "mounted", "diameter", "bearing", "shaft", "base", "upstage", "count", "weighed", "use", "note",
    "bricks in a layer", "captive plates", "rope", "thickness", "looks", "wishes", "clear by", "key", "cable", "what",
    "part", "pins", "pin rating", "heard from deck", "hold", "anchor", "anchor rating", "holds", "by", "on", "name",
    "who", "found", "attachment", "bay", "at", "bridge", "friction",
}  # fmt: skip
# Only a plan reads these: where bricks are loaded from, how many there are, what a bridge carries.
OF_A_PLAN = {"bridges", "floor", "reach from", "reach to", "length", "posting", "people", "person", "stock",
             "adopted by", "adopted on", "rating"}  # fmt: skip
# What a house owns is read, if at all, for its counterweight sets; it is spoilt there.
OF_A_COUNTERWEIGHT_SET = {"bricks", "bridges", "rails", "holds", "rules"}
# Looked at both ways, and within by either.
EITHER_WAY = {"rating of", "counts", "line"}
# A figure of its own, or another rule, goes before it.
BESIDE_ITS_OWN = {"lock hold", "batten stress", "estimate spread"}
# A dead-hung batten has no blocks and no head block.
DEAD_HUNG = {
    "turn",
    "head block from end",
    "loft block",
    "head block",
    "head beam",
    "head beam sideways",
    "loft beam sideways",
}
# Left out they mean what docs say they do: a default of the program, nothing of that, or as the others.
LEFT_OUT = {
    "hand line", "travels", "allowed stress", "splices", "attachments", "spread over", "block at", "length",
    "trim error", "loft block", "mule blocks", "stiffness", "breaking strength", "termination", "trim chain", "shackle",
    "turnbuckle", "clamp", "hitch", "brick", "rail", "lock", "posted", "condition", "side", "rules", "lift line factor",
    "sag", "plate every", "spread", "lift lines", "head beam sideways", "loft beam sideways", "design wall",
    "centre of gravity", "ties",
    "lands", "cables", "weight", "comes", "clamps", "fit from", "fit to", "fullness", "joins at",
    "trims", "show", "dead", "bridges", "rating", "hold", "guides",
}  # fmt: skip


def _whole(label: str) -> Map:
    """The documents with one of the sets alone."""
    house = a_full_house()
    house["sets"] = [one for one in house["sets"] if one["set"] == label]
    house["steel"][0]["sets"] = [label]
    places = [one for one in full_places() if one["set"] == label]
    pieces = [one for one in full_pieces() if one["piece"] == places[0]["piece"]]
    return copy.deepcopy({"house": house, "pieces": pieces, "places": places})


def _verdict(tree: Map, label: str) -> Verdict | None:
    """Of the house, None where the documents are refused."""
    stated = {"stated_bricks": {"9": "8"}} if label == "9" else {}
    try:
        return judged(tree["house"], tree["pieces"], tree["places"], **stated).verdict
    except BadDocument:
        return None


def _paths(node: Any, at: Path = ()) -> Iterator[Path]:
    for step, inner in node.items() if isinstance(node, dict) else enumerate(node) if isinstance(node, list) else ():
        if len(at) > 0:
            yield (*at, step)
        yield from _paths(inner, (*at, step))


def _spoilt(label: str, path: Path, spoil: Callable[[Any, Any], None]) -> Verdict | None:
    tree = _whole(label)
    around: Any = tree
    for step in path[:-1]:
        around = around[step]
    spoil(around, path[-1])
    return _verdict(tree, label)


def _unknown(around: Any, step: Any) -> None:
    around[step] = "unknown"


def _gone(around: Any, step: Any) -> None:
    del around[step]


@cache
def _still_within(spoil: Callable[[Any, Any], None]) -> dict[str, set[str]]:
    """The words that may be spoilt and leave a set within, with the places where they stand."""
    found: dict[str, set[str]] = {}
    for label in SETS:
        whole = _whole(label)
        for path in _paths(whole):
            if label != "9" and path[1] in OF_A_COUNTERWEIGHT_SET:
                continue
            inner: Any = whole
            for step in path:
                inner = inner[step]
            if isinstance(inner, dict | list) and spoil is _unknown:
                continue
            if spoil is _gone and isinstance(path[-1], int):
                continue  # one less of a list is another house, not one that is not known
            if _spoilt(label, path, spoil) is Verdict.WITHIN:
                word = next(str(step) for step in reversed(path) if isinstance(step, str))
                found.setdefault(word, set()).add(f"{label}: {'/'.join(map(str, path))}")
    return found


@pytest.mark.parametrize("label", SETS)
def test_the_whole_house_is_within(label: str) -> None:
    assert _verdict(_whole(label), label) is Verdict.WITHIN


def test_one_unknown_figure_leaves_no_set_within_that_rests_on_it() -> None:
    allowed = NOT_READ | OF_A_PLAN | EITHER_WAY | BESIDE_ITS_OWN | DEAD_HUNG
    silent = {word: sorted(places) for word, places in _still_within(_unknown).items() if word not in allowed}
    assert not silent


def test_a_rating_that_is_unknown_leaves_a_set_within_only_where_the_set_has_no_such_part() -> None:
    """`rating` is on the list for what a house owns and a dead-hung batten has not; nowhere else."""
    places = _still_within(_unknown)["rating"]
    assert {place.split("/", 1)[1].split("/")[0] for place in places if not place.startswith("30")} <= {"holds"}
    assert all("block" in place or "holds" in place for place in places)


def test_a_length_that_is_unknown_leaves_no_set_within() -> None:
    assert "length" not in _still_within(_unknown)


def test_what_is_left_out_leaves_a_set_within_only_where_leaving_out_has_a_meaning() -> None:
    allowed = NOT_READ | OF_A_PLAN | EITHER_WAY | BESIDE_ITS_OWN | DEAD_HUNG | LEFT_OUT
    silent = {word: sorted(places) for word, places in _still_within(_gone).items() if word not in allowed}
    assert not silent


def test_no_word_is_on_a_list_without_need() -> None:
    met = set(_still_within(_gone)) | set(_still_within(_unknown))
    assert met >= (NOT_READ | OF_A_PLAN | EITHER_WAY | BESIDE_ITS_OWN | DEAD_HUNG | LEFT_OUT)
