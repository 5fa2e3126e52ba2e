"""Laws of a whole house: a set more, all of it heavier and stronger, seen in a mirror, known in a range."""

from __future__ import annotations

import copy
import re
from typing import Any

import pytest
from hypothesis import given, settings, strategies as st

from counterpoise.balance import Span, Stack, out_of_balance
from counterpoise.checks import HouseResult, Verdict
from counterpoise.loadpath import Forces, forces_of
from tests.full_house import a_full_house, full_pieces, full_places
from tests.plain_house import Map, a_house, a_piece, a_set, hung, judged

few = settings(max_examples=10, deadline=None)
STATED = {"9": "8"}
WEIGHED = re.compile(r"(\d[\d,]*\.?\d*) (lb/ft|lb|psi|ksi|psf)")


def _judged(house: Map, pieces: list[Map], places: list[Map]) -> HouseResult:
    return judged(house, pieces, places, stated_bricks=STATED)


def _told(result: HouseResult, label: str, *, shared: bool = True) -> list[tuple[str, Verdict, float]]:
    """The rows of a set with verdict and use; of the set alone where the steel it shares is left out."""
    found = result.set_called(label)
    assert found is not None
    return [(row.key, row.verdict, round(row.use, 9)) for row in found.rows if shared or "beam" not in row.link]


# --------------------------------------------------------------------------------------------------- a set more


@given(weight=st.integers(1, 2_000), wrong=st.sampled_from(["", "unknown"]), lines=st.sampled_from(["5", "2"]))
@few
def test_a_set_more_in_the_bay_changes_nothing_of_another_sets_own(weight: int, wrong: str, lines: str) -> None:
    house, pieces, places = a_full_house(), full_pieces(), full_places()
    before = _judged(house, pieces, places)
    more = a_set("40", lines={"at": ["10' SR", "10' SL"]} if lines == "2" else {})
    if wrong:
        more["batten"]["length"] = wrong
    house = copy.deepcopy(house)
    house["sets"].append(more)
    house["steel"][0]["sets"].append("40")
    after = _judged(house, [*pieces, a_piece("border", f"{weight} lb", spread_over="18 ft")],
                    [*places, hung("border", "40")])  # fmt: skip
    for label in ("9", "20", "30"):
        assert _told(before, label, shared=False) == _told(after, label, shared=False)
    one, two = (result.set_called("9") for result in (before, after))
    assert one is not None
    assert two is not None
    assert one.balance == two.balance


# ----------------------------------------------------------------------------------------------- twice as heavy


def _times(node: Any, factor: float) -> Any:
    """Every weight, force and stress in it."""
    if isinstance(node, dict):
        return {name: _times(inner, factor) for name, inner in node.items()}
    if isinstance(node, list):
        return [_times(inner, factor) for inner in node]
    return WEIGHED.sub(lambda one: f"{float(one[1].replace(',', '')) * factor:.9f} {one[2]}", node)


@given(factor=st.floats(0.8, 1.8), light=st.integers(1, 250), more=st.integers(0, 300), single=st.booleans())
@few
def test_a_house_of_everything_heavier_and_as_much_stronger_is_judged_alike(
    factor: float, light: int, more: int, single: bool
) -> None:
    """Statics is linear where loads, stiffnesses and limits grow alike. A pipe is not held to the weight of steel."""
    house = a_house(a_set(purchase="single" if single else "double", hand_line={"rating": "300 lb"},
                          lock={"hold": "50 lb"}, posted=[{"load": "300 lb", "counts": "unknown"}],
                          batten={"allowed stress": "21,000 psi", "modulus": "12,000 ksi",
                                  "attachments": [{"attachment": "track", "weight": "30 lb", "centre": "3' SL"}]},
                          lines={"weight": "0.11 lb/ft"}))  # fmt: skip
    cable = {"length": "66 ft", "weight": "0.6 lb/ft", "box": "62 ft"}
    pieces = [a_piece(weight=f"{light} lb..{light + more} lb", cables=[cable])]
    found = []
    for times in (1.0, factor):
        result = _judged(_times(house, times), _times(pieces, times), [hung()])
        found.append(_told(result, "9"))
    assert [(key, verdict) for key, verdict, _ in found[0]] == [(key, verdict) for key, verdict, _ in found[1]]
    # lengths do not grow: sag is the same by load over stiffness; all else is force over force
    assert [use for _, _, use in found[0]] == pytest.approx([use for _, _, use in found[1]], rel=1e-5)


# ------------------------------------------------------------------------------------------------- in a mirror

PLACE = re.compile(r"S([LR])")


def _mirrored(node: Any) -> Any:
    """Stage left for stage right, and lists of places from the other end."""
    if isinstance(node, dict):
        return {name: _mirrored(inner) for name, inner in node.items()}
    if isinstance(node, list):
        inner = [_mirrored(one) for one in node]
        return (
            inner[::-1] if any("at" in one if isinstance(one, dict) else PLACE.search(one) for one in node) else inner
        )
    said = PLACE.sub(lambda one: "SR" if one[1] == "L" else "SL", node)
    return {"stage left": "stage right", "stage right": "stage left"}.get(said, said)


@given(centre=st.integers(-12, 12), pick=st.integers(1, 8), middle=st.integers(-4, 4), error=st.integers(-2, 2),
       track=st.integers(-15, 15), lean=st.integers(-6, 6),
       block=st.sampled_from(["unknown", "resultant", "line pull"]),
       cable=st.integers(-5, 5))  # fmt: skip
@few
def test_a_house_and_its_mirror_image_are_judged_alike(
    centre: int, pick: int, middle: int, error: int, track: int, lean: int, block: str, cable: int
) -> None:
    def at(feet: float) -> str:
        return f"{abs(feet)} ft {'SL' if feet >= 0 else 'SR'}"

    lines = [{"at": "20 ft SR", "trim error": f"{error}/16 in"},
             {"at": "8 ft SR", "block at": f"{8 + lean / 12:.4f} ft SR"},
             {"at": "3 ft SL"}, {"at": "18 ft SL", "trim error": "0 in..1/16 in"}]  # fmt: skip
    one = a_set(lines={"at": lines, "weight": "0.11 lb/ft"},
                batten={"attachments": [{"attachment": "track", "weight": "20..30 lb", "centre": at(track)}],
                        "splices": [{"at": at(4), "strength": "70 %"}]})  # fmt: skip
    one["loft block"]["rating of"] = block
    piece = {"piece": "electric", "weight": "~80 lb", "height": "2 ft", "picks": [at(-pick), at(pick)],
             "centre of gravity": at(min(pick, max(-pick, middle))),
             "cables": [{"length": "66 ft", "weight": "0.4 lb/ft", "box": "62 ft", "at": at(cable)}]}  # fmt: skip
    house = a_house(one, rails=[{"rail": "main", "side": "stage left"}])
    places = [hung("electric", centre=at(centre))]
    left = _judged(house, [piece], places).sets[0]
    right = _judged(_mirrored(house), _mirrored([piece]), _mirrored(places)).sets[0]
    assert left.verdict is right.verdict
    assert isinstance(left.forces, Forces) is isinstance(right.forces, Forces)
    other = {(row.link, row.line): row for row in right.rows}
    for row in left.rows:
        seen = other[row.link, None if row.line is None else len(lines) + 1 - row.line]
        assert (seen.value.low, seen.value.best, seen.value.high) == pytest.approx(
            (row.value.low, row.value.best, row.value.high), rel=1e-6, abs=1e-6)  # fmt: skip
        assert seen.limit == (row.limit and pytest.approx(row.limit))


# ------------------------------------------------------------------------------------------ known within a range

WHERE = ["piece", "cable", "attachment", "hardware", "pipe", "arbor", "trim error", "bags", "section", "takeoff"]


def _with(where: str, figure: str) -> tuple[Map, list[Map]]:
    """A house with one figure of that kind, counterweight but for bags, and its piece."""
    changes: Map = {"purchase": "single"}
    if where == "bags":
        changes = {"rigged": "hemp", "purchase": None, "bags": {"weight": figure, "pin": "100 lb", "hauls": "60 lb"}}
    at: list[Any] = ["20' SR", "10' SR", "CL", "10' SL", "20' SL"]
    if where == "trim error":
        at[1] = {"at": "10' SR", "trim error": figure}
    track = {"attachment": "track", "weight": figure if where == "attachment" else "10 lb", "centre": "5' SL"}
    batten: Map = {"attachments": [track]}
    if where == "hardware":
        batten["hardware"] = figure
    if where == "pipe":
        batten["weight"] = figure
    arbor = {"weight": figure} if where == "arbor" else {}
    one = a_set("9", batten=batten, lines={"at": at}, arbor=arbor, **changes)
    one["loft block"] = {"rating": "70 lb", "rating of": "unknown"}
    cable = {"length": "66 ft", "weight": figure if where == "cable" else "0.1 lb/ft", "box": "62 ft"}
    piece = a_piece(weight=figure if where == "piece" else "100 lb", cables=[cable])
    part = {"weight": figure, "height": "5 ft", "balance height": "2 ft"}
    if where == "section":
        piece |= {"comes": "in sections", "sections": [part, part | {"weight": "20 lb"}]}
        del piece["weight"], piece["height"]
    if where == "takeoff":
        piece["takeoff"] = [{"what": "lamp", "each": figure, "count": "3"}]
        del piece["weight"]
    return a_house(one), [piece]


UNITS = {"cable": ("lb/ft", 0.01), "pipe": ("lb/ft", 0.02), "trim error": ("in", 0.01), "takeoff": ("lb", 0.5)}


@given(where=st.sampled_from(WHERE), low=st.integers(55, 130), more=st.integers(0, 60), bricks=st.integers(5, 9))
@settings(max_examples=40, deadline=None)
def test_what_is_within_for_a_range_is_within_at_both_its_ends(where: str, low: int, more: int, bricks: int) -> None:
    unit, step = UNITS.get(where, ("lb", 1.5 if where == "bags" else 1.0))
    ends = [f"{n * step:.2f} {unit}" for n in (low, low + more)]
    verdicts = []
    for figure in (f"{ends[0]}..{ends[1]}", *ends):
        house, pieces = _with(where, figure)
        stated = {} if where == "bags" else {"stated_bricks": {"9": str(bricks)}}
        found = judged(house, pieces, [hung()], **stated).sets[0]
        verdicts.append({(row.link, row.line): row.verdict for row in found.rows})
    between, *at_ends = verdicts
    for row, verdict in between.items():
        said = {one[row] for one in at_ends}
        assert verdict is not Verdict.WITHIN or said == {Verdict.WITHIN}, row
        assert verdict is not Verdict.OVER or Verdict.OVER in said, row


@given(low=st.integers(60, 130), more=st.integers(0, 60), bricks=st.integers(5, 9), height=st.floats(4, 58))
@few
def test_the_balance_of_a_range_holds_that_of_each_of_its_ends(low: int, more: int, bricks: int, height: float) -> None:
    spans = []
    for figure in (f"{low}..{low + more} lb", f"{low} lb", f"{low + more} lb"):
        house, pieces = _with("section", figure)
        found = judged(house, pieces, [hung()], stated_bricks={"9": str(bricks)}).sets[0]
        assert found.rigged is not None
        spans.append(out_of_balance(found.rigged, Stack(bricks), height * 0.3048))
    between, *ends = spans
    assert all(between.low - 1e-6 <= one.low <= one.high <= between.high + 1e-6 for one in ends)


ENDS = st.lists(st.booleans(), min_size=4, max_size=4)


@given(pick=st.integers(-12, 12), cable=st.integers(-14, 14), from_=st.integers(-18, 10), ends=ENDS)
@settings(max_examples=25, deadline=None)
def test_each_weight_in_doubt_may_be_at_its_own_end_and_the_pulls_hold_it(
    pick: int, cable: int, from_: int, ends: list[bool]
) -> None:
    """A piece heavy and its cable light, one length of pipe heavy and the rest light: all within the range told."""

    def at(feet: float) -> str:
        return f"{abs(feet)} ft {'SL' if feet >= 0 else 'SR'}"

    def pulls(weights: list[str]) -> list[Span]:
        other = {"from": at(from_), "to": at(from_ + 8), "outside diameter": "1.9 in", "wall": "0.145 in",
                 "weight": weights[2], "modulus": "29,000 ksi"}  # fmt: skip
        one = a_set(batten={"weight": weights[3], "lengths": [other]})
        box = {"length": "66 ft", "weight": weights[1], "box": "62 ft", "at": at(cable - pick)}
        piece = a_piece(weight=weights[0], picks=["CL"], cables=[box])
        found = judged(a_house(one), [piece], [hung(centre=at(pick))]).sets[0]
        assert found.forces is not None
        return list(found.forces.tensions)

    both = [("60 lb", "160 lb"), ("0.5 lb/ft", "3 lb/ft"), ("2 lb/ft", "3.4 lb/ft"), ("2.4 lb/ft", "3 lb/ft")]
    told = pulls([f"{low}..{high}" for low, high in both])
    drawn = pulls([two[end] for two, end in zip(both, ends, strict=True)])
    assert all(
        one.low - 1e-6 <= each.low <= each.high <= one.high + 1e-6 for one, each in zip(told, drawn, strict=True)
    )


# --------------------------------------------------------------------------------------------------- equilibrium


@given(weight=st.integers(1, 500), track=st.integers(1, 100), cable=st.floats(0.1, 2.0), trim=st.integers(-8, 8),
       centre=st.integers(-10, 10))  # fmt: skip
@few
def test_the_lines_carry_all_that_hangs_whatever_their_trims(
    weight: int, track: int, cable: float, trim: int, centre: int
) -> None:
    at: list[Any] = ["20' SR", {"at": "10' SR", "trim error": f"{trim}/16 in"}, "CL", "10' SL", "20' SL"]
    one = a_set(
        lines={"at": at}, batten={"attachments": [{"attachment": "track", "weight": f"{track} lb", "centre": "CL"}]}
    )
    box = {"length": "66 ft", "weight": f"{cable:.3f} lb/ft", "box": "62 ft", "count": "2"}
    pieces = [a_piece(weight=f"{weight} lb", spread_over="10 ft", cables=[box])]
    place = f"{abs(centre)} ft {'SL' if centre > 0 else 'SR'}"
    found = judged(a_house(one), pieces, [hung(centre=place)]).sets[0]
    assert found.batten is not None
    forces = forces_of(found.batten)
    assert isinstance(forces, Forces)
    hangs = 114.24 + track + weight + 2 * round(cable, 3) * (58 - 62 + 66) / 2
    assert sum(forces.best.tensions) / 4.4482216152605 == pytest.approx(hangs, rel=1e-9)


@given(weight=st.integers(1, 150), more=st.integers(0, 100), centre=st.integers(-6, 6),
       lines=st.sampled_from([["20' SR", "CL", "20' SL"], ["20' SR", "10' SR", "CL", "10' SL", "20' SL"]]),
       open_=st.sampled_from(["stiffness", "head block from end"]),
       purchase=st.sampled_from(["single", "double"]))  # fmt: skip
@few
def test_the_head_beam_carries_what_hangs_also_where_nobody_knows_how_the_lines_share_it(
    weight: int, more: int, centre: int, lines: list[str], open_: str, purchase: str
) -> None:
    """Vertical equilibrium: 5 × 0.11 lb/ft × 58 ft of the one set's ropes, 114.24 lb of either pipe, and the piece."""
    place = f"{abs(centre)} ft {'SL' if centre > 0 else 'SR'}"
    found = {}
    for figure in ("unknown", "446,000 lb" if open_ == "stiffness" else "4 ft"):
        other = a_set("10", lines={"at": lines, "weight": "0.11 lb/ft", open_: figure}, purchase=purchase)
        piece = a_piece(weight=f"{weight}..{weight + more} lb", spread_over="10 ft")
        result = judged(a_house(a_set("9", lines={"weight": "0.11 lb/ft"}), other), [piece],
                        [hung(on="10", centre=place)])  # fmt: skip
        one = result.set_called("9")
        assert one is not None
        beam, loft = one.row("head beam"), one.row("loft beam", 1)
        assert beam is not None
        assert loft is not None
        assert (loft.verdict is Verdict.UNKNOWN) is (figure == "unknown")
        assert beam.verdict is Verdict.WITHIN
        found[figure] = (beam.value.low, beam.value.best, beam.value.high)
    known, unknown = found.values()
    assert unknown == pytest.approx(known, rel=1e-9)
    ropes = 0.11 * 58 * len(lines)
    times = 2 if purchase == "double" else 1
    ends = [
        114.24 + 5 * 0.11 * 58 + times * (114.24 + ropes + each) for each in (weight, weight + more / 2, weight + more)
    ]
    assert [end / 4.4482216152605 for end in unknown] == pytest.approx(ends, rel=1e-9)


@pytest.mark.parametrize("change", [
    {"batten": {"hardware": "unknown"}}, {"lines": {"weight": "unknown"}},
    {"lines": {"at": [{"at": "20' SR", "block at": "22' SR"}, "20' SL"]}},
])  # fmt: skip
def test_where_the_weight_itself_is_not_known_or_lines_lean_the_head_beam_stays_unknown(change: Map) -> None:
    lines = change.get("lines", {}) | {"stiffness": "unknown"}
    result = judged(a_house(a_set("9"), a_set("10", **(change | {"lines": lines}))), [a_piece()], [hung()])
    one = result.set_called("9")
    assert one is not None
    row = one.row("head beam")
    assert row is not None
    assert row.verdict is Verdict.UNKNOWN
